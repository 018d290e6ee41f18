import { spread } from './spread.ts';

/** °: up to here, up and down, the angle is drawn as it is. */
export const TRUE_TO = 20;

/** In the picture's own units, of which 328 are a phone's width; the aeroplane is turned about 0, 0, on the horizon. */
export const LEFT = -100;
export const WIDE = 328;
/** From there to the arc on which angles are read. */
const ARC = 158;
/** Heights of a figure and of a word. */
const FIGURE = 19;
const WORD = 17;
/** From the horizon. */
const CLEAR = 2;

/** From the side, nose to the right: fuselage and fin. */
const OUTLINE = [
  [84, 3],
  [60, -6],
  [-56, -6],
  [-70, -30],
  [-84, -30],
  [-78, -3],
  [-44, 8],
  [62, 8],
] as const;

export const PLANE = `M${OUTLINE.map((point) => point.join(' ')).join(' L')} Z`;

export interface Ray {
  readonly degrees: number;
  /** Where it meets the arc. */
  readonly x: number;
  readonly y: number;
  /** The middle of its figure. */
  readonly figure: number;
}

export interface PitchSketch {
  /** °, nose up: as drawn. Of a band its middle. */
  readonly attitude: number;
  /** One for each angle, the highest first. */
  readonly rays: readonly Ray[];
  /** The arc from the horizon to the angle, of two to the steeper. */
  readonly arc: string;
  /** Between the two angles of a band. */
  readonly band: string | null;
  /** Middle of the horizon's name, on the side that is left free. */
  readonly horizon: number;
  /** An angle is steeper than is drawn: middle of the words that say so. */
  readonly beyond: number | null;
  /** Ends of the picture, downwards. */
  readonly top: number;
  readonly bottom: number;
}

/**
 * An aeroplane against the horizon.
 * @param degrees of the nose above the horizon: one, or the two ends of a band
 * @returns null where there is no number
 */
export const pitchSketch = (degrees: readonly number[]): PitchSketch | null => {
  const known = degrees.filter(Number.isFinite).sort((a, b) => b - a);
  const drawn = known.map((one) => Math.max(-TRUE_TO, Math.min(one, TRUE_TO)));
  const [high, low] = [drawn[0], drawn.at(-1)];
  if (low === undefined || high === undefined) return null;
  const attitude = (low + high) / 2;
  const under = attitude < 0 ? -1 : 1;
  const isBeyond = known.some((one) => Math.abs(one) > TRUE_TO);
  // All that is written at the right, from top to bottom; nothing on the horizon itself.
  const labels = [
    ...drawn.map((one, i) => ({ of: i, at: on(one)[1], size: FIGURE })),
    { of: 'horizon', at: under * 12, size: WORD },
    ...(isBeyond ? [{ of: 'beyond', at: under * 30, size: WORD }] : []),
  ].sort((a, b) => a.at - b.at);
  const isOver = (at: number): boolean => at < 0 || (at === 0 && under > 0);
  const placesOf = (some: typeof labels, room: readonly [number, number]): number[] =>
    spread(
      some.map(({ at }) => at),
      some.map(({ size }) => size),
      room,
    );
  const places = [
    ...placesOf(
      labels.filter(({ at }) => isOver(at)),
      [-HEIGHT, -CLEAR],
    ),
    ...placesOf(
      labels.filter(({ at }) => !isOver(at)),
      [CLEAR, HEIGHT],
    ),
  ];
  const place = (of: number | string): number => places[labels.findIndex((one) => one.of === of)] ?? 0;
  const ys = OUTLINE.map((point) => turnedUp(point, attitude));
  return {
    attitude,
    rays: known.map((one, i) => {
      const [x, y] = on(drawn[i] ?? 0);
      return { degrees: one, x, y, figure: place(i) };
    }),
    arc: `M${ARC} 0 ${arcTo(0, Math.abs(low) > Math.abs(high) ? low : high)}`,
    band: low === high ? null : `M0 0 L${on(low).join(' ')} ${arcTo(low, high)} Z`,
    horizon: place('horizon'),
    beyond: isBeyond ? place('beyond') : null,
    top: Math.min(...ys, (places[0] ?? 0) - FIGURE / 2) - 4,
    bottom: Math.max(...ys, (places.at(-1) ?? 0) + FIGURE / 2) + 4,
  };
};

/** More than any sketch needs. */
const HEIGHT = 400;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;
const round = (x: number): number => Math.round(x * 100) / 100 + 0;

const on = (degrees: number): readonly [x: number, y: number] => [
  round(ARC * Math.cos(radians(degrees))),
  round(-ARC * Math.sin(radians(degrees))),
];

/** Upwards is against the clock. */
const arcTo = (from: number, to: number): string => `A${ARC} ${ARC} 0 0 ${to > from ? 0 : 1} ${on(to).join(' ')}`;

/** Height of a point of the aeroplane when its nose is raised. */
const turnedUp = ([x, y]: readonly [number, number], degrees: number): number =>
  y * Math.cos(radians(degrees)) - x * Math.sin(radians(degrees));
