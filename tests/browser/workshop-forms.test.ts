import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { canonicalJson, type Json } from '../../src/lib/canonical-json.ts';
import { type Visit, visit } from '../helpers/browser.ts';
import { type GalleryServer, galleryServer } from './gallery/build.ts';
import type { FormName, Shown } from './workshop-forms/main.tsx';

let server: GalleryServer;
let browser: Visit;
let page: Page;

beforeAll(async () => {
  server = await galleryServer(join(import.meta.dirname, 'workshop-forms'));
  browser = await visit();
  page = browser.page;
  await page.goto(server.url);
  await page.waitForFunction(() => 'forms' in window);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

type Members = { readonly [key: string]: Json | undefined };

const deckNamed = (name: string): Members =>
  JSON.parse(readFileSync(new URL(`../../decks/${name}.deck.json`, import.meta.url), 'utf8')) as Members;

const filled = (form: FormName, path: string, value: Json | undefined) =>
  page.evaluate(
    async ([name, at, what]) => {
      const { forms } = window as unknown as { forms: Shown };
      await forms.show(name, at);
      return (await forms.fill(at, JSON.parse(what))).left;
    },
    [form, path, JSON.stringify(value)] as const,
  );
const value = (): Promise<Json> => page.evaluate(() => (window as unknown as { forms: Shown }).forms.value());

const PARTS = ['sources', 'variants', 'crew', 'day', 'conditions'] as const;

/** Writes everything but procedures through the forms. @returns what could not be written */
const written = async (deck: Members): Promise<string[]> => {
  await page.evaluate(() => (window as unknown as { forms: Shown }).forms.begin());
  const head = Object.fromEntries(
    Object.entries(deck).filter(([key, one]) => typeof one !== 'object' && key !== 'format'),
  );
  const left = [...(await filled('head', '', head as Json))];
  for (const part of PARTS) if (deck[part] !== undefined) left.push(...(await filled(part, `/${part}`, deck[part])));
  for (const section of ['limits', 'scenarios'] as const)
    for (const [i, thing] of ((deck[section] ?? []) as readonly Json[]).entries()) {
      await page.evaluate(([to, at]) => (window as unknown as { forms: Shown }).forms.add(to, at), [
        section,
        i,
      ] as const);
      left.push(...(await filled(section === 'limits' ? 'limit' : 'scenario', `/${section}/${i}`, thing)));
    }
  return left;
};

test.each(['public-rules', 'wind-altimetry', 'merrow-abnormal'])(
  'the deck %s is written again through the forms',
  async (name) => {
    const { procedures: _elsewhere, ...deck } = deckNamed(name);
    expect(await written(deck)).toEqual([]);
    const { procedures: _none, ...made } = (await value()) as Members;
    expect(JSON.parse(canonicalJson(made as Json))).toEqual({ limits: [], scenarios: [], ...deck });
  },
);
