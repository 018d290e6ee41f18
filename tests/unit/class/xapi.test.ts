import { expect, test } from 'vitest';
import validate from 'xapi-validation';
import { byKeyAlone, type KnownDecks } from '../../../src/class/known.ts';
import { NAMESPACE_URL, uuidOf } from '../../../src/class/uuid.ts';
import { statementsOf } from '../../../src/class/xapi.ts';
import { deckOf, item, received, reportOf, unmet } from '../../helpers/plain-report.ts';

const HOME = 'https://recency.example/app/';
const KEYS = {
  place: 'calder/try#roll.place~a1',
  cue: 'calder/try#roll.cue~a2',
  crew: 'calder/try#roll.crew~a3',
  words: 'calder/try#roll.words~a4',
  value: 'calder/try#flaps.value.standard~a5',
  rule: 'calder/try#packs.on.hot~a6',
  number: 'calder/try#wind.cross.number~a7',
};
const report = received(
  reportOf({
    trainee: '=Falcon, "the second"',
    decks: [
      deckOf([
        ...Object.values(KEYS).map((key, i) => item(key, { verdicts: [i, 1, 0, 2], day: i === 3 ? null : 0.7 })),
        item('calder/try#left.place~b1', { last: null }),
        unmet('calder/try#never.place~b2'),
      ]),
    ],
  }),
);

test('RFC 9562, appendix A.4: the example of version 5; section 6.6: its namespaces', async () => {
  const dns = '6ba7b810-9dad-11d1-80b4-00c04fd430c8';
  expect(await uuidOf(dns, 'www.example.com')).toBe('2ed6657d-e927-568b-95e1-2665a8aea6a2');
  expect(NAMESPACE_URL).toBe('6ba7b811-9dad-11d1-80b4-00c04fd430c8');
});

test('every statement is one of xAPI 1.0.3', async () => {
  const statements = await statementsOf(report, new Map(), HOME);
  expect(statements).toHaveLength(Object.keys(KEYS).length + 1);
  for (const statement of JSON.parse(JSON.stringify(statements)) as unknown[]) expect(validate(statement)).toEqual([]);
});

test('the validator complains of what is wrong', async () => {
  const [statement] = await statementsOf(report, new Map(), HOME);
  expect(validate({ ...statement, timestamp: 'last week' })).not.toEqual([]);
  expect(validate({ ...statement, id: 'not-a-uuid' })).not.toEqual([]);
});

test('ids come from the report and the item alone, and differ', async () => {
  const first = await statementsOf(report, new Map(), HOME);
  const again = await statementsOf(report, new Map(), 'https://elsewhere.example/');
  expect(again.map(({ id }) => id)).toEqual(first.map(({ id }) => id));
  expect(new Set(first.map(({ id }) => id)).size).toBe(first.length);
  const amended = await statementsOf({ ...report, hash: 'f'.repeat(64) }, new Map(), HOME);
  expect(amended[0]?.id).not.toBe(first[0]?.id);
});

test('what is asked says which interaction it is, with a deck here and without', async () => {
  const bare = await statementsOf(report, new Map(), HOME);
  expect(bare.slice(0, 7).map(({ object }) => object.definition.interactionType)).toEqual([
    'sequencing',
    'choice',
    'choice',
    'choice',
    'numeric',
    'choice',
    'numeric',
  ]);
  const decks: KnownDecks = new Map([
    [
      'calder/try',
      {
        title: 'Try',
        language: 'de',
        newest: { version: '1.0.0', contentId: 'a'.repeat(64) },
        columns: new Map(),
        items: new Map([[KEYS.value, { ...byKeyAlone(KEYS.value), label: 'Klappen', choice: true }]]),
      },
    ],
  ]);
  const known = (await statementsOf(report, decks, HOME))[4];
  expect(known?.object.definition).toMatchObject({ name: { de: 'Klappen' }, interactionType: 'choice' });
});

test('the score is recall on the check day, never that of today; without a check ahead there is none', async () => {
  const worst = item(KEYS.place, { now: 1, day: 0.31, verdicts: [4, 0, 0, 0] });
  const of = async (one: typeof worst) => {
    const [statement] = await statementsOf(received(reportOf({ decks: [deckOf([one])] })), new Map(), HOME);
    expect(validate(statement)).toEqual([]);
    return statement?.result;
  };
  expect(await of(worst)).toMatchObject({
    success: false,
    score: { scaled: 0.31 },
    extensions: {
      [`${HOME}xapi/extensions/recall-on-day-of-report`]: 1,
      [`${HOME}xapi/extensions/recall-on-check-day`]: 0.31,
    },
  });
  const bare = await of({ ...worst, day: null });
  expect(bare).toMatchObject({ success: false });
  expect(bare).not.toHaveProperty('score');
  expect(bare?.extensions[`${HOME}xapi/extensions/aggregated`]).toContain('not a mark');
});

test('a statement says what is summed up in it, and nothing more', async () => {
  const [first, second] = await statementsOf(report, new Map(), HOME);
  expect(first).toMatchObject({
    actor: { account: { homePage: HOME, name: '=Falcon, "the second"' } },
    timestamp: '2026-11-25T00:00:00Z',
    result: { success: true, score: { scaled: 0.7 } },
  });
  expect(first?.result.extensions).toMatchObject({
    [`${HOME}xapi/extensions/verdicts`]: { missed: 0, unsure: 1, sound: 0, fluent: 2 },
    [`${HOME}xapi/extensions/aggregated`]: expect.stringContaining('no single answers'),
  });
  expect(first?.result.extensions).not.toHaveProperty(`${HOME}xapi/extensions/check-date`);
  const [own] = report.report.decks;
  const items = own?.items.map((one, i) => (i === 0 ? { ...one, check: '2026-12-01' } : one)) ?? [];
  const dated = { ...report, report: { ...report.report, decks: own === undefined ? [] : [{ ...own, items }] } };
  const [early, late] = await statementsOf(dated, new Map(), HOME);
  expect(early?.result.extensions).toMatchObject({ [`${HOME}xapi/extensions/check-date`]: '2026-12-01' });
  expect(validate(early)).toEqual([]);
  expect(late).toEqual(second);
  // Of two who chose one pseudonym each is an actor of its own.
  const [named] = await statementsOf(report, new Map(), HOME, 'Falcon (ABCD EFGH)');
  // One id, one actor: a record store refuses another one under an id that it has (xAPI 1.0.3, Part Three, 2.1.1, from memory).
  expect(named?.id).not.toBe(first?.id);
  expect(named).toEqual({
    ...first,
    id: named?.id,
    actor: { objectType: 'Agent', account: { homePage: HOME, name: 'Falcon (ABCD EFGH)' } },
  });
  expect(second?.object.id).toBe(`${HOME}xapi/items/${encodeURIComponent(KEYS.cue)}`);
});
