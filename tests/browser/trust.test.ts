import { text as readAll } from 'node:stream/consumers';
import type { Download, Page } from 'playwright-core';
import { afterEach, beforeEach, expect, inject, test } from 'vitest';
import { contentId } from '../../src/exchange/content-id.ts';
import { makeKey, signingKey } from '../../src/exchange/keys.ts';
import { signDeck, verifyDeck } from '../../src/exchange/signature.ts';
import { heading, press, unfold } from '../helpers/app.ts';
import { offlineReady, type Visit, visit } from '../helpers/browser.ts';
import { qrOn } from '../helpers/qr.ts';
import { sound } from '../helpers/sound.ts';

const DECK = {
  format: 1,
  id: 'test/signed',
  version: '1.0.0',
  title: 'A signed deck',
  language: 'en',
  nature: 'fictional',
  madeBy: 'A. Author',
  sources: [{ id: 's', title: 'Invented manual', basis: 'invented' }],
  limits: [{ id: 'l', ask: 'How fast?', unit: 'kt', sense: 'at most', value: 250, source: 's' }],
};
type Signable = typeof DECK & { readonly signatures?: readonly string[] };
const AUTHOR = { role: 'author', name: 'A. Author', date: '2026-11-25' } as const;
const author = await signingKey(await makeKey());
const stranger = await signingKey(await makeKey());
const at = (version: string): Signable => ({ ...DECK, version });

let browser: Visit;
beforeEach(async () => {
  browser = await visit();
  await browser.page.goto(inject('baseUrl'));
  await press(browser.page, 'I have read this');
});
afterEach(async () => {
  const { errors } = browser;
  await browser.close();
  expect(errors).toEqual([]);
});

const file = (deck: unknown, name = 'a.deck.json') => ({
  name,
  mimeType: 'application/json',
  buffer: Buffer.from(typeof deck === 'string' ? deck : JSON.stringify(deck)),
});
const give = (deck: unknown) => browser.page.locator('input[type=file]').first().setInputFiles(file(deck));
const main = () => browser.page.locator('main').innerText();
const sheet = async (title: string) => {
  await expect.poll(() => heading(browser.page)).toBe(title);
};
/** The browser may run elsewhere: what it saved is read through the wire. */
const textOf = async (download: Download): Promise<string> => readAll(await download.createReadStream());
/** No check date, and the first thing to read has come up. */
const dated = async (page: Page) => {
  await press(page, /^No date yet/);
  await page.getByRole('button', { name: /ask me/ }).waitFor();
};
/** As if it were dropped by hand: the browser lets no test drag from outside. */
const drop = (page: Page, deck: unknown, times = 1) =>
  page.evaluate(
    ([text, n]) => {
      const data = new DataTransfer();
      for (let i = 0; i < n; i++) data.items.add(new File([text], 'dropped.deck.json', { type: 'application/json' }));
      const event = (type: string) => new DragEvent(type, { bubbles: true, cancelable: true, dataTransfer: data });
      const allowed = !document.body.dispatchEvent(event('dragover'));
      document.body.dispatchEvent(event('drop'));
      return allowed;
    },
    [JSON.stringify(deck), times] as const,
  );

test('who signed is asked at first sight, known afterwards, and can be forgotten', async () => {
  const { page } = browser;
  await give(await signDeck(at('1.0.0'), author, AUTHOR));
  await sheet('A signed deck');
  expect(await main()).toMatch(/Signed by A\. Author, Wednesday,? 25 November 2026\s+([A-Z2-7]{4} ?){4}/);
  expect(await main()).toContain('You have not met this key before');
  await sound(page, 'install, new signer');
  await press(page, 'Trust and install');
  await dated(page);
  await page.goto(`${inject('baseUrl')}#/deck/test%2Fsigned`);
  await expect.poll(main).toContain('You know this key');
  await page.goto(`${inject('baseUrl')}#/settings`);
  await expect.poll(main).toContain('Signers you know');
  await unfold(page, 'Signers you know');
  await sound(page, 'settings, signers');
  await press(page, 'Forget A. Author');
  await expect.poll(main).not.toContain('Signers you know');
});

test('another signer and an older version need a word of their own; unsigned and changed decks are refused', async () => {
  const { page } = browser;
  await give(await signDeck(at('1.1.0'), author, AUTHOR));
  await press(page, 'Trust and install');
  await dated(page);
  const next = async (deck: unknown) => {
    await page.goto(`${inject('baseUrl')}#/decks`);
    await page.getByText('Open a deck file').waitFor();
    await give(deck);
  };

  await next(at('1.2.0'));
  await sheet('Not installed');
  expect(await main()).toContain('The deck on this device is signed by A. Author; this one is not signed');

  await next({ ...(await signDeck(at('1.2.0'), author, AUTHOR)), title: 'Changed' });
  await sheet('Not installed');
  expect(await main()).toContain('the file was changed after it was signed');

  await next(await signDeck(at('1.2.0'), stranger, { ...AUTHOR, name: 'S. Stranger' }));
  await sheet('A signed deck');
  expect(await main()).toMatch(/Another signer\. The deck on this device is signed by A\. Author/);
  const replace = page.getByRole('button', { name: 'Trust and replace' });
  expect(await replace.isDisabled()).toBe(true);
  await sound(page, 'install, another signer');
  await page.getByLabel(/^I have asked/).check();
  expect(await replace.isDisabled()).toBe(false);
  await press(page, 'Not now');

  await next(await signDeck(at('1.0.0'), author, AUTHOR));
  await sheet('A signed deck');
  const older = page.getByRole('button', { name: 'Replace', exact: true });
  expect(await older.isDisabled()).toBe(true);
  await page.getByLabel('I want the older version 1.0.0 back').check();
  await older.tap();
  await expect.poll(() => page.url()).not.toContain('install');
  await page.goto(`${inject('baseUrl')}#/deck/test%2Fsigned`);
  await expect.poll(main).toContain('1.0.0');
});

test('a deck that came with the app says so', async () => {
  const { page } = browser;
  await press(page, /Wind and altimetry/);
  await expect.poll(main).toContain('It came with the app and is not signed.');
  await press(page, 'Install');
  await dated(page);
  await page.goto(`${inject('baseUrl')}#/decks`);
  await press(page, /Wind and altimetry/);
  await expect.poll(main).toContain('It came with the app and is not signed.');
});

test('a file is taken wherever it is dropped, one at a time', async () => {
  const { page } = browser;
  expect(await drop(page, at('1.0.0'))).toBe(true);
  await sheet('A signed deck');
  expect(await main()).toContain('Not signed: nothing proves who made it');
  await page.goto(`${inject('baseUrl')}#/settings`);
  await sheet('Settings');
  await drop(page, at('1.0.0'), 2);
  await sheet('This did not work');
  expect(await main()).toContain('Drop one deck at a time.');
});

test('what another app shares arrives: a file, a text, an address', async () => {
  const { page, context } = browser;
  await offlineReady(page);
  // A page of another origin posts the form, as the system does when somebody shares.
  await context.route('http://sharing.localhost/', (route) =>
    route.fulfill({
      contentType: 'text/html',
      body: `<form method="post" enctype="multipart/form-data" action="${inject('baseUrl')}share">
        <input type="file" name="deck"><textarea name="text"></textarea><button>Share</button></form>`,
    }),
  );
  const share = async (put: () => Promise<void>) => {
    await page.goto('http://sharing.localhost/');
    await put();
    await page.locator('button').tap();
  };
  await share(() => page.locator('input').setInputFiles({ ...file(at('1.0.0'), 'deck.txt'), mimeType: 'text/plain' }));
  await sheet('A signed deck');
  expect(await page.evaluate(() => location.search)).toBe('');
  // Once: a reload brings nothing back.
  await page.goto(`${inject('baseUrl')}?go=incoming`);
  await sheet('What will you practise?');
  expect(await page.evaluate(() => caches.keys())).not.toContainEqual(expect.stringContaining('shared'));

  await share(() => page.locator('textarea').fill(JSON.stringify({ ...at('1.0.0'), title: 'As text' })));
  // An empty file field is posted too: it is no file.
  await sheet('As text');
  await share(() => page.locator('textarea').fill('A deck for you https://decks.example/a%20b.deck.json?x=1&y=2'));
  await page.waitForURL(/open\.html/);
  expect(await page.locator('#address').innerText()).toBe('https://decks.example/a%20b.deck.json?x=1&y=2');
  await share(() => page.locator('textarea').fill('hello'));
  await sheet('Not installed');
});

/** The Workshop opens on a draft that began from the deck that is installed. */
const openDraft = async (page: Page): Promise<string> => {
  await page.goto(`${inject('baseUrl')}#/workshop`);
  await press(page, /A signed deck/);
  await page.waitForURL(/#\/workshop\/[a-z0-9]+/);
  return page.url().split('/').at(-1) ?? '';
};

/** An unsigned deck installed, and its draft at the page that hands it over. */
const handOver = async (): Promise<Page> => {
  const { page } = browser;
  await give(at('1.0.0'));
  await press(page, 'Install');
  await dated(page);
  const draft = await openDraft(page);
  await page.goto(`${inject('baseUrl')}#/workshop/${draft}/hand-over`);
  await sheet('Hand over');
  await page.getByText('Nobody has signed it yet').waitFor();
  return page;
};

/** @returns the file of the key */
const makeOwnKey = async (page: Page): Promise<string> => {
  await page.getByLabel(/Passphrase/).fill('lined up and waiting');
  await page.getByLabel(/^The same again/).fill('lined up and waiting');
  const [file] = await Promise.all([page.waitForEvent('download'), press(page, 'Make a key and save its file')]);
  return textOf(file);
};

const signAs = async (page: Page, role: 'author' | 'checker', name: string): Promise<void> => {
  await page.getByLabel(/^Your name/).fill(name);
  await page.locator(`button:not(:disabled):text-is("Sign as ${role}")`).tap();
};

/** The deck as it is saved. */
const savedFile = async (page: Page): Promise<Download> => {
  await page.locator('button:not(:disabled):text-is("Save the file")').waitFor();
  const [saved] = await Promise.all([page.waitForEvent('download'), press(page, 'Save the file')]);
  return saved;
};

test('a draft is signed on one device; on another a second person adds a signature with a key of their own', async () => {
  const page = await handOver();
  const keyText = await makeOwnKey(page);
  expect(keyText.split('.')).toHaveLength(5);
  await signAs(page, 'author', 'A. Author');
  await page.getByText('Author: A. Author').waitFor();
  const saved = await savedFile(page);
  expect(saved.suggestedFilename()).toBe('signed-1.0.0.deck.json');
  const text = await textOf(saved);
  expect(await contentId(text)).toBe(await contentId(DECK));
  expect(await verifyDeck(text)).toMatchObject([{ name: 'A. Author', role: 'author', valid: true }]);
  const letters = await page.locator('code.number').first().innerText();

  // The private key cannot be read out of the browser.
  const kept = await page.evaluate(
    () =>
      new Promise<unknown>((done) => {
        const opening = indexedDB.open('recency');
        opening.onsuccess = () => {
          const reading = opening.result.transaction('device').objectStore('device').get('signing-key');
          reading.onsuccess = () => {
            const { privateKey, ...rest } = reading.result as { privateKey: CryptoKey };
            opening.result.close();
            done({ extractable: privateKey.extractable, rest: JSON.stringify(rest) });
          };
        };
      }),
  );
  expect(kept).toMatchObject({ extractable: false });
  expect(JSON.stringify(kept)).not.toContain('"d"');

  // On the other device: the link, the signer, the same letters.
  const other = await visit();
  try {
    await other.context.route('https://decks.example/**', (route) =>
      route.fulfill({ status: 200, headers: { 'Access-Control-Allow-Origin': '*' }, body: text }),
    );
    const there = other.page;
    await there.goto(inject('baseUrl'));
    await press(there, 'I have read this');
    await there.goto('about:blank');
    await there.goto(`${inject('baseUrl')}open.html#deck=https://decks.example/signed.deck.json`);
    await press(there, 'Fetch it');
    await expect.poll(() => there.locator('#signers').innerText()).toBe(`A. Author (author), key ${letters}`);
    await press(there, 'Look at it in Recency');
    await expect.poll(() => heading(there)).toBe('A signed deck');
    expect(await there.locator('main').innerText()).toContain(letters);
    await press(there, 'Trust and install');
    await dated(there);

    await openDraft(there);
    await there.goto(`${there.url()}/hand-over`);
    // The author's own key, carried over, is no second person's.
    await there.getByLabel(/Passphrase/).fill('lined up and waiting');
    await there.locator('main input[type=file]').setInputFiles(file(keyText, 'key.txt'));
    await there.getByText('Your public key').waitFor();
    expect(await there.locator('code.number').last().innerText()).toBe(letters);
    await signAs(there, 'checker', 'C. Checker');
    await there.getByText('A checker is a second person').waitFor();
    await press(there, 'Use another key');
    await makeOwnKey(there);
    await signAs(there, 'checker', 'C. Checker');
    await there.getByText('Checker: C. Checker').waitFor();
    expect(await verifyDeck(await textOf(await savedFile(there)))).toMatchObject([
      { name: 'A. Author', valid: true },
      { name: 'C. Checker', valid: true },
    ]);
    expect(other.errors).toEqual([]);
  } finally {
    await other.close();
  }
});

test('the link stands there as a code that another library reads from the screen, light and dark', async () => {
  const page = await handOver();
  const field = page.getByLabel('Address of the file');
  await field.fill('http://decks.example/signed.deck.json');
  await page.getByText('The address must begin with https://').waitFor();
  await field.fill('https://decks.example/signed.deck.json');
  const link = `${inject('baseUrl')}open.html#deck=https://decks.example/signed.deck.json`;
  await page.getByRole('link', { name: link }).waitFor();
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme });
    expect(await qrOn(page)).toBe(link);
  }
});

test('a changed draft needs a higher version and a new signature; it can be practised here', async () => {
  const { page } = browser;
  await give(await signDeck(at('1.0.0'), author, AUTHOR));
  await press(page, 'Trust and install');
  await dated(page);
  const draft = await openDraft(page);
  await page.goto(`${inject('baseUrl')}#/workshop/${draft}/head`);
  await page.locator('[data-path="/title"]').fill('A better title');
  await page.goto(`${inject('baseUrl')}#/workshop/${draft}/hand-over`);
  await expect.poll(main).toContain('no longer counts and will be left out');
  expect(await page.getByRole('button', { name: 'Save the file' }).isDisabled()).toBe(true);
  await press(page, 'Set version 1.0.1');
  await expect.poll(() => page.getByRole('button', { name: 'Save the file' }).isDisabled()).toBe(false);
  const [saved] = await Promise.all([page.waitForEvent('download'), press(page, 'Save the file')]);
  expect(await verifyDeck(await textOf(saved))).toEqual([]);
  // Unsigned it takes the place of no signed one, on the author's own device too: said before it is tried.
  await page.getByText('This device holds a version signed by A. Author, and takes no unsigned one').waitFor();
  expect(await page.getByRole('button', { name: 'Practise it here' }).isDisabled()).toBe(true);
});

test('a deck is printed: procedures, limits, questions and their answers, black on white', async () => {
  const { page } = browser;
  await press(page, /take-off and initial/);
  await press(page, 'Install');
  await page.getByLabel(/TK-11/).first().check();
  await page
    .getByLabel(/Calder/)
    .first()
    .check();
  await press(page, 'Go on');
  await dated(page);
  await page.goto(`${inject('baseUrl')}#/print/recency%2Fmerrow-takeoff`);
  await sheet('Print');
  await page.getByLabel('Limits and scenarios').check();
  await page.getByLabel('A question sheet, its answers apart').check();
  await page.getByRole('heading', { name: 'Answers' }).waitFor();
  for (const part of ['Invented: not a real aeroplane', 'A study aid for recall', 'PF', 'PM', 'Version'])
    expect(await main()).toContain(part);
  expect(await page.locator('.asks').count()).toBe(2);
  expect(await page.locator('.asks').first().locator('> li').count()).toBe(
    await page.locator('.asks').last().locator('> li').count(),
  );
  await sound(page, 'print');
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  expect(await page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor)).toBe(
    'rgb(255, 255, 255)',
  );
  expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
  const pdf = await page.pdf({ format: 'A4' });
  // One page at least for each procedure, the limits, the questions and the answers.
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;
  expect(pages).toBeGreaterThan(6);
});
