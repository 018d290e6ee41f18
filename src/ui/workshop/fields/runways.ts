import { type Change, put } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, isMembers } from '../../../lib/json.ts';

/** Degrees that were meant by numbers of runways, with how to ask for them. */
export interface Meant {
  readonly words: string;
  readonly changes: readonly Change[];
}

const isNumber = (x: Json | undefined): x is number => typeof x === 'number';
/** A runway as it is painted: 1 to 36. */
const isPainted = (x: number): boolean => Number.isInteger(x) && x >= 1 && x <= 36;

/** Degrees of numbers among which one is no tens of degrees; those that can only be degrees stay. */
const degreesOf = (numbers: readonly number[]): number[] | null => {
  if (numbers.every((x) => x % 10 === 0)) return null;
  // 10, 20 and 30 are both: beside degrees they are degrees.
  const all = numbers.every(isPainted);
  const meant = numbers.map((x) => (isPainted(x) && (all || x % 10 !== 0) ? x * 10 : x));
  return meant.every((x) => x % 10 === 0) ? meant : null;
};

const listed = (numbers: readonly number[]): string =>
  numbers.length < 2 ? numbers.join('') : `${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`;

/**
 * What the author of a drawn value means who wrote "07" for a runway.
 * @param path of the drawn value
 * @returns null where it is not shown as a runway, or its numbers are degrees, or cannot be runways
 */
export const runwaysMeant = (doc: Json, path: string, value: Json | undefined): Meant | null => {
  if (!isMembers(value) || value.show !== 'runway') return null;
  const { oneOf, from, to, step } = value;
  if (isList(oneOf)) {
    const numbers = oneOf.filter(isNumber);
    const meant = degreesOf(numbers);
    if (meant === null) return null;
    const changed = meant.filter((x, i) => x !== numbers[i]);
    const rest = [...meant];
    return {
      words: `Did you mean ${listed(changed)}?`,
      changes: [
        put(
          doc,
          `${path}/oneOf`,
          oneOf.map((one) => (isNumber(one) ? (rest.shift() as number) : one)),
        ),
      ],
    };
  }
  if (!isNumber(from) || !isNumber(to) || !isPainted(from) || !isPainted(to)) return null;
  const by = isNumber(step) && isPainted(step) ? step * 10 : 10;
  return {
    words: `Did you mean from ${from * 10} to ${to * 10} in steps of ${by}?`,
    changes: [put(doc, path, { ...value, from: from * 10, to: to * 10, step: by } as Json)],
  };
};
