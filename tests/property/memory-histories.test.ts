import fc from 'fast-check';
import { expect, test } from 'vitest';
import { predictedAnswers } from '../../src/memory/fit/fit-weights.ts';
import { historiesOf } from '../../src/memory/fit/histories.ts';
import { fold } from '../../src/memory/fold.ts';
import { nextState, type State } from '../../src/memory/fsrs.ts';
import type { Facts, Outcome } from '../../src/memory/types.ts';
import type { Entry } from '../../src/model/entry.ts';
import type { Mark } from '../../src/model/item.ts';

const OLD = 'd/x#s9.place~old';
const NEW = 'd/x#s0.place~new';
const FACTS: Facts = {
  of: (key) => ({ critical: key.includes('#s1'), decision: false }),
  today: (key) => (key === OLD ? NEW : key),
};
const START = Date.UTC(2026, 10, 1, 18);
const KEYS = [NEW, 'd/x#s1.place~a', 'd/x#s2.place~b', OLD];

const answer = fc.record({
  k: fc.constant('answer' as const),
  marks: fc
    .dictionary(fc.constantFrom(...KEYS.slice(0, 3)), fc.constantFrom<Mark>('right', 'wrong', 'told', 'moved'))
    .map((marks) => marks as Record<string, Mark>),
  old: fc.boolean(),
  sure: fc.constantFrom(true, true, false, null),
  g: fc.constantFrom(0.01, 0.25, 0.5),
  ms: fc.integer({ min: 500, max: 20_000 }),
  hours: fc.integer({ min: 0, max: 70 }),
});
const doing = fc.oneof(
  { weight: 8, arbitrary: answer },
  {
    weight: 1,
    arbitrary: fc.record({ k: fc.constant('missed' as const), key: fc.constantFrom(...KEYS), back: fc.nat(3) }),
  },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('void' as const), back: fc.integer({ min: 1, max: 6 }) }) },
  {
    weight: 1,
    arbitrary: fc.record({ k: fc.constant('clock' as const), shift: fc.constantFrom(null, 3_600_000, -7_200_000) }),
  },
);
type Doing = typeof doing extends fc.Arbitrary<infer T> ? T : never;

const logOf = (list: readonly Doing[]): Entry[] => {
  let at = START;
  return list.map((one, i): Entry => {
    const base = { v: 1 as const, id: `w.${i + 1}`, off: 60, app: 't' };
    if (one.k === 'missed') {
      const day = Math.floor(at / 86_400_000) - one.back;
      return { ...base, at, k: 'missed', items: [one.key], where: 'simulator', day };
    }
    if (one.k === 'void') return { ...base, at, k: 'void', of: `w.${Math.max(1, i + 1 - one.back)}`, why: 'mis-tap' };
    if (one.k === 'clock')
      return { ...base, at, k: 'clock', writer: 'w', from: Math.max(1, i - 2), to: i + 1, shift: one.shift };
    at += one.hours * 3_600_000;
    const { [NEW]: moved, ...others } = one.marks;
    return {
      ...base,
      at,
      k: 'answer',
      deck: 'd/x@0123456789abcdef',
      form: 'run',
      about: { thing: 's' },
      variant: '',
      shown: { chips: [1, 2, 3] },
      given: null,
      sure: one.sure,
      ms: one.ms,
      marks: moved === undefined ? others : { ...others, [one.old ? OLD : NEW]: moved },
      g: one.g,
      mv: 1,
    };
  });
};

test('histories gone through once more lead to the memory of the fold, and hold its verdicts', () => {
  fc.assert(
    fc.property(fc.array(doing, { maxLength: 40 }), (list) => {
      const log = logOf(list);
      const outcomes: Outcome[] = [];
      const memory = fold(log, FACTS, undefined, (one) => outcomes.push(one));
      const histories = historiesOf(log, FACTS);
      expect(memory.predicted).toBe(predictedAnswers([...histories.values()]));
      const remembered = new Map<string, State>();
      for (const [key, history] of histories) {
        let state: State | null = null;
        for (const { gap, verdict, moves } of history) if (moves) state = nextState(state, gap, verdict);
        if (state !== null) remembered.set(key, state);
      }
      expect([...remembered].sort()).toEqual([...memory.items].map(([key, { s, d }]) => [key, { s, d }]).sort());
      for (const key of KEYS) {
        const said = outcomes.flatMap(({ verdicts, g }) => (key in verdicts ? [{ verdict: verdicts[key], g }] : []));
        const kept = (histories.get(key) ?? []).filter(({ counts }) => counts);
        expect(kept.map(({ verdict, g }) => ({ verdict, g }))).toEqual(said);
      }
    }),
    { numRuns: 300 },
  );
});
