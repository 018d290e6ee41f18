import fc from 'fast-check';
import { expect, test } from 'vitest';
import { toCheckpoint } from '../../src/memory/checkpoint.ts';
import { fold } from '../../src/memory/fold.ts';
import { DEFAULT_WEIGHTS, memoryModel } from '../../src/memory/fsrs.ts';
import { createKeeper } from '../../src/memory/keeper.ts';
import { modelInUse, OWN_MEMORY } from '../../src/memory/own-weights.ts';
import { emptyMemory } from '../../src/memory/step.ts';
import type { Facts, Outcome } from '../../src/memory/types.ts';
import type { AnswerEntry, Entry } from '../../src/model/entry.ts';

const FACTS: Facts = { of: (key) => ({ critical: key.includes('#c'), decision: false }), today: (key) => key };
const START = Date.UTC(2026, 10, 1, 18);

type Doing =
  | {
      readonly k: 'answer';
      readonly item: number;
      readonly right: boolean;
      readonly sure: boolean | null;
      readonly hours: number;
    }
  | { readonly k: 'void'; readonly back: number }
  | { readonly k: 'set'; readonly value: number }
  | { readonly k: 'own'; readonly value: boolean };

const doing: fc.Arbitrary<Doing> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({
      k: fc.constant('answer' as const),
      item: fc.integer({ min: 0, max: 4 }),
      right: fc.boolean(),
      sure: fc.constantFrom(true, false, null),
      hours: fc.integer({ min: 0, max: 40 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('void' as const), back: fc.integer({ min: 1, max: 6 }) }) },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('set' as const), value: fc.integer() }) },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('own' as const), value: fc.boolean() }) },
);

/** Entries in the order of writing; time goes on, at times by nothing. */
const logOf = (list: readonly Doing[]): Entry[] => {
  let at = START;
  const out: Entry[] = [];
  for (const [i, one] of list.entries()) {
    const base = { v: 1 as const, id: `w.${i + 1}`, off: 60, app: 't' };
    if (one.k === 'answer') {
      at += one.hours * 3_600_000;
      const key = `d/x#${one.item === 0 ? 'c' : 's'}${one.item}.place~z`;
      const answer: AnswerEntry = {
        ...base,
        at,
        k: 'answer',
        deck: 'd/x@0123456789abcdef',
        form: 'limit',
        about: { thing: 's' },
        variant: '',
        shown: { fields: [1] },
        given: null,
        sure: one.sure,
        ms: 4000 + one.item * 900,
        marks: { [key]: one.right ? 'right' : 'wrong' },
        g: 0.05,
        mv: 1,
      };
      out.push(answer);
    } else if (one.k === 'set') out.push({ ...base, at, k: 'set', key: 'minutes/real', value: one.value });
    else if (one.k === 'own') out.push({ ...base, at, k: 'set', key: OWN_MEMORY, value: one.value });
    else out.push({ ...base, at, k: 'void', of: `w.${Math.max(1, i + 1 - one.back)}`, why: 'mis-tap' });
  }
  return out;
};

/** Of a learner who forgets more than others. */
const OWN = memoryModel(DEFAULT_WEIGHTS.map((w, i) => (i < 4 ? w * 0.6 : w)));

/** As the worker folds: the settings in the log say which weights. */
const foldWith = (log: readonly Entry[], own: typeof OWN | null, onOutcome?: (outcome: Outcome) => void) => {
  const { settings } = fold(log, FACTS);
  return fold(log, FACTS, emptyMemory(modelInUse(settings, own)), onOutcome);
};

test('live, from a checkpoint anywhere, and folded anew in any order: one and the same memory, whatever the weights', () => {
  fc.assert(
    fc.property(
      fc.array(doing, { maxLength: 40 }),
      fc.nat(),
      fc.nat(),
      fc.constantFrom(null, OWN),
      (list, cutAt, swap, own) => {
        const log = logOf(list);
        const outcomes: Outcome[] = [];
        const whole = toCheckpoint(foldWith(log, own, (one) => outcomes.push(one)));
        const cut = log.length === 0 ? 0 : cutAt % (log.length + 1);
        const first = createKeeper({ checkpoint: null, entries: 0, tail: [], facts: FACTS, own });
        let refold = false;
        for (const entry of log.slice(0, cut)) refold = first?.add(entry).needsRefold === true || refold;
        const kept = first?.checkpoint();
        expect(kept?.entries).toBe(cut);
        const next = createKeeper({
          checkpoint: structuredClone(kept?.value ?? null),
          entries: kept?.entries ?? 0,
          tail: [],
          facts: FACTS,
          own,
        });
        // Other weights were chosen, and nobody folded anew: such a checkpoint is not gone on from.
        if (next === null) expect(refold).toBe(true);
        for (const entry of log.slice(cut)) refold = next?.add(entry).needsRefold === true || refold;
        // A void of what is in the checkpoint already asks for all of the log; every other way leads to the same.
        if (!refold && next !== null) expect(toCheckpoint(next.memory)).toEqual(whole);
        const at = log.length === 0 ? 0 : swap % log.length;
        expect(toCheckpoint(foldWith([...log.slice(at), ...log.slice(0, at)], own))).toEqual(whole);
        const predicted = outcomes.reduce((sum, one) => sum + Object.keys(one.predicted).length, 0);
        expect((whole as { predicted: number }).predicted).toBe(predicted);
      },
    ),
    { numRuns: 200 },
  );
});

test('a checkpoint is gone on from only with the weights that it was folded with', () => {
  const log = logOf([
    { k: 'answer', item: 1, right: true, sure: true, hours: 0 },
    { k: 'answer', item: 1, right: true, sure: true, hours: 72 },
  ]);
  const usual = toCheckpoint(foldWith(log, null));
  const own = toCheckpoint(foldWith(log, OWN));
  expect(own).not.toEqual(usual);
  const resumed = (checkpoint: unknown, with_: typeof OWN | null, tail: readonly Entry[] = []) =>
    createKeeper({ checkpoint: structuredClone(checkpoint), entries: 2, tail, facts: FACTS, own: with_ });
  expect(resumed(usual, null)).not.toBeNull();
  expect(resumed(own, OWN)?.memory.model).toBe(OWN);
  expect(resumed(usual, OWN)).toBeNull();
  expect(resumed(own, null)).toBeNull();
  expect(resumed(own, memoryModel(DEFAULT_WEIGHTS.map((w) => w * 1.01)))).toBeNull();
  // As it was before checkpoints said with which weights.
  expect(resumed({ ...(usual as object), weights: undefined }, null)).toBeNull();
  // The learner went back to the usual weights after the checkpoint.
  const at = (log.at(-1)?.at ?? 0) + 1000;
  const off: Entry = { v: 1, id: 'w.3', at, off: 60, app: 't', k: 'set', key: OWN_MEMORY, value: false };
  expect(resumed(own, OWN, [off])).toBeNull();
  expect(resumed(own, OWN)?.add(off).needsRefold).toBe(true);
  expect(resumed(usual, null)?.add(off).needsRefold).toBe(false);
});

test('sure and wrong on a critical item stays listed until right on two days', () => {
  const answer = (day: number, right: boolean): Doing => ({ k: 'answer', item: 0, right, sure: true, hours: day * 24 });
  const alertAfter = (list: readonly Doing[]) => fold(logOf(list), FACTS).items.get('d/x#c0.place~z')?.alert;
  expect(alertAfter([answer(0, false)])).toBe(0);
  expect(alertAfter([answer(0, false), answer(1, true)])).toBe(1);
  expect(alertAfter([answer(0, false), answer(1, true), answer(0, true)])).toBe(1);
  expect(alertAfter([answer(0, false), answer(1, true), answer(1, true)])).toBeNull();
  expect(alertAfter([answer(0, false), answer(1, true), answer(1, false)])).toBe(0);
});

test('what was missed in the simulator some days ago sets no memory back in time', () => {
  const key = 'd/x#s1.place~z';
  const base = { v: 1 as const, off: 0, app: 't' };
  const [first] = logOf([{ k: 'answer', item: 1, right: true, sure: true, hours: 30 }]);
  if (first === undefined) throw new Error('no answer');
  const day = fold([first], FACTS).items.get(key)?.day ?? 0;
  const missed: Entry = {
    ...base,
    id: 'w.2',
    at: first.at + 1,
    k: 'missed',
    items: [key],
    where: 'simulator',
    day: day - 3,
  };
  expect(fold([first, missed], FACTS).items.get(key)).toMatchObject({ day, verdict: 'missed' });
});
