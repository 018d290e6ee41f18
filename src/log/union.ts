import type { Progress } from '../model/ports.ts';
import { readStored, toLine } from './line.ts';
import { type Fact, mergeLines, originalId } from './merge.ts';
import { parseId } from './order.ts';

/** What a log becomes by lines from elsewhere, and what there is to write and to tell of it. */
export interface Union {
  /** Lines to be taken out together with the putting in of `first`: their entries took a longer id. */
  readonly renamed: readonly string[];
  readonly first: readonly string[];
  /** All other lines that are new, by study day and id. */
  readonly rest: readonly string[];
  /** Writers of the new lines. */
  readonly writers: readonly string[];
  /** Greatest `at` of the new lines, UTC ms; 0 for none. */
  readonly at: number;
  readonly doubled: number;
  readonly clashes: number;
  readonly unknown: number;
  /** New answers, and the study days on which they were given. */
  readonly answers: number;
  readonly days: number;
}

/** As it crosses into a worker: a hundred thousand texts take far longer to hand over than one. */
export interface UnionInput {
  /** Lines with a line feed between them. */
  readonly here: string;
  readonly incoming: string;
}

const linesOf = (text: string): string[] => (text === '' ? [] : text.split('\n'));

/** @throws RangeError for an incoming line that is no entry */
export const unionOf = (input: UnionInput, onProgress?: Progress): Union => {
  const merged = mergeLines(linesOf(input.here), linesOf(input.incoming), onProgress);
  const given = new Set(merged.renamed.map((line) => readStored(line).id));
  const original = (line: string): string => {
    const entry = readStored(line);
    return toLine({ ...entry, id: originalId(entry.id) });
  };
  const old = new Set(merged.renamed.map(original));
  const first: string[] = [];
  const rest: (Fact & { readonly line: string })[] = [];
  const writers = new Set<string>();
  const days = new Set<number>();
  let at = 0;
  let answers = 0;
  let suffixed = 0;
  let unknown = 0;
  for (const line of merged.added) {
    const fact = merged.factOf(line);
    const { id, day } = fact;
    const writer = parseId(id)?.writer;
    if (writer !== undefined) writers.add(writer);
    at = Math.max(at, fact.at);
    if (fact.isUnknown) unknown += 1;
    const isLonger = id.includes('~');
    if (isLonger) suffixed += 1;
    // One that only took a longer id was here before.
    if (fact.isAnswer && !(isLonger && old.has(original(line)))) {
      answers += 1;
      days.add(day);
    }
    if (merged.renamed.length > 0 && (given.has(id) || isLonger)) first.push(line);
    else rest.push({ ...fact, line });
  }
  rest.sort((a, b) => a.day - b.day || (a.id < b.id ? -1 : 1));
  const { renamed, doubled } = merged;
  return {
    renamed,
    first,
    rest: rest.map(({ line }) => line),
    writers: [...writers],
    at,
    doubled,
    // Of ids that were claimed a second time before it was told then.
    clashes: renamed.length > 0 ? merged.clashes : suffixed,
    unknown,
    answers,
    days: days.size,
  };
};
