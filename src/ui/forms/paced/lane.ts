import type { PacedDetail, PacedFigure, PacedFinding } from '../../../model/form.ts';

/** s of the run as it is said: "0:42". */
export const clock = (s: number): string =>
  `${Math.floor(Math.max(0, s) / 60)}:${String(Math.floor(Math.max(0, s) % 60)).padStart(2, '0')}`;

/** "0.1 s after", "2.3 s before". */
const offWords = (off: number): string => `${Math.abs(off).toFixed(1)}\u00a0s ${off < 0 ? 'before' : 'after'}`;
const isAtCue = (off: number): boolean => Math.abs(off) < 0.05;
const figureWords = ({ value, unit }: Pick<PacedFigure, 'value' | 'unit'>): string => `${value}\u00a0${unit}`;

/**
 * When a step was done against when it was asked. A speed or height is told as the read-out had it. Untimed the run stands
 * still: seconds say nothing there.
 */
export const whenWords = (step: PacedFinding, untimed: boolean): string => {
  const { cueAt, doneAt, figure, read, called, timing, window } = step;
  if (doneAt === undefined) return '';
  const off = doneAt - cueAt;
  if (figure === undefined || read === undefined) {
    if (untimed) return '';
    // Where nothing but the step before it tells the moment, nobody waits for the author's seconds.
    if (timing === 'in-time' && off < -window[0]) return 'as soon as it was its turn';
    return isAtCue(off) ? 'at its cue' : `${offWords(off)} its cue`;
  }
  const at = figureWords({ ...figure, value: read });
  const asked = figureWords(figure);
  if (figure.sense === 'by') {
    const done = `${called ? 'called' : 'done'} at ${at}`;
    if (timing === 'early') return `${done}, long before its moment: ${asked} is the latest`;
    const said = `${done}, by ${asked} asked`;
    return timing === 'in-time' && read > figure.value ? `${said}: so little later is let pass` : said;
  }
  const by = untimed || isAtCue(off) ? '' : `, ${offWords(off)}`;
  if (timing === 'in-time') return by === '' ? `at ${at}` : `at ${at}${by} its cue`;
  return `its cue is ${asked}; you did it at ${at}${by}`;
};

const TIMING: Readonly<Record<PacedFinding['timing'], string>> = {
  'in-time': 'in time',
  early: 'too early',
  late: 'too late',
  missing: 'not done',
  played: 'the other pilot',
};

export const isGood = ({ timing, inOrder }: PacedFinding): boolean => timing === 'in-time' && inOrder;

/** By a sign and by words, never by colour alone. A tick is only where nothing is wrong. */
export const verdictSign = (step: PacedFinding): string => (step.timing === 'played' ? '·' : isGood(step) ? '✓' : '✗');

/** "too early, out of order". */
export const verdictWords = ({ timing, inOrder }: PacedFinding, untimed: boolean): string => {
  const words = untimed && timing === 'in-time' ? 'in its turn' : TIMING[timing];
  if (inOrder || timing === 'missing' || timing === 'played') return words;
  return timing === 'in-time' ? 'out of order' : `${words}, out of order`;
};

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
