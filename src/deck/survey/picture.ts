import type { NumberAsk } from '../../model/deck.ts';
import type { ResolvedAsk } from '../../subjects/resolved.ts';
import type { Axis } from '../../subjects/space.ts';
import { binOf, binsOf, placesOf } from './bins.ts';
import type { Tally } from './tally.ts';
import { type Cell, NO_RULE, NO_VALUE, type Picture, type SurveyAxis, type SurveyTask } from './types.ts';
import { numberWords } from './words.ts';

class CellCount {
  readonly rules: number[];
  noRule = 0;
  noValue = 0;
  out = 0;
  least = Number.POSITIVE_INFINITY;
  most = Number.NEGATIVE_INFINITY;
  constructor(rules: number) {
    this.rules = Array(rules).fill(0);
  }
  add(outcome: number, number: number): void {
    if (outcome >= 0) this.rules[outcome] = (this.rules[outcome] as number) + 1;
    else if (outcome === NO_RULE) this.noRule += 1;
    else if (outcome === NO_VALUE) this.noValue += 1;
    else this.out += 1;
    if (Number.isNaN(number)) return;
    this.least = Math.min(this.least, number);
    this.most = Math.max(this.most, number);
  }
  cell(ask: ResolvedAsk): Cell {
    const { rules, noRule, noValue, out, least, most } = this;
    const say = (x: number): string => numberWords(ask.ask as NumberAsk, x);
    const some = least <= most;
    return {
      rules,
      noRule,
      noValue,
      out,
      range: some ? [say(least), say(most)] : null,
      values: some ? [least, most] : null,
    };
  }
}

const rulesOf = (ask: ResolvedAsk): number => ('rules' in ask ? ask.rules.length : 1);

/** Which axes a picture has: those asked for, else those that decide most. */
export function sidesOf(
  axes: readonly Axis[],
  ask: ResolvedAsk,
  t: Tally,
  task: SurveyTask,
): readonly [number, number | null] | null {
  const find = (name: string | null): number => axes.findIndex((a) => a.name === name);
  const ranked = axes
    .map((axis, k) => ({ k, weight: axis.count < 2 ? -1 : weightOf(axis, k, axes.length, ask, t) }))
    .sort((a, b) => b.weight - a.weight || a.k - b.k)
    .filter((one) => one.weight >= 0)
    .map((one) => one.k);
  const asked = find(task.x);
  const x = asked >= 0 ? asked : ranked.find((k) => k !== find(task.y));
  if (x === undefined) return null;
  // A number is shown along one drawn value: two would need a scale of shades.
  if (task.y === '' || 'number' in ask) return [x, null];
  const other = find(task.y);
  const y = other >= 0 && other !== x ? other : ranked.find((k) => k !== x);
  return [x, y ?? null];
}

/** How far the shares of the rules (of a number: its mean) along an axis are from those over all draws. */
function weightOf(axis: Axis, k: number, width: number, ask: ResolvedAsk, t: Tally): number {
  const bins = binsOf(axis);
  const rules = rulesOf(ask);
  const number = 'number' in ask;
  const [sums, counts] = [new Float64Array(bins * rules), new Float64Array(bins)];
  const all = new Float64Array(rules);
  let n = 0;
  for (let i = 0; i < t.count; i++) {
    const outcome = t.outcomes[i] as number;
    if (outcome < 0) continue;
    const bin = binOf(axis, t.places[i * width + k] as number);
    const weight = number ? (t.numbers[i] as number) : 1;
    sums[bin * rules + outcome] = (sums[bin * rules + outcome] as number) + weight;
    all[outcome] = (all[outcome] as number) + weight;
    counts[bin] = (counts[bin] as number) + 1;
    n += 1;
  }
  let off = 0;
  for (let bin = 0; bin < bins; bin++) {
    const here = counts[bin] as number;
    for (let r = 0; here > 0 && r < rules; r++)
      off += here * Math.abs((sums[bin * rules + r] as number) / here - (all[r] as number) / n);
  }
  return n === 0 ? 0 : off / n;
}

/** Everything but the one or two drawn values as it comes. */
export function inShares(
  axes: readonly Axis[],
  shown: readonly SurveyAxis[],
  [x, y]: readonly [number, number | null],
  ask: ResolvedAsk,
  t: Tally,
): Picture {
  const [across, up] = [axes[x] as Axis, y === null ? null : (axes[y] as Axis)];
  const [nx, ny] = [binsOf(across), up ? binsOf(up) : 1];
  const cells = Array.from({ length: nx * ny }, () => new CellCount(rulesOf(ask)));
  for (let i = 0; i < t.count; i++) {
    const at = i * axes.length;
    const column = binOf(across, t.places[at + x] as number);
    const row = up && y !== null ? binOf(up, t.places[at + y] as number) : 0;
    cells[row * nx + column]?.add(t.outcomes[i] as number, t.numbers[i] as number);
  }
  return {
    x,
    y,
    xBins: shown[x]?.bins ?? [],
    yBins: y === null ? [] : (shown[y]?.bins ?? []),
    cells: cells.map((one) => one.cell(ask)),
  };
}

/** Values along one side of a picture around a draw: one from each bin, its middle. */
export const middles = (axis: Axis): number[] =>
  Array.from({ length: binsOf(axis) }, (_, bin) => {
    const [first, last] = placesOf(axis, bin);
    return Math.floor((first + last) / 2);
  });

/** All else as in one draw. @param outcomeAt of a draw */
export function around(
  axes: readonly Axis[],
  say: (axis: number, place: number) => string,
  [x, y]: readonly [number, number | null],
  ask: ResolvedAsk,
  outcomeAt: (
    places: readonly (readonly [axis: number, place: number])[],
  ) => readonly [outcome: number, number: number],
): Picture {
  const columns = middles(axes[x] as Axis);
  const rows = y === null ? [0] : middles(axes[y] as Axis);
  return {
    x,
    y,
    xBins: columns.map((place) => say(x, place)),
    yBins: y === null ? [] : rows.map((place) => say(y, place)),
    cells: rows.flatMap((row) =>
      columns.map((column) => {
        const cell = new CellCount(rulesOf(ask));
        cell.add(
          ...outcomeAt(
            y === null
              ? [[x, column]]
              : [
                  [x, column],
                  [y, row],
                ],
          ),
        );
        return cell.cell(ask);
      }),
    ),
  };
}
