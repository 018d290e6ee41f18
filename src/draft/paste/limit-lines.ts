import type { Json } from '../../lib/canonical-json.ts';
import { blankLimit, idsIn, lengthAt } from '../blank.ts';
import { type Change, insert, put, valueAt } from '../change.ts';
import { type LimitLine, MOST_LETTERS, readLimitLine } from './limit-line.ts';

/** Limits taken at a time: the page that shows them stays quick. */
export const MOST_AT_ONCE = 500;

export interface LimitLines {
  readonly limits: readonly LimitLine[];
  /** What stays to be worded otherwise or taken next, in the order of the lines. */
  readonly left: readonly string[];
  /** Lines of `left` that could not be read. */
  readonly unread: number;
  /** Of these, lines longer than any that is read. */
  readonly long: number;
  /** Lines of `left` that wait behind the most that are taken at a time. */
  readonly waiting: number;
}

/** Reads limit after limit, a line each; empty lines say nothing. */
export const readLimitLines = (text: string): LimitLines => {
  const lines = text.split(/\r\n|\r|\n/).filter((line) => line.trim() !== '');
  const limits: LimitLine[] = [];
  const unread: string[] = [];
  let next = 0;
  for (; next < lines.length && limits.length < MOST_AT_ONCE; next++) {
    const line = lines[next] as string;
    const limit = readLimitLine(line);
    if (limit === null) unread.push(line);
    else limits.push(limit);
  }
  const waiting = lines.slice(next);
  return {
    limits,
    left: [...unread, ...waiting],
    unread: unread.length,
    long: unread.filter((line) => line.length > MOST_LETTERS).length,
    waiting: waiting.length,
  };
};

const LIST = '/limits';

/** Puts limits behind those of the draft, in order; each is given a name of its own. The draft is read once. */
export const addLimits = (doc: Json, lines: readonly LimitLine[]): Change[] => {
  const taken = idsIn(doc);
  const first = lengthAt(doc, LIST);
  const added = lines.map((line, i) => {
    const limit = blankLimit(doc, line, taken);
    taken.add(String(valueAt(limit, '/id')));
    return insert(LIST, first + i, limit);
  });
  return Array.isArray(valueAt(doc, LIST)) ? added : [put(doc, LIST, []), ...added];
};
