import { below, seeded } from '../lib/random.ts';
import type { Deck, Draw } from '../model/deck.ts';
import type { Drawn } from '../model/form.ts';
import { gridValue } from './procedure/situations.ts';

/** Up to here every combination is tried; beyond it, seeded draws, which prove nothing that is rare. */
const MOST_POINTS = 50_000;
const SAMPLE = 20_000;

export interface Axis {
  readonly name: string;
  readonly count: number;
  value(i: number): number | string | boolean;
}

/** All that can be drawn together. */
export interface Space {
  /** Was every combination tried, or a sample? */
  readonly exact: boolean;
  readonly count: number;
  /** Writes a combination into an object that is used again and again. */
  put(i: number, into: Record<string, number | string | boolean>): void;
}

const listed = (name: string, list: readonly (number | string | boolean)[]): Axis => ({
  name,
  count: list.length,
  value: (i) => list[i] as number | string | boolean,
});

export function axisOfDraw(name: string, draw: Draw): Axis {
  if ('from' in draw) {
    const { from, to, step } = draw;
    const count = Math.max(1, Math.floor((to - from) / (step ?? 1) + 1e-9) + 1);
    return { name, count, value: (i) => gridValue(from, i, step) };
  }
  return listed(name, Array.isArray(draw.oneOf) ? (draw.oneOf as number[]) : Object.keys(draw.oneOf));
}

/** Of a value of the day or a condition. */
export function axisOfName(deck: Deck, name: string): Axis | null {
  const range = deck.day?.find((d) => d.id === name);
  if (range) return axisOfDraw(name, { from: range.from, to: range.to, step: range.step ?? 1 });
  const c = deck.conditions?.find((one) => one.id === name);
  if (!c) return null;
  if ('yes' in c) return listed(name, [false, true]);
  if ('options' in c) return listed(name, Object.keys(c.options));
  return axisOfDraw(name, { from: c.from, to: c.to, step: c.step ?? 1 });
}

/** @param points so many at most are tried */
export function spaceOf(axes: readonly Axis[], points = MOST_POINTS): Space {
  const size = axes.reduce((n, a) => n * a.count, 1);
  const exact = size <= points;
  const random = seeded(axes.map((a) => a.name).join());
  // Values are made once: rounding a grid costs more than all else.
  const tables = axes.map((a) => (a.count <= points ? Array.from({ length: a.count }, (_, i) => a.value(i)) : null));
  return {
    exact,
    count: exact ? size : Math.min(SAMPLE, points),
    put: (i, into) => {
      let rest = i;
      for (let k = 0; k < axes.length; k++) {
        const a = axes[k] as Axis;
        const j = exact ? rest % a.count : below(random, a.count);
        into[a.name] = tables[k]?.[j] ?? a.value(j);
        rest = Math.floor(rest / a.count);
      }
    },
  };
}

/** A draw in short, for messages: "windSpeed 30, runway 70". */
export const inShort = (drawn: Drawn, names: readonly string[] = Object.keys(drawn)): string =>
  names
    .slice(0, 6)
    .map((name) => `${name} ${drawn[name]}`)
    .join(', ');
