import type { Random } from '../src/lib/random.ts';
import type { History, PastAnswer } from '../src/memory/fit/histories.ts';
import { flatten, logLossSum } from '../src/memory/fit/likelihood.ts';
import { DEFAULT_WEIGHTS, memoryModel, type State, WEIGHT_RANGES } from '../src/memory/fsrs.ts';
import type { Verdict } from '../src/model/item.ts';

/** Standard normal (Box & Muller 1958). */
const normal = (random: Random): number => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());

/**
 * How far the weights w0..w20 of learners lie apart: logarithm of the first four, of w7 and of w20, else the weight
 * itself. After the penalty of the model authors' optimizer (github.com/open-spaced-repetition/fsrs-rs,
 * src/training.rs), less where the range is narrow. All 21 differ, also those that are not fitted.
 */
const APART = [
  0.8, 0.8, 0.8, 0.8, 0.57, 0.28, 0.6, 0.5, 0.39, 0.12, 0.33, 0.3, 0.05, 0.1, 0.57, 0.2, 0.6, 0.31, 0.2, 0.05, 0.5,
];
const AS_FACTOR = new Set([0, 1, 2, 3, 7, 20]);

/** A learner's own weights. @param spread 1: as far from the defaults as is said above */
export const learnerWeights = (random: Random, spread: number): number[] =>
  DEFAULT_WEIGHTS.map((usual, i) => {
    const by = spread * (APART[i] as number) * normal(random);
    const [low, high] = WEIGHT_RANGES[i] as readonly [number, number];
    return Math.min(high, Math.max(low, AS_FACTOR.has(i) ? usual * Math.exp(by) : usual + by));
  });

/** Chance to be right by guessing: typed numbers, runs with strangers, choices, short runs. */
const GUESS = [0.01, 0.05, 0.15, 0.25, 0.4];
const DAY = 86_400_000;

/** An answer together with what nobody knows of a real one. */
export interface Practised extends PastAnswer {
  /** How likely it was to be right, g + (1 - g) R with the true R. */
  readonly chance: number;
}

export interface Practice {
  /** Items of the deck. */
  readonly items: number;
  /** Predicted answers in all. */
  readonly scored: number;
  /** Good and bad days: deviation of what a day adds to the logit of recall. */
  readonly moods?: number;
  /** Guess rates of the questions asked. */
  readonly guess?: readonly number[];
}

const logit = (p: number): number => Math.log(p / (1 - p));

interface Learning {
  readonly answers: Practised[];
  true: State | null;
  assumed: State | null;
  day: number;
  rightDays: number;
}

/**
 * Histories of a learner whose memory is the model's with other weights, practised day by day: what has fallen below
 * 0.9 by the default weights, the least certain first, then some new items; what was missed comes once more the same
 * day. Verdicts by the rules of src/memory/verdict.ts, in short.
 */
export const practise = (
  random: Random,
  weights: readonly number[],
  { items, scored, moods = 0, guess = GUESS }: Practice,
): Practised[][] => {
  const truth = memoryModel(weights);
  const assumed = memoryModel();
  const all: Learning[] = [];
  let predicted = 0;
  let mood = 0;
  const ask = (one: Learning, day: number, minute: number): boolean => {
    const gap = one.true === null ? 0 : day - one.day;
    const g = guess[Math.floor(random() * guess.length)] as number;
    const plain = one.true === null ? 0.4 : gap === 0 ? 0.95 : truth.chance(one.true.s, gap);
    const known = mood === 0 ? plain : 1 / (1 + Math.exp(-logit(Math.min(plain, 1 - 1e-9)) - mood));
    const chance = g + (1 - g) * known;
    const right = random() < chance;
    const sure = random() < 0.8;
    let verdict: Verdict = 'missed';
    if (right) {
      if (!sure || g > 1 / 3 || (g > 0.2 && one.rightDays < 2)) verdict = 'unsure';
      else verdict = gap > 0 && random() < 0.12 ? 'fluent' : 'sound';
    }
    const moves = !(right && !sure && g > 1 / 3);
    one.answers.push({ gap, verdict, g, at: day * DAY + minute * 60_000, moves, counts: true, chance });
    if (one.true !== null && gap > 0) predicted += 1;
    if (!moves) return right;
    if (right && gap > 0) one.rightDays += 1;
    one.true = truth.next(one.true, gap, verdict);
    one.assumed = assumed.next(one.assumed, gap, verdict);
    one.day = day;
    return right;
  };
  const perDay = Math.max(12, Math.round(items / 6));
  for (let day = 0; predicted < scored; day++) {
    let minute = 0;
    mood = moods * normal(random);
    const again: Learning[] = [];
    const due = all
      .filter((one) => one.assumed !== null && one.day < day)
      .map((one) => ({ one, chance: assumed.chance((one.assumed as State).s, day - one.day) }))
      .filter(({ chance }) => chance < 0.9 + 0.04 * (random() - 0.5))
      .sort((a, b) => a.chance - b.chance)
      .slice(0, perDay);
    for (const { one } of due) {
      if (predicted >= scored) break;
      if (!ask(one, day, minute++)) again.push(one);
    }
    for (let fresh = 0; fresh < 5 && all.length < items && due.length < perDay; fresh++) {
      const one: Learning = { answers: [], true: null, assumed: null, day, rightDays: 0 };
      all.push(one);
      if (!ask(one, day, minute++)) again.push(one);
    }
    for (const one of again) ask(one, day, minute++);
  }
  return all.map(({ answers }) => answers);
};

/** Predicted answers of a log, counted by time: the time of the one with that number. */
export const timeOf = (histories: readonly History[], number: number): number => {
  const { at, scored } = flatten(histories);
  return at.filter((_, i) => scored[i] === 1).sort()[number] ?? Number.POSITIVE_INFINITY;
};

export const before = <A extends PastAnswer>(histories: readonly (readonly A[])[], time: number): A[][] =>
  histories.map((list) => list.filter(({ at }) => at < time));

/** What some weights predict of answers from a time on, beside the true chance and what came. */
export const predictions = (
  histories: readonly (readonly Practised[])[],
  from: number,
  weights: readonly number[],
): { readonly said: number; readonly chance: number; readonly right: boolean }[] => {
  const flat = flatten(histories);
  const chances = histories
    .flat()
    .map(({ chance }) => chance)
    .filter((_, i) => flat.scored[i] === 1 && (flat.at[i] as number) >= from);
  const out: { said: number; chance: number; right: boolean }[] = [];
  logLossSum(flat, Float64Array.from(weights), from, Number.POSITIVE_INFINITY, null, (said, right) => {
    out.push({ said, chance: chances[out.length] as number, right });
  });
  return out;
};

/**
 * Mean log loss that is expected of predictions with some weights over that of the true chances, on answers from a
 * time on: the Kullback-Leibler divergence, so that no luck of the answers themselves is in it.
 */
export const excessLoss = (
  histories: readonly (readonly Practised[])[],
  from: number,
  weights: readonly number[],
): number => {
  const list = predictions(histories, from, weights);
  const sum = list.reduce(
    (all, { chance: p, said: q }) => all + p * Math.log(p / q) + (1 - p) * Math.log((1 - p) / (1 - q)),
    0,
  );
  return sum / list.length;
};
