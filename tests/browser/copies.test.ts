import { buffer } from 'node:stream/consumers';
import { afterAll, beforeAll, expect, inject, test } from 'vitest';
import { writeCopy } from '../../src/exchange/saved-copy.ts';
import { toLine } from '../../src/log/line.ts';
import { answer, firstMinutes, heading, logLines, press, WIND } from '../helpers/app.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { sound } from '../helpers/sound.ts';

let first: Visit;
/** As the first device saved it. */
let copyText = '';
let second: Visit;
beforeAll(async () => {
  [first, second] = await Promise.all([visit(), visit()]);
});
afterAll(() => Promise.all([first.close(), second.close()]));

test('a saved copy brings everything to another device; twice is once', async () => {
  const { page } = first;
  await page.goto(inject('baseUrl'));
  await firstMinutes(page, WIND);
  await press(page, /ask me/);
  await answer(page, 'Sure');
  await press(page, 'Enough for today');
  await press(page, 'To the Brief');
  await press(page, 'Settings');
  // No sharing here: it is downloaded.
  await page.evaluate(() => Object.defineProperty(navigator, 'canShare', { value: undefined, configurable: true }));
  const [download] = await Promise.all([page.waitForEvent('download'), press(page, 'Save a copy of everything')]);
  expect(download.suggestedFilename()).toMatch(/^recency-copy-\d{4}-\d\d-\d\d\.txt$/);
  const copy = await buffer(await download.createReadStream());
  copyText = copy.toString('utf8');
  const lines = (await logLines(page)).sort();

  const other = second.page;
  await other.goto(inject('baseUrl'));
  await press(other, 'I have read this');
  await other.goto(`${inject('baseUrl')}#/settings`);
  expect(await heading(other)).toBe('Settings');
  const take = (bytes: Buffer) =>
    other.locator('input[type=file]').setInputFiles({ name: 'copy.txt', mimeType: 'text/plain', buffer: bytes });
  const said = () => other.locator('main').innerText();
  await take(copy);
  await expect
    .poll(said)
    .toContain(`Taken in: 1 answer of 1 day and ${lines.length - 1} other entries; 1 deck was new. 0 entries`);
  expect((await logLines(other)).sort()).toEqual(lines);
  await take(copy);
  await expect
    .poll(said)
    .toContain(`Taken in: no new entry; 0 decks were new. ${lines.length} entries were here already`);
  expect((await logLines(other)).sort()).toEqual(lines);

  // A part of it, with a damaged line.
  const torn = copy.toString('utf8').split('\n').slice(0, -2);
  torn.splice(2, 0, '{"v":1,"k":"answer"');
  await take(Buffer.from(torn.join('\n')));
  await expect.poll(said).toContain('ends too early');
  expect(await said()).toContain('line 3');
  await take(Buffer.from('a photo of a cat'));
  await expect.poll(said).toContain('not a saved copy');
  await sound(other, 'settings, no saved copy');
  expect((await logLines(other)).sort()).toEqual(lines);

  await press(other, 'Brief');
  await expect.poll(said).toContain('days to your check');
});

test('a fresh phone takes a copy in where decks are opened, told as in Settings, and goes on to the Brief', async () => {
  const third = await visit();
  try {
    const { page } = third;
    await page.goto(inject('baseUrl'));
    await press(page, 'I have read this');
    const give = (name: string, text: string) =>
      page.locator('input[type=file]').setInputFiles({ name, mimeType: 'text/plain', buffer: Buffer.from(text) });
    const said = () => page.locator('main').innerText();
    const label = 'Open a deck file, saved copy or assignment';
    await page.getByText(label).waitFor();
    // Cut off within its first line: known by its name alone.
    await give('recency-copy-2026-11-27.txt', copyText.slice(0, 20));
    await press(page, 'Take it in');
    await page.getByRole('alert').getByText('This is not a saved copy of Recency').waitFor();
    await press(page, 'Not now');
    await page.getByText(label).waitFor();
    expect(await logLines(page)).toEqual([]);

    await give('from-mail.txt', copyText);
    await expect.poll(() => heading(page)).toBe('A saved copy');
    await sound(page, 'a saved copy, to be taken in');
    await press(page, 'Take it in');
    await expect.poll(said).toContain('Taken in: 1 answer of 1 day and');
    expect(await said()).toContain('1 deck was new. 0 entries were here already. Nothing was lost.');
    await sound(page, 'a saved copy, taken in');
    await press(page, 'To the Brief');
    await expect.poll(said).toContain('days to your check');

    // Dropped, and cut off.
    await page.evaluate((text) => {
      const files = new DataTransfer();
      files.items.add(new File([text], 'cut.txt'));
      dispatchEvent(new DragEvent('drop', { dataTransfer: files, cancelable: true }));
    }, copyText.split('\n').slice(0, -3).join('\n'));
    await press(page, 'Take it in');
    await expect.poll(said).toContain('The file ends too early');
    expect(third.errors).toEqual([]);
  } finally {
    await third.close();
  }
});

test('how far the joining of a long copy has come stands on the screen, and goes when it is done', async () => {
  const ENTRIES = 20_000;
  const other = second.page;
  const before = (await logLines(other)).length;
  await other.goto(`${inject('baseUrl')}#/settings`);
  await other.getByText('Save a copy of everything').waitFor();
  const lines = Array.from({ length: ENTRIES }, (_, n) =>
    toLine({
      v: 1,
      id: `long.${n + 1}`,
      app: 'test',
      k: 'set',
      key: 'minutes/real',
      value: 10,
      at: Date.UTC(2026, 0, 1) + n * 60_000,
      off: 0,
    }),
  );
  // What is drawn, not what was meant to be.
  await other.evaluate(() => {
    const seen: { share: number; choosing: boolean }[] = [];
    const look = () => {
      const bar = document.querySelector<HTMLProgressElement>('progress[aria-label="Joining the copy"]');
      const file = document.querySelector<HTMLInputElement>('input[type=file]');
      if (bar !== null) seen.push({ share: bar.value, choosing: file?.disabled === false });
      requestAnimationFrame(look);
    };
    look();
    Object.assign(window, { seen });
  });
  await other.locator('input[type=file]').setInputFiles({
    name: 'long.txt',
    mimeType: 'text/plain',
    buffer: Buffer.from(writeCopy({ decks: [], lines }, { app: 'test', at: 0 })),
  });
  await other.getByText(`Taken in: ${ENTRIES} entries`).waitFor();
  await other.getByText(`${before + ENTRIES} entries in the practice log`).waitFor();
  const seen = await other.evaluate(() => (window as unknown as { seen: { share: number; choosing: boolean }[] }).seen);
  const shares = seen.map(({ share }) => share);
  expect(new Set(shares).size).toBeGreaterThan(3);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(Math.min(...shares)).toBeGreaterThanOrEqual(0);
  expect(Math.max(...shares)).toBeLessThanOrEqual(1);
  // No second file in the midst of the first.
  expect(seen.some(({ choosing }) => choosing)).toBe(false);
  expect(await other.locator('progress').count()).toBe(0);
});
