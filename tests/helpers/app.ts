import type { Page } from 'playwright-core';

/** Milliseconds for a click to follow its tap; what is pressed in vain (a button that waits) never has one. */
const CLICK = 1000;

/**
 * What a learner does, by the words on the screen. Done when the click has come: the browser makes it of the tap by and
 * by, and who leaves the page at once leaves before it.
 */
export const press = async (page: Page, name: string | RegExp): Promise<void> => {
  const target = page
    .getByRole('button', { name, exact: typeof name === 'string' })
    .or(page.getByRole('link', { name, exact: typeof name === 'string' }))
    .first();
  await target.waitFor();
  const clicked = page.evaluate(
    () => new Promise<void>((done) => addEventListener('click', () => done(), { capture: true, once: true })),
  );
  // The click of a link may end the page that waits for it.
  const come = clicked.catch(() => undefined);
  await target.tap();
  await Promise.race([come, new Promise((done) => setTimeout(done, CLICK))]);
};

/** Opens a folded part of a page by its heading, where it is not open yet. */
export const unfold = async (page: Page, title: string | RegExp): Promise<void> => {
  const part = page.locator('details.fold').filter({ has: page.locator('summary', { hasText: title }) });
  if (!(await part.first().evaluate((one) => (one as HTMLDetailsElement).open)))
    await part.first().locator('summary').first().tap();
};

export const heading = (page: Page): Promise<string> => page.locator('h1').first().innerText();

export interface FirstMinutes {
  /** Title of a demonstration deck. */
  readonly deck: RegExp;
  /** Labels of the variants flown. */
  readonly flies?: readonly RegExp[];
  /** Days to the check by the clock of the page; absent: no date yet. */
  readonly days?: number;
}

export const MERROW: FirstMinutes = { deck: /take-off and initial/, flies: [/TK-11/, /Calder/], days: 12 };

/** The deck that is checked soonest, where any deck will do. */
export const WIND: FirstMinutes = { deck: /Wind and altimetry/, days: 12 };

/** ISO date of a day to come: no test may end with a date that is past. @param days from the page's own today */
export const dayAhead = (page: Page, days: number): Promise<string> =>
  page.evaluate((ahead) => new Date(Date.now() + ahead * 86_400_000).toISOString().slice(0, 10), days);

/** From the caution to the first steps to read. */
export const firstMinutes = async (page: Page, { deck, flies = [], days }: FirstMinutes): Promise<void> => {
  await press(page, 'I have read this');
  await press(page, deck);
  await press(page, 'Install');
  if (flies.length > 0) {
    for (const label of flies) await page.getByLabel(label).first().check();
    await press(page, 'Go on');
  }
  if (days === undefined) await press(page, /^No date yet/);
  else {
    await page.getByLabel('Check date').fill(await dayAhead(page, days));
    await press(page, /^Begin/);
  }
  await page.getByRole('button', { name: /I have read this: ask me/ }).waitFor();
};

export type Put = 'run' | 'lines' | 'deal' | 'number' | 'choice' | 'words' | 'read' | 'verdict' | 'debrief';

/** What the drill shows now; a button that waits for the log counts as not there yet. */
export const shown = async (page: Page): Promise<Put> => {
  const found = await page.waitForFunction(() => {
    const is = (text: RegExp) =>
      [...document.querySelectorAll('button:not(:disabled)')].some((one) => text.test(one.textContent ?? ''));
    if (is(/^Next$/)) return 'verdict';
    if (is(/ask me$/)) return 'read';
    if (document.querySelector('h1')?.textContent === 'Debrief') return 'debrief';
    if (!is(/^Don't know$/)) return null;
    if (document.querySelector('.slip .run-row') !== null) return 'lines';
    if (document.querySelector('.run-row') !== null) return 'run';
    if (document.querySelector('.deal') !== null) return 'deal';
    if (document.querySelector('.number-field') !== null) return 'number';
    if (document.querySelector('input.said') !== null) return 'words';
    return document.querySelector('input[name=choice]') === null ? null : 'choice';
  });
  return (await found.jsonValue()) as Put;
};

/** Answers something, right or wrong, and says how sure; stops at the verdict. */
export const answer = async (page: Page, sure: 'Sure' | 'Not sure' | "Don't know" = 'Sure'): Promise<Put> => {
  let put = await shown(page);
  // A tap on Next is given before its click has come: the verdict may still stand for a moment.
  while (put === 'verdict') put = await shown(page);
  if (sure !== "Don't know") {
    if (put === 'run') {
      const rows = page.locator('.run-row');
      for (let i = 0; i < (await rows.count()); i++) await rows.nth(i).tap();
    }
    if (put === 'lines') await page.locator('.run-row').first().tap();
    if (put === 'deal') {
      const rows = page.getByRole('radiogroup');
      for (let i = 0; i < (await rows.count()); i++) await rows.nth(i).getByRole('radio').first().check();
    }
    if (put === 'number') {
      const fields = page.locator('.number-field input');
      for (let i = 0; i < (await fields.count()); i++) await fields.nth(i).fill(String(17 + i));
    }
    if (put === 'words') await page.locator('input.said').fill('some words');
    if (put === 'choice') await page.locator('input[name=choice]').first().check();
    const seat = page.locator('input[name=seat]').first();
    if ((await seat.count()) > 0) await seat.check();
  }
  await press(page, sure);
  if (put === 'run' && sure === 'Not sure') await press(page, 'All of them');
  if (put === 'deal' && sure === 'Not sure') {
    // Of a crew it is asked which rows; of two variants it is not.
    const next = page.getByRole('button', { name: /^(All of them|Next)$/ });
    await next.waitFor();
    if ((await next.innerText()) !== 'Next') await next.tap();
  }
  await page.getByRole('button', { name: 'Next', exact: true }).waitFor();
  return put;
};

/** What a store of the app's database holds under a key; everything, where no key is named. */
export const inDatabase = (page: Page, store: string, key?: string): Promise<unknown> =>
  page.evaluate(
    ([name, one]) =>
      new Promise<unknown>((done, failed) => {
        const opening = indexedDB.open('recency');
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const database = opening.result;
          const found = database.transaction(name ?? '').objectStore(name ?? '');
          const reading = (one === undefined ? found.getAll() : found.get(one)) as IDBRequest<unknown>;
          reading.onsuccess = () => {
            database.close();
            done(reading.result);
          };
          reading.onerror = () => failed(reading.error);
        };
      }),
    [store, key] as const,
  );

/** All keys and records of a database of this origin, as JSON. */
export const wholeDatabase = (page: Page, database: string): Promise<string> =>
  page.evaluate(
    (name) =>
      new Promise<string>((done, failed) => {
        const opening = indexedDB.open(name);
        opening.onerror = () => failed(opening.error);
        opening.onsuccess = () => {
          const opened = opening.result;
          const stores = [...opened.objectStoreNames];
          const reading = opened.transaction(stores);
          const found = stores.map((store) => {
            const from = reading.objectStore(store);
            return [store, from.getAllKeys(), from.getAll()] as const;
          });
          reading.onabort = () => failed(reading.error);
          reading.oncomplete = () => {
            opened.close();
            done(JSON.stringify(found.map(([store, keys, values]) => [store, keys.result, values.result])));
          };
        };
      }),
    database,
  );

/** Lines of the practice log, as they are stored. */
export const logLines = async (page: Page): Promise<string[]> => (await inDatabase(page, 'log')) as string[];

/** All lines of the log in order of time: those of today, and of old days as they are sealed. */
export const wholeLog = async (page: Page): Promise<string[]> => {
  const sealed = (await inDatabase(page, 'segments')) as { readonly text: string }[];
  const lines = [...(await logLines(page)), ...sealed.flatMap(({ text }) => text.split('\n').slice(0, -1))];
  const timed = lines.map((line) => ({ line, at: (JSON.parse(line) as Line).at }));
  return timed.sort((x, y) => x.at - y.at).map(({ line }) => line);
};

/** The drill under way, as it is stored; null where there is none. */
export const storedDrill = async (page: Page): Promise<string> =>
  JSON.stringify((await inDatabase(page, 'state', 'drill')) ?? null);

/** All of a plan is on the device. */
export const planKept = async (page: Page): Promise<boolean> => {
  const record = (await inDatabase(page, 'device', 'plan/fictional')) as { readonly advice?: unknown } | undefined;
  return (record?.advice ?? null) !== null;
};

export interface Line {
  readonly k: string;
  readonly id: string;
  readonly at: number;
  readonly about: { readonly thing: string };
  readonly shown: { readonly title?: string; readonly ask?: string };
  readonly marks: Readonly<Record<string, string>>;
  readonly of?: string;
  readonly why?: string;
  readonly sure: boolean | null;
}
export const logged = async (page: Page, kind: string): Promise<Line[]> =>
  (await logLines(page)).map((line) => JSON.parse(line) as Line).filter(({ k }) => k === kind);
