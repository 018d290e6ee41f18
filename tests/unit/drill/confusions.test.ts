import { expect, test } from 'vitest';
import { confusionsOf } from '../../../src/drill/confusions.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';
import type { Given, NextShown, Offer, ScenarioShown } from '../../../src/model/form.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { resolvedDeck } from './practice.ts';

const rules = resolvedDeck('public-rules');
const merrow = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
const known = new Map([rules, merrow].map((deck) => [deck, offers(deck, null, 1)]));

const offerOf = (deck: Resolved, wanted: (offer: Offer) => boolean): Offer => {
  const found = known.get(deck)?.find(wanted);
  if (found === undefined) throw new Error('no such offer');
  return found;
};
const limit = (id: string) => (offer: Offer) => offer.form === 'limit' && offer.about.thing === id;

/** As it goes into the log: drawn and marked by the product itself. */
const answer = (deck: Resolved, offer: Offer, given: Given | null): AnswerEntry => {
  const shown = draw(deck, offer, 3);
  if (shown === null) throw new Error('not drawn');
  const { marks, g } = mark(deck, offer, shown, given);
  const { form, about, variant } = offer;
  const head = { v: 1, id: 't.1', at: 0, off: 0, app: 'test', k: 'answer' } as const;
  return { ...head, deck: deck.ref, form, about, variant, shown, given, sure: true, ms: 1, marks, g, mv: 1 };
};
const typed = (...value: number[]): Given => ({ value, typed: value.map(String) });

// 85 kt, 90 kt and 55 kt: invented numbers of the deck that no other of its limits in knots has.
const call = offerOf(merrow, limit('crosscheck-speed'));
const neutral = offerOf(merrow, limit('stick-neutral-by'));
const thrust = offerOf(merrow, limit('thrust-set-by'));

test('a wrong number that answers another limit names it, with the right answer', () => {
  const [one, ...others] = confusionsOf([answer(merrow, call, typed(90))], [merrow]);
  expect(others).toEqual([]);
  expect(one).toMatchObject({
    kind: 'number',
    given: expect.stringMatching(/^90\skt\sIAS$/),
    isFor: ['Speed by which the stick is neutral'],
    right: expect.stringMatching(/^85\skt\sIAS$/),
    times: 1,
    bothWays: false,
  });
});

test('two limits given for one another come first, however often others were mistaken', () => {
  const found = confusionsOf(
    [
      answer(merrow, thrust, typed(85)),
      answer(merrow, thrust, typed(85)),
      answer(merrow, thrust, typed(85)),
      answer(merrow, call, typed(90)),
      answer(merrow, neutral, typed(85)),
      answer(merrow, neutral, typed(85)),
    ],
    [merrow],
  );
  expect(found.map(({ asked, times, bothWays }) => [asked, times, bothWays])).toEqual([
    ['Speed by which the stick is neutral', 2, true],
    ["Speed of the PM's airspeed call in the roll", 1, true],
    ['Speed by which take-off thrust must be set', 3, false],
  ]);
});

test('a number of many limits names none, but what its author says of it', () => {
  // 200 kt answers three limits of the deck.
  const [one] = confusionsOf([answer(rules, offerOf(rules, limit('speed-below-10000')), typed(200))], [rules]);
  expect(one).toMatchObject({ isFor: [], slip: 'That holds near a Class C or D airport and beneath Class B.' });
  // 250 kt answers two: both are named.
  const [two] = confusionsOf([answer(rules, offerOf(rules, limit('speed-class-c-d')), typed(250))], [rules]);
  expect(two?.isFor).toHaveLength(2);
  expect(two?.isFor[0]).toMatch(/below 10,000 ft/);
});

test('nothing is said of right answers, of Don’t know, of numbers that mean nothing, of a deck that is gone', () => {
  const silent = [
    answer(merrow, call, typed(85)),
    answer(merrow, call, null),
    answer(merrow, call, typed(86)),
    { ...answer(merrow, call, typed(90)), deck: 'calder/gone@0' },
    { ...answer(merrow, call, typed(90)), about: { thing: 'no-such-limit' } },
  ];
  expect(confusionsOf(silent, [merrow])).toEqual([]);
});

test('which rule’s outcome was chosen for which', () => {
  const offer = offerOf(merrow, ({ form, about }) => form === 'scenario' && about.rule !== undefined);
  const { thing, case: ask } = offer.about;
  const asked = merrow.views[0]?.scenarios
    .find(({ scenario }) => scenario.id === thing)
    ?.asks.find((one) => one.ask.id === ask);
  if (asked === undefined || !('rules' in asked)) throw new Error('no rules');
  const [key] = offer.proves;
  const right = asked.rules.find((rule) => rule.key === key);
  const taken = asked.rules.find(
    (rule) => rule.if !== null && !rule.rule.then.some((o) => right?.rule.then.includes(o)),
  );
  const choice = taken?.rule.then[0] ?? '';
  const shown = draw(merrow, offer, 3) as ScenarioShown;
  const [one] = confusionsOf([answer(merrow, offer, { choice })], [merrow]);
  expect(one).toMatchObject({ kind: 'choice', given: shown.choices.find(({ id }) => id === choice)?.text, slip: null });
  expect(one?.isFor.length).toBeGreaterThan(0);
  expect(one?.right).not.toBe(one?.given);
});

test('which step was chosen to come next for which', () => {
  const offer = offerOf(merrow, ({ form }) => form === 'next');
  const shown = draw(merrow, offer, 3) as NextShown;
  const key = offer.proves[0] as string;
  const right = merrow.items.get(key)?.thing;
  const wrong = shown.choices.find(({ id }) => id !== right && !id.startsWith('stranger'));
  const [one] = confusionsOf([answer(merrow, offer, { choice: wrong?.id ?? '' })], [merrow]);
  expect(one).toMatchObject({ kind: 'choice', given: wrong?.text, isFor: [], times: 1 });
  expect(one?.right).toBe(shown.choices.find(({ id }) => id === right)?.text);
  expect(one?.asked).toContain(shown.title);
  expect(confusionsOf([answer(merrow, offer, { choice: right ?? '' })], [merrow])).toEqual([]);
});
