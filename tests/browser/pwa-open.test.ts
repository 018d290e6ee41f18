import { afterAll, beforeAll, beforeEach, expect, inject, test } from 'vitest';
import { makeKey, signingKey } from '../../src/exchange/keys.ts';
import { signDeck } from '../../src/exchange/signature.ts';
import { axe, touchTargets, type Visit, visit } from '../helpers/browser.ts';

const text = '{"title": "<img src=x onerror=alert(1)>"}';
const deck: { readonly signatures?: readonly string[]; readonly title: string } = { title: 'As it was' };
const signed = await signDeck(deck, await signingKey(await makeKey()), {
  role: 'author',
  name: 'A. Author',
  date: '2026-11-25',
});
const broken = JSON.stringify({ ...signed, title: 'Changed' });
let browser: Visit;
let asked: string[] = [];

beforeAll(async () => {
  browser = await visit();
  // No host of the world is asked: the browser's own network layer answers in its place, behind the page's policy.
  await browser.context.route('https://decks.example/**', async (route) => {
    const url = route.request().url();
    asked.push(
      `${url} cookie=${route.request().headers().cookie ?? 'none'} referer=${route.request().headers().referer ?? 'none'}`,
    );
    const headers = { 'Access-Control-Allow-Origin': '*' };
    if (url.endsWith('/gone')) await route.fulfill({ status: 404, headers });
    else if (url.endsWith('/down')) await route.abort('connectionrefused');
    else if (url.endsWith('/page'))
      await route.fulfill({ status: 200, headers, body: '<!doctype html><p>Sign in</p>' });
    else if (url.endsWith('/broken')) await route.fulfill({ status: 200, headers, body: broken });
    else if (url.endsWith('/large')) await route.fulfill({ status: 200, headers, body: 'x'.repeat(2_000_001) });
    else if (url.endsWith('/signed')) await route.fulfill({ status: 200, headers, body: JSON.stringify(signed) });
    else await route.fulfill({ status: 200, headers, body: text });
  });
  // What the app finds, before it takes it.
  await browser.context.addInitScript(() => {
    Object.assign(window, { found: sessionStorage.getItem('recency.incoming') });
  });
});

beforeEach(() => {
  asked = [];
});

afterAll(() => browser.close());

const open = async (address: string) => {
  const { page } = browser;
  await page.goto('about:blank');
  await page.goto(`${inject('baseUrl')}open.html#deck=${address}`);
  await page.evaluate(() => sessionStorage.clear());
  return page;
};

test('shows the host, asks, fetches nothing before, and hands the text to the app', async () => {
  const page = await open('https://decks.example/a.deck.json');
  expect(await page.locator('#host').innerText()).toBe('decks.example');
  expect(await page.locator('#address').innerText()).toBe('https://decks.example/a.deck.json');
  expect(await page.locator('#caution').innerText()).toContain('your operator lets you copy');
  expect(asked).toEqual([]);
  await page.getByRole('button', { name: 'Fetch it' }).tap();
  await page.getByRole('button', { name: 'Look at it in Recency' }).waitFor();
  expect(await page.locator('#signers').innerText()).toBe('nobody: nothing proves who made it');
  await page.getByRole('button', { name: 'Look at it in Recency' }).tap();
  await page.waitForURL(`${inject('baseUrl')}?go=incoming`);
  expect(asked).toEqual(['https://decks.example/a.deck.json cookie=none referer=none']);
  const found = await page.evaluate(() => (window as unknown as { found: string }).found);
  expect(JSON.parse(found)).toEqual({ from: 'https://decks.example/a.deck.json', text });
});

test('shows who signed it, with the key, before it hands it over', async () => {
  const page = await open('https://decks.example/signed');
  await page.getByRole('button', { name: 'Fetch it' }).tap();
  await expect
    .poll(() => page.locator('#signers').innerText())
    .toMatch(/^A\. Author \(author\), key ([A-Z2-7]{4} ?){4}$/);
  expect(await axe(page)).toEqual([]);
});

test.each([
  ['gone', 'answered 404'],
  ['down', 'could not be reached'],
  ['large', 'larger than 2 MB'],
  ['page', 'a web page, not a deck'],
  ['broken', 'The signature of A. Author does not fit this deck'],
])('%s: says so, keeps nothing, and can be tried again', async (path, why) => {
  const page = await open(`https://decks.example/${path}`);
  await page.getByRole('button', { name: 'Fetch it' }).tap();
  await expect.poll(() => page.locator('#say').innerText()).toContain(why);
  expect(await page.getByRole('button', { name: 'Fetch it' }).isVisible()).toBe(true);
  expect(await page.evaluate(() => sessionStorage.length)).toBe(0);
});

test('an address that is not https is never asked, and is shown as text', async () => {
  const page = await open('http://decks.example/<b>');
  expect(await page.locator('#say').innerText()).toContain('https only');
  expect(await page.getByRole('button').count()).toBe(0);
  expect(asked).toEqual([]);
});

test.each(['light', 'dark'] as const)('is accessible and large enough to tap: %s', async (colorScheme) => {
  await browser.page.emulateMedia({ colorScheme });
  const page = await open('https://decks.example/a.deck.json');
  expect(await page.getByRole('button').count()).toBe(1);
  expect(await axe(page)).toEqual([]);
  expect(await touchTargets(page)).toEqual([]);
});
