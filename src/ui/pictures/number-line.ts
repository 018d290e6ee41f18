import { spread } from './spread.ts';

/** A place on the line, with the label that belongs to it. */
export interface LineMark {
  readonly value: number;
  /** Of its label, in the picture's own units. */
  readonly width: number;
}

export interface LaidMark {
  /** Its tick on the line. */
  readonly x: number;
  /** The middle of its label. */
  readonly label: number;
  /** Labels stand in turn over and under the line, so that no lead line crosses one. */
  readonly row: 'over' | 'under';
}

export interface Room {
  readonly least: number;
  readonly most: number;
  /** Drawn from this value; null: from the least mark. */
  readonly from: number | null;
}

/**
 * Marks on a line to scale.
 * @param marks rising
 * @returns one each; where all are of one value they share the middle
 */
export const layLine = (marks: readonly LineMark[], { least, most, from }: Room): LaidMark[] => {
  const values = marks.map(({ value }) => value).concat(from ?? []);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const at = (value: number): number =>
    high > low ? least + ((value - low) / (high - low)) * (most - least) : (least + most) / 2;
  const laid = marks.map(({ value }, i) => ({ x: at(value), row: rowOf(i) }));
  const labels = new Map<number, number>();
  for (const row of ['over', 'under'] as const) {
    const own = [...marks.keys()].filter((i) => rowOf(i) === row);
    const places = spread(
      own.map((i) => laid[i]?.x ?? 0),
      own.map((i) => marks[i]?.width ?? 0),
      [least - EDGE, most + EDGE],
    );
    own.forEach((i, k) => {
      labels.set(i, places[k] ?? 0);
    });
  }
  return laid.map((one, i) => ({ ...one, label: labels.get(i) ?? one.x }));
};

/** Labels may reach beyond the ends of the scale by so much. */
export const EDGE = 16;

const rowOf = (i: number): 'over' | 'under' => (i % 2 === 0 ? 'over' : 'under');

/**
 * Cut where the labels of a row would need more room than there is: each piece is a line of its own.
 * @param room between the ends of the labels
 * @returns how many marks each piece has
 */
export const piecesOf = (widths: readonly number[], room: number): number[] => {
  const pieces: number[] = [];
  let rows = [0, 0];
  let count = 0;
  for (const width of widths) {
    const taken = (rows[count % 2] ?? 0) + width;
    if (count > 0 && taken > room) {
      pieces.push(count);
      rows = [0, 0];
      count = 0;
    }
    rows[count % 2] = (rows[count % 2] ?? 0) + width;
    count += 1;
  }
  return count === 0 ? pieces : [...pieces, count];
};
