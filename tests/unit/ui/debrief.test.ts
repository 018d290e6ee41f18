import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { Session } from '../../../src/drill/types.ts';
import type { Deck } from '../../../src/model/deck.ts';
import { debriefOf } from '../../../src/ui/models/debrief.ts';
import { answered, benchOf, DAY, LIMITS } from './learners.ts';

const over: Session = {
  v: 1,
  id: 'd',
  course: 'fictional',
  started: 0,
  day: 0,
  seconds: 600,
  used: 600,
  seed: 1,
  count: 0,
  now: { kind: 'done', why: 'time' },
  answered: [],
  back: [],
  met: [],
};

test('the weakest: without a chance before a forecast, then one of each group for the day that counts', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  await learner.append(answered(learner, 'one', 'right'));
  await learner.append(answered(learner, 'two', 'wrong'));
  const early = debriefOf(learner, over);
  expect(early.weak.map(({ label, chance }) => [label.includes('two'), chance])).toEqual([
    [true, null],
    [false, null],
  ]);
  // What is named above as missed is not said again.
  const two = early.weak[0]?.key ?? '';
  const missed = { entry: 'x', deck: '', form: 'limit', about: { thing: 'two' }, sure: null, ms: 1, g: 0 } as const;
  const after = debriefOf(learner, {
    ...over,
    answered: [{ ...missed, items: [two], verdicts: { [two]: 'missed' }, predicted: {} }],
  });
  expect(after.missed.map(({ key }) => key)).toEqual([two]);
  expect(after.weak.map(({ key }) => key)).toEqual([early.weak[1]?.key]);

  bench.at += 2 * DAY;
  for (let i = 0; i < 30; i++) await learner.append(answered(learner, i % 2 === 0 ? 'three' : 'four', 'right'));
  const later = debriefOf(learner, over);
  expect(later.weak).toHaveLength(1);
  expect(later.weak[0]).toMatchObject({ key: two, group: 'Limits', critical: false });
  expect(later.on).toBe(learner.today() + 30);
});

test('the day that counts is the check, while it lies ahead', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  const check = learner.today() + 9;
  await learner.set('check-date/fictional', new Date(check * DAY).toISOString().slice(0, 10));
  for (let i = 0; i < 16; i++) await learner.append(answered(learner, 'one', 'right'));
  bench.at += 2 * DAY;
  for (let i = 0; i < 16; i++) await learner.append(answered(learner, 'two', 'right'));
  const told = debriefOf(learner, over);
  expect(told.on).toBe(check);
  bench.at += 20 * DAY;
  const past = debriefOf(learner, over);
  expect(past.on).toBe(learner.today() + 30);
  expect(past.weak[0]?.chance).toBeLessThan(told.weak[0]?.chance ?? 0);
});

test('what is drawn along a procedure is not listed once more', async () => {
  const deck = JSON.parse(readFileSync('decks/merrow-abnormal.deck.json', 'utf8')) as Deck;
  const { learner } = await benchOf(deck);
  const resolved = learner.practised.value[0]?.resolved;
  const place = [...(resolved?.items.values() ?? [])].find(({ facet }) => facet === 'place');
  const value = [...(resolved?.items.values() ?? [])].find(({ facet }) => facet === 'value');
  if (place === undefined || value === undefined) throw new Error('an empty deck');
  const plain = { entry: 'x', deck: '', form: 'run', sure: null, ms: 1, g: 0, items: [], predicted: {} } as const;
  const told = debriefOf(learner, {
    ...over,
    answered: [
      { ...plain, about: { thing: place.group }, verdicts: { [place.key]: 'missed' } },
      { ...plain, about: { thing: value.thing }, verdicts: { [value.key]: 'missed' } },
    ],
  });
  expect(told.lines.map(({ procedure }) => procedure)).toEqual([place.group]);
  expect(told.lines[0]?.steps.filter(({ weak }) => weak).map((step) => step.place)).toEqual([place.key]);
  expect(told.missed.map(({ key }) => key)).toEqual([value.key]);
  expect(told.isFlawless).toBe(false);
});

test('a callout that was missed is called by its words: its verdict has shown them', async () => {
  const deck = JSON.parse(readFileSync('decks/merrow-takeoff.deck.json', 'utf8')) as Deck;
  const { learner } = await benchOf(deck);
  await learner.set(`variants/${deck.id}`, { engine: ['tk11'], operator: ['calder'] });
  const items = learner.practised.value[0]?.resolved.items.values() ?? [];
  const callouts = [...items].filter(({ label }) => /^Callout at step \d/.test(label));
  expect(callouts.length).toBeGreaterThan(2);
  const plain = { entry: 'x', deck: '', form: 'callout', ms: 1, g: 0, items: [], predicted: {} } as const;
  const [first, second, third] = callouts.map(({ key, thing }) => ({ ...plain, about: { thing }, key }));
  if (first === undefined || second === undefined || third === undefined) throw new Error('too few');
  const told = debriefOf(learner, {
    ...over,
    answered: [
      { ...first, sure: true, verdicts: { [first.key]: 'missed' } },
      { ...second, sure: null, verdicts: { [second.key]: 'missed' } },
      { ...third, sure: false, verdicts: { [third.key]: 'unsure' } },
    ],
  });
  for (const list of [told.sureButWrong, told.missed, told.unsure]) {
    expect(list).toHaveLength(1);
    expect(list[0]?.label).toMatch(/^Callout “.+”: .+$/);
  }
});
