import { crosswind, densityAltitude, headwind, isaTemperature, pressureAltitude, trueAirspeed } from './flight.ts';
import type { Kind } from './tree.ts';

/** A function of the closed list: trigonometry in radians, the rest as in flight.ts. */
export interface FunctionFacts {
  /** Kinds of the arguments; where `more`, at least these, and more of the last kind. */
  readonly takes: readonly Kind[];
  readonly more?: true;
  /** Absent: `limit` and `lookup`, which ask the deck. */
  readonly run?: (...args: number[]) => number;
}

const N = 'number' as const;
const RADIAN = 180 / Math.PI;

/** What a computation leaves beside a whole number or a half: 2.9999999999 is 3, as in comparisons. */
const SLACK = 1e-9;
const floor = (x: number): number => Math.floor(x + SLACK);
const ceil = (x: number): number => 0 - floor(-x);
/** Half away from zero, as by hand; Math.round gives -2 for -2.5. */
const round = (x: number): number => Math.sign(x) * floor(Math.abs(x) + 0.5) + 0;

/** The closed list. A Map: a deck may ask for `constructor` and finds nothing. */
export const FUNCTIONS: ReadonlyMap<string, FunctionFacts> = new Map<string, FunctionFacts>([
  ['abs', { takes: [N], run: Math.abs }],
  ['min', { takes: [N, N], more: true, run: Math.min }],
  ['max', { takes: [N, N], more: true, run: Math.max }],
  ['round', { takes: [N], run: round }],
  ['floor', { takes: [N], run: floor }],
  ['ceil', { takes: [N], run: ceil }],
  ['sqrt', { takes: [N], run: Math.sqrt }],
  ['sin', { takes: [N], run: Math.sin }],
  ['cos', { takes: [N], run: Math.cos }],
  ['tan', { takes: [N], run: Math.tan }],
  ['atan2', { takes: [N, N], run: Math.atan2 }],
  ['toRadians', { takes: [N], run: (x) => x / RADIAN }],
  ['toDegrees', { takes: [N], run: (x) => x * RADIAN }],
  ['headwind', { takes: [N, N, N], run: headwind }],
  ['crosswind', { takes: [N, N, N], run: crosswind }],
  ['isaTemperature', { takes: [N], run: isaTemperature }],
  ['pressureAltitude', { takes: [N, N], run: pressureAltitude }],
  ['densityAltitude', { takes: [N, N], run: densityAltitude }],
  ['trueAirspeed', { takes: [N, N, N], run: trueAirspeed }],
  ['limit', { takes: ['string'] }],
  ['lookup', { takes: ['string', N] }],
]);
