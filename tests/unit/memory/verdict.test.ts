import { describe, expect, test } from 'vitest';
import type { ItemMemory } from '../../../src/memory/types.ts';
import { type Evidence, verdictOf } from '../../../src/memory/verdict.ts';

const known = (rightDays: number): ItemMemory => ({
  s: 5,
  d: 5,
  day: 1,
  at: 1,
  n: 3,
  rightDays,
  lastRightDay: 1,
  first: 0,
  verdict: 'sound',
  alert: null,
});
const base: Evidence = {
  mark: 'right',
  sure: true,
  spared: false,
  flawed: false,
  helped: false,
  eased: false,
  g: 0.02,
  quick: () => false,
  gap: 3,
  memory: known(3),
  facts: { critical: false, decision: false },
};
const verdict = (change: Partial<Evidence>) => verdictOf({ ...base, ...change });

describe('one item in one answer', () => {
  test.each<[string, Partial<Evidence>, string]>([
    ['right and sure', {}, 'sound'],
    ['wrong', { mark: 'wrong' }, 'missed'],
    ['wrong, though quick', { mark: 'wrong', quick: () => true }, 'missed'],
    ['told', { mark: 'told' }, 'missed'],
    ["Don't know", { sure: null }, 'missed'],
    ['right, not sure', { sure: false }, 'unsure'],
    ['right, not sure, but not among the steps named', { sure: false, spared: true }, 'sound'],
    ['helped', { helped: true }, 'unsure'],
    ['moved', { mark: 'moved' }, 'unsure'],
    ['a right step of a faulty run', { flawed: true }, 'unsure'],
    ['a guess rate over a third', { g: 0.34 }, 'unsure'],
    ['one of four, right on one day so far', { g: 0.25, memory: known(1) }, 'unsure'],
    ['one of four, right on two days', { g: 0.25, memory: known(2) }, 'sound'],
    ['quick', { quick: () => true }, 'fluent'],
    ['quick on the first meeting', { quick: () => true, memory: undefined }, 'sound'],
    ['quick on the same day', { quick: () => true, gap: 0 }, 'sound'],
    ['quick on a critical item', { quick: () => true, facts: { critical: true, decision: false } }, 'sound'],
    ['quick on a decision', { quick: () => true, facts: { critical: false, decision: true } }, 'sound'],
  ])('%s', (_, change, wanted) => {
    expect(verdict(change)).toEqual({ verdict: wanted, unmoved: false });
  });

  test('right by Not sure where a guess is likely moves nothing', () => {
    expect(verdict({ sure: false, g: 0.5 })).toEqual({ verdict: 'unsure', unmoved: true });
  });
});
