import { crosswind, headwind } from '../../formula/flight.ts';
import { tradeForm } from '../../model/trade-form.ts';

export type Point = readonly [x: number, y: number];

/** From tail to point, with the middle of its figure. */
export interface Arrow {
  readonly tail: Point;
  readonly point: Point;
  readonly figure: Point;
}

/** The wind along and across a runway. Points: the middle of the runway is 0, 0; y falls the way it is used. */
export interface WindParts {
  /** Whole kt; below zero from behind. */
  readonly head: number;
  /** Whole kt; below zero from the left. */
  readonly cross: number;
  /** null: none worth an arrow. */
  readonly along: Arrow | null;
  readonly across: Arrow | null;
}

/** Half the width of the runway with some air. */
const EDGE = 19;
/** How long the arrows may become. */
const ALONG = 68;
const ACROSS = 27;
/** The arrow along the runway stands on its lee side. */
const BESIDE = 30;
/** An arrow that is less long is no arrow. */
const LEAST = 9;
const FIGURE = 15;

const whole = (x: number): number => Math.sign(x) * Math.round(Math.abs(x)) + 0;

/**
 * Both arrows are to one scale, unless one would be too small to be seen.
 * @param wind degrees, degrees, kt
 * @returns null where a number is none
 */
export const windParts = (wind: {
  readonly runway: number;
  readonly windDir: number;
  readonly windSpeed: number;
}): WindParts | null => {
  const from = headwind(wind.windDir, wind.windSpeed, wind.runway);
  const side = crosswind(wind.windDir, wind.windSpeed, wind.runway);
  if (!Number.isFinite(from) || !Number.isFinite(side)) return null;
  const [head, cross] = [whole(from), whole(side)];
  const scale = Math.min(ALONG / Math.abs(from), ACROSS / Math.abs(side));
  const length = (kt: number): number => Math.max(LEAST, Math.abs(kt) * scale);
  const lee = cross > 0 ? -1 : 1;
  const half = (Math.sign(head) * length(from)) / 2;
  const far = EDGE + (cross === 0 ? 0 : length(side));
  return {
    head,
    cross,
    along:
      head === 0
        ? null
        : { tail: [lee * BESIDE, -half], point: [lee * BESIDE, half], figure: [lee * (BESIDE + FIGURE), 0] },
    across: cross === 0 ? null : { tail: [-lee * far, 0], point: [-lee * EDGE, 0], figure: [-lee * (far + FIGURE), 0] },
  };
};

/** The wind's own arrow, from its tail to its point: outside of its parts and their figures. */
export const TAIL = 105;
export const POINT = 82;
/** The runway, however it lies, and what stands beside it. */
const HALF = 58;

/** Upper and lower end of the picture about the middle of the runway: no more than the wind's arrow needs. */
export const extent = (windDir: number): readonly [top: number, bottom: number] => {
  const tail = -TAIL * Math.cos((windDir * Math.PI) / 180);
  return [Math.min(-HALF - 14, tail - 8), Math.max(HALF + 14, tail + 8)];
};

/** Turned clockwise about 0, 0, as a picture's `rotate` does. */
export const turned = ([x, y]: Point, degrees: number): Point => {
  const r = (degrees * Math.PI) / 180;
  return [x * Math.cos(r) - y * Math.sin(r), x * Math.sin(r) + y * Math.cos(r)];
};

/** "Headwind 15 kt, crosswind 9 kt from the left". */
export const partsWords = ({ head, cross }: Pick<WindParts, 'head' | 'cross'>): string => {
  const along =
    head === 0 ? 'No headwind or tailwind' : `${head > 0 ? 'Headwind' : 'Tailwind'} ${tradeForm(Math.abs(head), 'kt')}`;
  const across =
    cross === 0
      ? 'no crosswind'
      : `crosswind ${tradeForm(Math.abs(cross), 'kt')} from the ${cross > 0 ? 'right' : 'left'}`;
  return `${along}, ${across}`;
};
