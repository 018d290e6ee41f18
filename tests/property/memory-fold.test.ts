import fc from 'fast-check';
import { expect, test } from 'vitest';
import { toCheckpoint } from '../../src/memory/checkpoint.ts';
import { fold } from '../../src/memory/fold.ts';
import { createKeeper } from '../../src/memory/keeper.ts';
import type { Facts } from '../../src/memory/types.ts';
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
  | { readonly k: 'set'; readonly value: number };

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
    else out.push({ ...base, at, k: 'void', of: `w.${Math.max(1, i + 1 - one.back)}`, why: 'mis-tap' });
  }
  return out;
};

test('live, from a checkpoint anywhere, and folded anew in any order: one and the same memory', () => {
  fc.assert(
    fc.property(fc.array(doing, { maxLength: 40 }), fc.nat(), fc.nat(), (list, cutAt, swap) => {
      const log = logOf(list);
      const whole = toCheckpoint(fold(log, FACTS));
      const cut = log.length === 0 ? 0 : cutAt % (log.length + 1);
      const first = createKeeper({ checkpoint: null, entries: 0, tail: [], facts: FACTS });
      for (const entry of log.slice(0, cut)) first?.add(entry);
      const kept = first?.checkpoint();
      expect(kept?.entries).toBe(cut);
      const next = createKeeper({
        checkpoint: structuredClone(kept?.value ?? null),
        entries: kept?.entries ?? 0,
        tail: [],
        facts: FACTS,
      });
      let refold = false;
      for (const entry of log.slice(cut)) refold = next?.add(entry).needsRefold === true || refold;
      // A void of what is in the checkpoint already asks for all of the log; every other way leads to the same.
      if (!refold && next !== null) expect(toCheckpoint(next.memory)).toEqual(whole);
      const at = log.length === 0 ? 0 : swap % log.length;
      expect(toCheckpoint(fold([...log.slice(at), ...log.slice(0, at)], FACTS))).toEqual(whole);
    }),
    { numRuns: 200 },
  );
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
