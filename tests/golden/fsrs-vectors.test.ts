import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chanceAfter, daysUntil, nextState } from '../../src/memory/fsrs.ts';
import type { Verdict } from '../../src/model/item.ts';
import { next, recall, type State } from '../helpers/independent-fsrs.ts';

// Vectors of the reference implementations with the default weights of FSRS-6 (open-spaced-repetition).
describe('FSRS-6, published vectors', () => {
  test.each<[Verdict, number, number]>([
    ['missed', 0.212, 6.4133],
    ['unsure', 1.2931, 5.11217071],
    ['sound', 2.3065, 2.11810397],
    ['fluent', 8.2956, 1],
  ])('a first answer that is %s', (verdict, s, d) => {
    const state = nextState(null, 0, verdict);
    expect(state.s).toBeCloseTo(s, 6);
    expect(state.d).toBeCloseTo(d, 6);
  });

  test.each([
    [0, 1],
    [1, 0.9],
    [2, 0.84588465],
    [3, 0.8093881],
  ])('stability of one day, %d days on', (days, r) => {
    expect(chanceAfter(1, days)).toBeCloseTo(r, 7);
  });

  test('a history of six answers', () => {
    const gaps = [0, 0, 1, 3, 8, 21];
    const verdicts: Verdict[] = ['missed', 'sound', 'sound', 'sound', 'sound', 'sound'];
    let state: State | null = null;
    gaps.forEach((gap, i) => {
      state = nextState(state, gap, verdicts[i] ?? 'missed');
    });
    const { s, d } = state as unknown as State;
    expect(s).toBeCloseTo(53.62691, 4);
    expect(d).toBeCloseTo(6.3574867, 6);
  });
});

const VERDICTS: readonly Verdict[] = ['missed', 'unsure', 'sound', 'fluent'];

test('agrees with an implementation written from the formulas, over random histories', () => {
  const answer = fc.record({ gap: fc.integer({ min: 0, max: 400 }), grade: fc.integer({ min: 1, max: 4 }) });
  fc.assert(
    fc.property(fc.array(answer, { minLength: 1, maxLength: 25 }), (history) => {
      let ours: State | null = null;
      let theirs: State | null = null;
      history.forEach(({ gap, grade }, i) => {
        const days = i === 0 ? 0 : gap;
        ours = nextState(ours, days, VERDICTS[grade - 1] ?? 'missed');
        theirs = next(theirs, days, grade as 1 | 2 | 3 | 4);
        // The library rounds to eight decimals.
        expect(Math.abs(ours.s - theirs.s) / theirs.s).toBeLessThan(1e-5);
        expect(Math.abs(ours.d - theirs.d) / theirs.d).toBeLessThan(1e-5);
        expect(Math.abs(chanceAfter(ours.s, gap) - recall(gap, theirs.s))).toBeLessThan(1e-5);
      });
    }),
    { numRuns: 300 },
  );
});

test('the day on which recall falls to a target', () => {
  expect(daysUntil(7, 0.9)).toBeCloseTo(7, 9);
  expect(chanceAfter(7, daysUntil(7, 0.97))).toBeCloseTo(0.97, 9);
});
