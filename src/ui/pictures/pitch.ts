import { spread } from './spread.ts';

/** °: up to here, up and down, the angle is drawn as it is. */
export const TRUE_TO = 20;

/** In the picture's own units, of which 328 are a phone's width. */
export const WIDE = 328;
export const HIGH = 132;
/** From the turning point to the arc on which angles are read. */
const ARC = 158;
const X = 100;
/** A figure is so high. */
const LINE = 19;

export interface PitchSketch {
  /** The point of the aeroplane about which it is turned; it stands on the horizon. */
  readonly x: number;
  readonly y: number;
  /** °, nose up: as drawn. Of a band its middle. */
  readonly attitude: number;
  /** Lines from the arc's centre, one for each angle, with the middle of its figure. */
  readonly rays: readonly {
    readonly degrees: number;
    readonly x: number;
    readonly y: number;
    readonly figure: number;
  }[];
  /** The arc from the horizon to the last angle. */
  readonly arc: string;
  /** Between the two angles of a band. */
  readonly band: string | null;
  /** An angle is steeper than is drawn. */
  readonly beyond: boolean;
}

/**
 * An aeroplane from its right side, nose to the right, against the horizon.
 * @param degrees of the nose above the horizon: one, or the two ends of a band
 * @returns null where there is no number
 */
export const pitchSketch = (degrees: readonly number[]): PitchSketch | null => {
  const known = degrees.filter(Number.isFinite).sort((a, b) => a - b);
  const drawn = known.map((one) => Math.max(-TRUE_TO, Math.min(one, TRUE_TO)));
  const [low, high] = [drawn[0], drawn.at(-1)];
  if (low === undefined || high === undefined) return null;
  const attitude = (low + high) / 2;
  const y = attitude < 0 ? 62 : 88;
  const on = (angle: number): readonly [number, number] => {
    const r = (angle * Math.PI) / 180;
    return [X + ARC * Math.cos(r), y - ARC * Math.sin(r)];
  };
  const words = (angle: number): string => on(angle).map(round).join(' ');
  const arcTo = (from: number, to: number): string => `A${ARC} ${ARC} 0 0 ${to > from ? 0 : 1} ${words(to)}`;
  const far = Math.abs(low) > Math.abs(high) ? low : high;
  // Downwards on the page, where the greatest angle stands first.
  const down = known.map((one, i) => ({ degrees: one, at: on(drawn[i] ?? 0) })).reverse();
  const figures = spread(
    down.map(({ at }) => at[1]),
    down.map(() => LINE),
    [0, HIGH],
  );
  return {
    x: X,
    y,
    attitude,
    rays: down.map(({ degrees: one, at }, i) => ({ degrees: one, x: at[0], y: at[1], figure: figures[i] ?? at[1] })),
    arc: `M${words(0)} ${arcTo(0, far)}`,
    band: low === high ? null : `M${X} ${y} L${words(low)} ${arcTo(low, high)} Z`,
    beyond: known.some((one) => Math.abs(one) > TRUE_TO),
  };
};

const round = (x: number): number => Math.round(x * 100) / 100;
