import type { Random } from '../../lib/random.ts';
import type { Verdict } from '../../model/item.ts';
import { DEFAULT_WEIGHTS, type MemoryModel, memoryModel, type State } from '../fsrs.ts';
import { SHARES } from '../plan/shares.ts';
import type { Shares } from '../plan/types.ts';

/**
 * How learners differ from the scheduler's idea of them, as standard deviations. Chosen, not measured: first
 * stabilities by a factor of e^0.4 ≈ 1.5, growth by one of e^0.25 ≈ 1.3, and good and bad days by 0.3 on the logit,
 * about 3 % around a recall chance of 0.9.
 */
export interface Variety {
  /** Of the logarithm of a factor on the first stabilities w0..w3. */
  readonly stability: number;
  /** Of what is added to w8, the logarithm of the growth of stability. */
  readonly growth: number;
  /** Of what a day adds to the logit of every recall chance on it. */
  readonly day: number;
}

export const VARIED: Variety = { stability: 0.4, growth: 0.25, day: 0.3 };
export const SAME: Variety = { stability: 0, growth: 0, day: 0 };

/** A learner whose memory only the simulation knows. */
export interface Learner {
  readonly weights: readonly number[];
  readonly model: MemoryModel;
  /** Factor on the first stabilities. */
  readonly factor: number;
  readonly shares: Shares;
  /** Added to the logit of recall on each day. */
  readonly days: readonly number[];
}

/** Standard normal (Box & Muller 1958). */
const normal = (random: Random): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/**
 * @param days days that are simulated, the check day counted
 * @param assumed what the scheduler assumes of everybody
 */
export const makeLearner = (
  random: Random,
  { stability, growth, day }: Variety,
  days: number,
  assumed: { readonly weights?: readonly number[]; readonly shares?: Shares } = {},
): Learner => {
  const factor = Math.exp(stability * normal(random));
  const more = growth * normal(random);
  const weights = (assumed.weights ?? DEFAULT_WEIGHTS).map((w, i) =>
    i < 4 ? Math.min(100, w * factor) : i === 8 ? Math.min(4.5, w + more) : w,
  );
  return {
    weights,
    model: memoryModel(weights),
    factor,
    shares: assumed.shares ?? SHARES,
    days: Array.from({ length: days }, () => day * normal(random)),
  };
};

/** A chance with something added to its logit. */
export const shifted = (chance: number, by: number): number => {
  if (chance <= 0 || chance >= 1) return chance;
  return 1 / (1 + Math.exp(-Math.log(chance / (1 - chance)) - by));
};

/**
 * How the learner answers.
 * @param before true memory; null at the first meeting, just after reading
 * @param gap whole days since the last answer
 */
export const answerOf = (random: Random, learner: Learner, before: State | null, gap: number, day: number): Verdict => {
  const { first, right: later } = learner.shares;
  const known = before === null ? 1 - first.missed : learner.model.chance(before.s, gap);
  // Both dice are thrown always, so that two policies that ask the same get the same answers.
  const right = random() < shifted(known, learner.days[day] ?? 0);
  const unsure = before === null ? first.unsure / (1 - first.missed) : later.unsure;
  const sound = random() >= unsure;
  return right ? (sound ? 'sound' : 'unsure') : 'missed';
};
