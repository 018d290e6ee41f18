/**
 * FSRS-6 written anew from its published formulas (github.com/open-spaced-repetition, wiki "The Algorithm", FSRS-6),
 * without the library, to hold the library to. Grades 1..4, gaps in days.
 */
const WEIGHTS: readonly number[] = [
  0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796, 1.4835, 0.0614, 0.2629, 1.6483,
  0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542,
];

const w = (i: number): number => WEIGHTS[i] ?? Number.NaN;
const clamp = (x: number, low: number, high: number) => Math.min(high, Math.max(low, x));

const DECAY = -w(20);
const FACTOR = 0.9 ** (1 / DECAY) - 1;

/** (1 + F t / S)^-w20 */
export const recall = (days: number, s: number): number => (1 + (FACTOR * days) / s) ** DECAY;

const firstDifficulty = (grade: number): number => w(4) - Math.exp(w(5) * (grade - 1)) + 1;

export interface State {
  readonly s: number;
  readonly d: number;
}

export const next = (before: State | null, gap: number, grade: 1 | 2 | 3 | 4): State => {
  if (before === null) return { s: Math.max(w(grade - 1), 0.001), d: clamp(firstDifficulty(grade), 1, 10) };
  const { s, d } = before;
  const step = -w(6) * (grade - 3);
  const damped = d + (step * (10 - d)) / 9;
  const nextD = clamp(w(7) * firstDifficulty(4) + (1 - w(7)) * damped, 1, 10);
  if (gap === 0) {
    const raw = Math.exp(w(17) * (grade - 3 + w(18))) * s ** -w(19);
    // A pass on the same day never lowers stability; from memory: so in the reference in Rust, from grade 2 on.
    return { s: clamp(s * (grade >= 2 ? Math.max(1, raw) : raw), 0.001, 36500), d: nextD };
  }
  const r = recall(gap, s);
  if (grade === 1) {
    const forgot = w(11) * d ** -w(12) * ((s + 1) ** w(13) - 1) * Math.exp(w(14) * (1 - r));
    return { s: clamp(Math.min(forgot, s / Math.exp(w(17) * w(18))), 0.001, 36500), d: nextD };
  }
  const hard = grade === 2 ? w(15) : 1;
  const easy = grade === 4 ? w(16) : 1;
  const grown = s * (1 + Math.exp(w(8)) * (11 - d) * s ** -w(9) * (Math.exp(w(10) * (1 - r)) - 1) * hard * easy);
  return { s: clamp(grown, 0.001, 36500), d: nextD };
};
