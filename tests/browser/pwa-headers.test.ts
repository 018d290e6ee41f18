import { readdirSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, inject, test } from 'vitest';
import { appPolicy, headersFor, openPolicy } from '../../scripts/headers.mjs';
import { type Running, serve } from '../../scripts/serve.mjs';
import { type Visit, visit } from '../helpers/browser.ts';

/** Runs in a page or a worker: what the policy lets happen there. */
const probe = (elsewhere: string): string => `
  const said = [];
  self.addEventListener('securitypolicyviolation', (event) => said.push(event.effectiveDirective));
  const probe = async () => {
    let evaluated = 'blocked';
    try { evaluated = String((0, eval)('1 + 1')); } catch (error) { evaluated = error.name; }
    let made = 'blocked';
    try { made = String(new Function('return 2')()); } catch (error) { made = error.name; }
    const far = await fetch('${elsewhere}').then((answer) => answer.text(), (error) => error.name);
    const near = await fetch('/decks/index.json').then((answer) => answer.status, (error) => error.name);
    return { evaluated, made, far, near, said };
  };
  if (typeof document === 'undefined') probe().then((result) => postMessage(result));
  else window.probed = probe();
`;

let server: Running;
let browser: Visit;
let other: Server;
let elsewhere: string;
let asked = 0;

beforeAll(async () => {
  // Another origin that lets everybody read: what is blocked is blocked by our policy alone.
  other = createServer((_request, response) => {
    asked += 1;
    response.writeHead(200, { 'Access-Control-Allow-Origin': '*' }).end('from elsewhere');
  });
  await new Promise<void>((done) => other.listen(0, 'localhost', done));
  elsewhere = `http://localhost:${(other.address() as AddressInfo).port}/`;
  server = await serve({ dir: inject('dist') });
  const js = { 'Content-Type': 'text/javascript' };
  server.served.extra.set('/probe.js', { body: probe(elsewhere), headers: js });
  server.served.extra.set('/free.js', { body: probe(elsewhere), headers: { ...js, 'Content-Security-Policy': '' } });
  browser = await visit();
  await browser.page.goto(server.url);
});

afterAll(async () => {
  await browser.close();
  await server.close();
  other.close();
});

const inWorker = (script: string): Promise<unknown> =>
  browser.page.evaluate(
    (url) =>
      new Promise((done, failed) => {
        const worker = new Worker(url, { type: 'module' });
        worker.onmessage = (event) => done(event.data);
        worker.onerror = (event) => failed(new Error(event.message));
      }),
    script,
  );

describe('policy', () => {
  test('in the page: no eval, no other origin, no inline script, no inline style', async () => {
    const { page } = browser;
    const result = await page.evaluate(async () => {
      const script = document.createElement('script');
      script.src = '/probe.js';
      document.head.append(script);
      await new Promise((done) => script.addEventListener('load', done));
      return (window as unknown as { probed: Promise<unknown> }).probed;
    });
    expect(result).toMatchObject({ evaluated: 'EvalError', made: 'EvalError', far: 'TypeError', near: 200 });
    expect(asked).toBe(0);
    const inline = await page.evaluate(async () => {
      const said: string[] = [];
      document.addEventListener('securitypolicyviolation', (event) => said.push(event.effectiveDirective));
      const script = document.createElement('script');
      script.textContent = 'window.inlineRan = true';
      document.head.append(script);
      const style = document.createElement('p');
      style.setAttribute('style', 'width: 12px');
      document.body.append(style);
      await new Promise((done) => setTimeout(done, 50));
      const width = style.style.width;
      style.remove();
      return { ran: 'inlineRan' in window, width, said: said.sort() };
    });
    expect(inline).toEqual({ ran: false, width: '', said: ['script-src-elem', 'style-src-attr'] });
  });

  test('inside a worker: the same', async () => {
    expect(await inWorker('/probe.js')).toMatchObject({
      evaluated: 'EvalError',
      made: 'EvalError',
      far: 'TypeError',
      near: 200,
    });
    expect(asked).toBe(0);
  });

  test('a worker served without the header could do all that: the two tests above can fail', async () => {
    expect(await inWorker('/free.js')).toMatchObject({ evaluated: '2', made: '2', far: 'from elsewhere' });
    expect(asked).toBe(1);
  });

  test('open.html alone may fetch from elsewhere, over https', async () => {
    const page = await browser.context.newPage();
    const answer = await page.goto(`${server.url}open.html`);
    expect(answer?.headers()['content-security-policy']).toBe(openPolicy);
    expect(openPolicy).toContain('connect-src https:;');
    expect(appPolicy).toContain("connect-src 'self';");
    await page.close();
  });

  test('neither policy has an unsafe word', () => {
    for (const one of [appPolicy, openPolicy]) expect(one).not.toMatch(/unsafe|\*|data:|blob:/);
  });
});

test('every file of the build is served with all headers and its own type', async () => {
  const files = readdirSync(inject('dist'), { recursive: true, encoding: 'utf8', withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.name.startsWith('_'))
    .map((entry) => `${entry.parentPath.slice(inject('dist').length)}/${entry.name}`);
  expect(files.length).toBeGreaterThan(8);
  for (const file of files) {
    const answer = await fetch(new URL(file, server.url));
    expect(answer.status, file).toBe(200);
    for (const [name, value] of Object.entries(headersFor(file))) expect(answer.headers.get(name), file).toBe(value);
    expect(answer.headers.get('content-type'), file).not.toBe('application/octet-stream');
  }
});

test('a missing file is 404, not the app; other methods and paths above the folder get nothing', async () => {
  for (const path of [
    'assets/index-00000000.js',
    'nowhere',
    'decks/none.deck.json',
    '..%2f..%2fpackage.json',
    '_headers',
  ]) {
    expect((await fetch(new URL(path, server.url))).status, path).toBe(404);
  }
  const { page } = browser;
  expect(await page.evaluate(() => fetch('assets/index-00000000.js').then((answer) => answer.status))).toBe(404);
  expect((await fetch(server.url, { method: 'POST' })).status).toBe(405);
  const first = await fetch(server.url);
  const again = await fetch(server.url, { headers: { 'If-None-Match': first.headers.get('etag') ?? '' } });
  expect(again.status).toBe(304);
});
