import type { PacedDetail, PacedFinding } from '../../../model/form.ts';

/** s of the run as it is said: "0:42". */
export const clock = (s: number): string =>
  `${Math.floor(Math.max(0, s) / 60)}:${String(Math.floor(Math.max(0, s) % 60)).padStart(2, '0')}`;

const seconds = (s: number): string => `${Math.abs(s).toFixed(1)} s`;

/** "1.2 s after its cue". */
export const offWords = ({ cueAt, doneAt }: Pick<PacedFinding, 'cueAt' | 'doneAt'>): string => {
  if (doneAt === undefined) return '';
  const off = doneAt - cueAt;
  if (Math.abs(off) < 0.05) return 'at its cue';
  return `${seconds(off)} ${off < 0 ? 'before' : 'after'} its cue`;
};

/** By a sign and by words, never by colour alone. */
export const TIMING: Readonly<Record<PacedFinding['timing'], { readonly sign: string; readonly words: string }>> = {
  'in-time': { sign: '✓', words: 'in time' },
  early: { sign: '✗', words: 'too early' },
  late: { sign: '✗', words: 'too late' },
  missing: { sign: '✗', words: 'missing' },
  played: { sign: '·', words: 'the other pilot' },
};

export const isGood = ({ timing, inOrder }: PacedFinding): boolean => timing === 'in-time' && inOrder;

/** s from the first to the last thing of a run. */
export const lengthOf = ({ steps, extra }: PacedDetail): number =>
  Math.max(
    10,
    ...steps.flatMap(({ cueAt, doneAt = cueAt, window }) => [cueAt + window[1], doneAt]),
    ...extra.map(({ at }) => at),
  );

/** Marks along the time, s: some five of them, at round numbers. */
export const ticksOf = (length: number): readonly number[] => {
  const every = [5, 10, 15, 30, 60, 120].find((one) => length / one <= 6) ?? 300;
  return Array.from({ length: Math.floor(length / every) + 1 }, (_, i) => i * every);
};
