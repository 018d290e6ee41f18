import { describe, expect, test } from 'vitest';
import { checkDeck } from '../../../src/deck/check.ts';
import { readDeck } from '../../../src/deck/read.ts';
import { resolve } from '../../../src/deck/resolve.ts';
import { apply, type Change, undone, valueAt } from '../../../src/draft/change.ts';
import { flownFrom, runsOf } from '../../../src/draft/flown.ts';
import { eitherOrder, freeOrder, holdOrder, togetherSteps } from '../../../src/draft/order.ts';
import { orderQuestions } from '../../../src/draft/questions.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';
import type { Deck } from '../../../src/model/deck.ts';

const step = (id: string, more: object = {}): Json => ({ id, do: `Do the thing ${id}`, by: 'PF', ...more }) as Json;
const deck = (steps: readonly Json[], more: object = {}): Json =>
  ({
    format: 1,
    id: 'test/order',
    version: '1.0.0',
    title: 'Order',
    language: 'en',
    nature: 'fictional',
    sources: [{ id: 's', title: 'Manual', basis: 'invented' }],
    conditions: [{ id: 'fire', label: 'Fire', yes: 'Fire', no: 'No fire' }],
    variants: [{ id: 'engine', label: 'Engine', options: { a: 'A', b: 'B' } }],
    procedures: [{ id: 'p', title: 'Procedure', done: 'memory', source: 's', steps }],
    ...more,
  }) as Json;

const P = '/procedures/0';
const stepsOf = (doc: Json): Json => valueAt(doc, `${P}/steps`) as Json;
const questions = (doc: Json) => {
  const flown = flownFrom(doc, 0);
  return flown === null ? [] : orderQuestions(doc, P, flown);
};
const hints = (doc: Json): string[] => {
  const { deck: read, findings } = readDeck(JSON.stringify(doc));
  expect(findings).toEqual([]);
  return checkDeck(read as Deck, { today: '2026-11-26' })
    .filter(({ code }) => code === 'order-reason')
    .map(({ path }) => path);
};
/** Of each run the pairs "a<b" of its order, closed. */
const relations = (doc: Json): string[][] => {
  const flown = flownFrom(doc, 0);
  if (flown === null) throw new Error('not flown');
  return runsOf(flown)
    .map(({ steps, order }) =>
      steps.flatMap((a, i) => steps.flatMap((b, j) => (order.before[i]?.[j] ? [`${a.step.id}<${b.step.id}`] : []))),
    )
    .map((pairs) => pairs.sort());
};
const done = (doc: Json, changes: readonly Change[]): Json => {
  expect(changes.length).toBeGreaterThan(0);
  const next = apply(doc, changes);
  expect(JSON.stringify(apply(next, undone(changes)))).toBe(JSON.stringify(doc));
  return next;
};
const stamps = (doc: Json): string[] => [
  ...resolve(doc as unknown as Deck, '0'.repeat(64), { engine: ['a', 'b'] }).items.keys(),
];
const ask = (first: string, second: string) => ({ first, second });

describe('the questions', () => {
  test('are where the checker sees no reason, and nowhere else', () => {
    const doc = deck([step('a'), step('b'), step('c', { cue: { text: 'Now' } }), step('d')]);
    expect(questions(doc).map(({ first, second }) => `${first} ${second}`)).toEqual(['a b', 'c d']);
    expect(questions(doc).map(({ path }) => path)).toEqual(hints(doc));
  });
  test('there are none of a list that is read', () => {
    const doc = deck([step('a'), step('b')]);
    const read = JSON.parse(JSON.stringify(doc).replace('"memory"', '"read-and-do"'));
    expect(questions(read)).toEqual([]);
  });
  test('can be asked of a draft that is not yet right elsewhere', () => {
    const doc = deck([step('a', { limit: 7 }), step('b')], { title: 3, limits: [{}] });
    expect(questions(doc).map(({ second }) => second)).toEqual(['b']);
  });
  test('of anything else there are none, and nothing is thrown', () => {
    for (const doc of [
      null,
      3,
      'x',
      [],
      {},
      { procedures: 4 },
      { procedures: [null] },
      { procedures: [{ steps: [1] }] },
    ])
      expect(questions(doc as Json)).toEqual([]);
  });
});

describe('yes, in this order', () => {
  test('is a stated reason: no hint any more, and what must be recalled stays the same', () => {
    const doc = deck([step('a'), step('b'), step('c')]);
    const next = done(doc, holdOrder(doc, P, ask('a', 'b')));
    expect(valueAt(next, `${P}/steps/1/needs`)).toEqual(['a']);
    expect(hints(next)).toEqual([`${P}/steps/2`]);
    expect(stamps(next)).toEqual(stamps(doc));
  });
  test('is added to what the step needs already, once', () => {
    const doc = deck([step('a'), step('b', { needs: [] })]);
    const next = done(doc, holdOrder(doc, P, ask('a', 'b')));
    expect(valueAt(next, `${P}/steps/1/needs`)).toEqual(['a']);
    expect(holdOrder(next, P, ask('a', 'b'))).toEqual([]);
  });
});

describe('either order', () => {
  const either = (doc: Json, first: string, second: string): Json => done(doc, eitherOrder(doc, P, ask(first, second)));

  test('puts two steps side by side and leaves what is before and behind', () => {
    const doc = deck([step('x'), step('a'), step('b'), step('y')]);
    const next = either(doc, 'a', 'b');
    expect(stepsOf(next)).toEqual([step('x'), { lanes: [[step('a')], [step('b')]] }, step('y')]);
    expect(relations(next)).toEqual([['a<y', 'b<y', 'x<a', 'x<b', 'x<y']]);
  });
  test('a step joins lanes and waits for those that it was not asked about', () => {
    const doc = deck([{ lanes: [[step('m')], [step('n'), step('a')]] }, step('b')]);
    const next = either(doc, 'a', 'b');
    expect(stepsOf(next)).toEqual([
      { lanes: [[step('m')], [step('n'), step('a')], [step('b', { needs: ['m', 'n'] })]] },
    ]);
    expect(relations(next)).toEqual([['m<b', 'n<a', 'n<b']]);
  });
  test('freed of all of them it waits for none', () => {
    const doc = deck([{ lanes: [[step('m')], [step('n'), step('a')]] }, step('b')]);
    const next = done(doc, freeOrder(doc, P, ask('a', 'b')));
    expect(stepsOf(next)).toEqual([{ lanes: [[step('m')], [step('n'), step('a')], [step('b')]] }]);
    expect(freeOrder(deck([step('a'), step('b')]), P, ask('a', 'b'))).toEqual([]);
  });
  test('a step before lanes joins them: the others wait for it', () => {
    const doc = deck([step('a'), { lanes: [[step('b'), step('c')], [step('m')]] }]);
    const next = either(doc, 'a', 'b');
    expect(relations(next)).toEqual([['a<c', 'a<m', 'b<c']]);
  });
  test('what holds only at times and stands between keeps its place', () => {
    const doc = deck([step('a'), step('x', { if: 'fire' }), step('b')]);
    const next = either(doc, 'a', 'b');
    expect(relations(doc)).toEqual([['a<b'], ['a<b', 'a<x', 'x<b']]);
    expect(relations(next)).toEqual([[], ['a<b', 'a<x', 'x<b']]);
  });
  test('of a branch each side keeps its place', () => {
    const doc = deck([{ if: 'fire', steps: [step('w'), step('a')] }, { if: '!fire', steps: [step('m')] }, step('b')]);
    const next = either(doc, 'a', 'b');
    expect(relations(next)).toEqual([['m<b'], ['w<a', 'w<b']]);
  });
  test('a lane that is nothing but the two becomes two', () => {
    const doc = deck([{ lanes: [[step('a'), step('b')], [step('m')]] }]);
    const next = either(doc, 'a', 'b');
    expect(stepsOf(next)).toEqual([{ lanes: [[step('a')], [step('b')], [step('m')]] }]);
  });
  test('behind a block that is used, its other steps are still waited for', () => {
    const doc = deck([{ use: 'shared' }, step('b')]) as { procedures: Json[] };
    const whole = {
      ...doc,
      procedures: [
        ...doc.procedures,
        {
          id: 'q',
          title: 'Other',
          done: 'memory',
          source: 's',
          steps: [{ id: 'shared', steps: [step('m'), step('a')] }],
        },
      ],
    } as unknown as Json;
    const next = either(whole, 'a', 'b');
    expect(relations(next)).toEqual([['m<a', 'm<b']]);
    expect(hints(next)).not.toContain(`${P}/steps/1`);
  });
  test('is not done where what must wait cannot be told so', () => {
    const doc = deck([step('a'), { lanes: [[step('b')], [{ use: 'shared' }]] }]);
    expect(eitherOrder(doc, P, ask('a', 'b'))).toEqual([]);
    expect(eitherOrder(doc, P, ask('b', 'a'))).toEqual([]);
    expect(eitherOrder(doc, P, ask('a', 'nowhere'))).toEqual([]);
  });
});

describe('together', () => {
  const together = (doc: Json, first: string, second: string): Json =>
    done(doc, togetherSteps(doc, P, ask(first, second)));

  test('makes a block of the two; a third joins it', () => {
    const doc = deck([step('a'), step('b'), step('c')]);
    const two = together(doc, 'a', 'b');
    expect(stepsOf(two)).toEqual([{ together: true, steps: [step('a'), step('b')] }, step('c')]);
    const three = together(two, 'b', 'c');
    expect(stepsOf(three)).toEqual([{ together: true, steps: [step('a'), step('b'), step('c')] }]);
    expect(hints(three)).toEqual([]);
  });
  test('with the end of a lane it goes there and still waits for the other lane', () => {
    const doc = deck([{ lanes: [[step('m')], [step('n'), step('a')]] }, step('b')]);
    const next = together(doc, 'a', 'b');
    expect(relations(next)).toEqual([['m<b', 'n<a', 'n<b']]);
  });
  test('is not done across a condition', () => {
    const doc = deck([{ if: 'fire', steps: [step('a')] }, step('b')]);
    expect(togetherSteps(doc, P, ask('a', 'b'))).toEqual([]);
  });
});
