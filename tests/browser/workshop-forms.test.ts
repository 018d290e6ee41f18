import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { canonicalJson, type Json } from '../../src/lib/canonical-json.ts';
import { EVERY_FIELD } from '../fixtures/decks/every-field.ts';
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

/** One form to be filled. */
interface Job {
  readonly form: FormName;
  readonly path: string;
  readonly value: Json | undefined;
  /** Put into the draft before. */
  readonly add?: readonly ['procedures' | 'limits' | 'scenarios', number];
  readonly node?: readonly [list: string, index: number, node: Json];
}

/** Does one after the other; what names something that comes later is done again at the end. */
const filled = (jobs: readonly Job[]) =>
  page.evaluate(async (text) => {
    const { forms } = window as unknown as { forms: Shown };
    const wanted = JSON.parse(text) as readonly Job[];
    for (const { add, node } of wanted) {
      if (add !== undefined) forms.add(...add);
      if (node !== undefined) forms.addNode(...node);
    }
    let operations = 0;
    let again: readonly Job[] = wanted;
    for (let round = 0; ; round++) {
      const left: string[] = [];
      const later: Job[] = [];
      for (const job of again) {
        await forms.show(job.form, job.path);
        const done = await forms.fill(job.path, job.value as never);
        operations += done.operations;
        if (done.left.length > 0) later.push(job);
        left.push(...done.left);
      }
      if (left.length === 0 || round === 1) return { left, operations };
      again = later;
    }
  }, JSON.stringify(jobs));
const value = (): Promise<Json> => page.evaluate(() => (window as unknown as { forms: Shown }).forms.value());

const list = (value: Json | undefined): readonly Members[] => (Array.isArray(value) ? value : []);

/** Steps and blocks, each with its form; what they hold is put there, as the page of the procedure does it. */
const nodeJobs = (nodes: Json | undefined, path: string): Job[] =>
  list(nodes).flatMap((node, i) => {
    const here = `${path}/${i}`;
    const { steps, lanes, ...own } = node;
    const at = (form: FormName, made: Json): Job => ({ form, path: here, value: own as Json, node: [path, i, made] });
    if (node.use !== undefined) return [at('use', { use: '' })];
    if (steps !== undefined) return [at('block', { steps: [] }), ...nodeJobs(steps, `${here}/steps`)];
    if (lanes === undefined) return [at('step', { id: `step-${here.replaceAll(/[^0-9]+/g, '-')}` })];
    const each = lanes as readonly Json[];
    return [
      at('block', { lanes: each.map(() => []) }),
      ...each.flatMap((lane, n) => nodeJobs(lane, `${here}/lanes/${n}`)),
    ];
  });

/** A step that does not belong is written as its words alone where there is no reason: it says the same. */
const plainly = (deck: Members): Members => ({
  ...deck,
  procedures: list(deck.procedures).map(({ strangers, ...one }) =>
    strangers === undefined
      ? one
      : {
          ...one,
          strangers: (strangers as readonly (string | Members)[]).map((stranger) =>
            typeof stranger === 'object' && stranger.note === undefined ? (stranger.text ?? '') : stranger,
          ),
        },
  ) as Json,
});

const PARTS = ['sources', 'variants', 'crew', 'day', 'conditions'] as const;

const jobsOf = (deck: Members): Job[] => [
  {
    form: 'head',
    path: '',
    value: Object.fromEntries(
      Object.entries(deck).filter(([key, one]) => typeof one !== 'object' && key !== 'format'),
    ) as Json,
  },
  ...PARTS.filter((part) => deck[part] !== undefined).map((part) => ({
    form: part,
    path: `/${part}`,
    value: deck[part],
  })),
  ...list(deck.limits).map(
    (one, i): Job => ({
      form: 'limit',
      path: `/limits/${i}`,
      value: one as Json,
      add: ['limits', i],
    }),
  ),
  ...list(deck.scenarios).map(
    (one, i): Job => ({
      form: 'scenario',
      path: `/scenarios/${i}`,
      value: one as Json,
      add: ['scenarios', i],
    }),
  ),
  ...list(deck.procedures).flatMap(({ steps, strangers, ...one }, i): Job[] => [
    { form: 'procedure', path: `/procedures/${i}`, value: one as Json, add: ['procedures', i] },
    ...nodeJobs(steps, `/procedures/${i}/steps`),
    ...(strangers === undefined
      ? []
      : [{ form: 'strangers' as const, path: `/procedures/${i}/strangers`, value: strangers }]),
  ]),
];

const written = async (deck: Members): Promise<void> => {
  await page.evaluate(() => (window as unknown as { forms: Shown }).forms.begin());
  const { left, operations } = await filled(jobsOf(deck));
  expect(left).toEqual([]);
  expect(operations).toBeGreaterThan(250);
  expect(JSON.parse(canonicalJson(await value()))).toEqual(deck);
};

test('a deck with every member that a deck may have is written through the forms', () =>
  written(EVERY_FIELD as unknown as Members));

test('the deck of public rules is written again through the forms', () =>
  written({ limits: [], scenarios: [], procedures: [], ...plainly(deckNamed('public-rules')) }));
