import type { Mark, Sure, Verdict } from '../model/item.ts';
import type { ItemFacts, ItemMemory } from './types.ts';

/** Everything that the verdict on one item in one answer depends on. */
export interface Evidence {
  readonly mark: Mark;
  readonly sure: Sure;
  /** In a run: this step is not among those named as not sure. */
  readonly spared: boolean;
  /** The run had a fault somewhere. */
  readonly flawed: boolean;
  /** A hint, assistive input: what helped. */
  readonly helped: boolean;
  /** Chance to be right by guessing, 0..1. */
  readonly g: number;
  /** Quicker than the learner's own usual pace? Asked only where it matters. */
  readonly quick: () => boolean;
  /** Whole study days since the last answer. */
  readonly gap: number;
  readonly memory: ItemMemory | undefined;
  readonly facts: ItemFacts;
}

/** `unmoved`: logged, but it says too little to move memory. */
export const verdictOf = (e: Evidence): { readonly verdict: Verdict; readonly unmoved: boolean } => {
  const moved = (verdict: Verdict) => ({ verdict, unmoved: false });
  // A missed answer never enters the memory model as a pass, whatever was said about it.
  if (e.mark === 'wrong' || e.mark === 'told' || e.sure === null) return moved('missed');
  const unsure = e.sure === false && !e.spared;
  if (unsure && e.g > 1 / 3) return { verdict: 'unsure', unmoved: true };
  if (unsure || e.helped || e.mark === 'moved' || e.flawed || e.g > 1 / 3) return moved('unsure');
  // A four-option question says something, once it was right on two days; for ever would starve it.
  if (e.g > 0.2 && (e.memory?.rightDays ?? 0) < 2) return moved('unsure');
  const mayBeFluent = e.memory !== undefined && e.gap > 0 && !e.facts.critical && !e.facts.decision && e.sure === true;
  return moved(mayBeFluent && e.quick() ? 'fluent' : 'sound');
};

const median = (sorted: Float64Array): number => {
  const mid = sorted.length >> 1;
  const high = sorted[mid] ?? 0;
  return sorted.length % 2 === 1 ? high : ((sorted[mid - 1] ?? high) + high) / 2;
};

/** Answers that pace is taken from, at least and at most. */
const PACE_LEAST = 8;
export const PACE_MOST = 50;

/**
 * ln ms below the median less 1.48 median absolute deviations (1.4826 MAD estimates a normal's standard deviation;
 * Rousseeuw & Croux 1993) of the learner's last answers of the same form and row count.
 * @param pace ln ms, oldest first
 */
export const isQuick = (ms: number, pace: readonly number[]): boolean => {
  if (pace.length < PACE_LEAST || !(ms > 0)) return false;
  const ln = Math.log(ms);
  // Half of all answers end here: without a sort.
  let slower = 0;
  for (const x of pace) if (x > ln) slower += 1;
  if (slower * 2 < pace.length) return false;
  const middle = median(Float64Array.from(pace).sort());
  const mad = median(Float64Array.from(pace, (x) => Math.abs(x - middle)).sort());
  return ln < middle - 1.48 * mad;
};
