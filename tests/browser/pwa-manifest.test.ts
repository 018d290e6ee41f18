import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { type Launched, launch, offlineReady } from '../helpers/browser.ts';

let browser: Launched;
const complaints: string[] = [];

beforeAll(async () => {
  browser = await launch();
  browser.context.on('console', (message) => {
    if (message.type() !== 'log' && message.type() !== 'debug') complaints.push(message.text());
  });
  await browser.page.goto(inject('baseUrl'));
  await offlineReady(browser.page);
});

afterAll(() => browser.close());

test('the first load brings no complaint of the browser: none about headers, policy, files or scripts', () => {
  expect([...complaints, ...browser.errors]).toEqual([]);
});

interface Picture {
  readonly src: string;
  readonly sizes: string;
  readonly type: string;
  readonly purpose?: string;
}

test('Chromium reads the manifest without a complaint and would install the app', async () => {
  const session = await browser.context.newCDPSession(browser.page);
  const { errors, data } = await session.send('Page.getAppManifest');
  expect(errors).toEqual([]);
  expect(JSON.parse(data ?? '{}')).toMatchObject({ name: 'Recency', display: 'standalone', id: 'recency' });
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  expect(installabilityErrors).toEqual([]);
});

test('every picture that the manifest names is there, in the size it says', async () => {
  const base = inject('baseUrl');
  const manifest = (await (await fetch(new URL('manifest.webmanifest', base))).json()) as {
    icons: Picture[];
    screenshots?: Picture[];
    shortcuts: { url: string; icons: Picture[] }[];
  };
  expect(manifest.icons.map((icon) => `${icon.sizes} ${icon.purpose ?? ''}`.trim())).toEqual(
    expect.arrayContaining(['192x192', '512x512', '512x512 maskable']),
  );
  expect(manifest.shortcuts.map(({ url }) => url)).toEqual(['./?go=drill', './?go=decks']);
  const pictures = [...manifest.icons, ...(manifest.screenshots ?? []), ...manifest.shortcuts.flatMap((s) => s.icons)];
  for (const { src, sizes, type } of pictures) {
    const answer = await fetch(new URL(src, base));
    expect(answer.status, src).toBe(200);
    expect(answer.headers.get('content-type'), src).toContain(type);
    if (type !== 'image/png') continue;
    const header = Buffer.from(await answer.arrayBuffer());
    // Width and height stand at bytes 16 and 20 of a PNG file (PNG specification, 11.2.2 IHDR).
    expect(`${header.readUInt32BE(16)}x${header.readUInt32BE(20)}`, src).toBe(sizes);
  }
});
