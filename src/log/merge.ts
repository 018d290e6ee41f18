import { fnv1a } from '../lib/hash.ts';
import type { AnyEntry } from '../model/ports.ts';
import { isUnknown, toLine } from './line.ts';
import { readLine } from './read-line.ts';

export interface Merged {
  /** The union, ordered by id. */
  readonly lines: readonly string[];
  /** In the union, not in `here`. */
  readonly added: readonly string[];
  /** In `here`, not in the union: an entry that had to give its id to another and took a longer one. */
  readonly renamed: readonly string[];
  /** Lines of `incoming` that were here already, byte for byte. */
  readonly doubled: number;
  /** Ids that two different entries claimed (a copied phone): both are kept. */
  readonly clashes: number;
  /** Added lines of a kind that this version does not know. */
  readonly unknown: number;
}

const SUFFIX = /~[0-9a-z]+(?=$|\/)/;

/**
 * Union by id. Of two different entries under one id the one whose line has the smaller hash keeps it; the others are
 * `<id>~<hash6>`. A function of the set of entries alone, and so commutative, associative and idempotent.
 * @throws RangeError for a line that is no entry
 */
export const mergeLines = (here: readonly string[], incoming: readonly string[]): Merged => {
  const claims = new Map<string, Map<string, number>>();
  const known = new Set(here);
  let doubled = 0;
  const claim = (entry: AnyEntry): void => {
    const id = entry.id.replace(SUFFIX, '');
    // As it was written, before any clash.
    const original = toLine({ ...entry, id });
    const same = claims.get(id) ?? new Map<string, number>();
    same.set(original, fnv1a(original));
    claims.set(id, same);
  };
  for (const line of here) claim(readLine(line));
  for (const line of incoming) {
    const entry = readLine(line);
    // Whoever wrote the file may have laid it out otherwise.
    if (known.has(line) || known.has(toLine(entry))) doubled += 1;
    claim(entry);
  }
  const lines: string[] = [];
  let clashes = 0;
  for (const [id, same] of [...claims].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const sorted = [...same].sort(([a, x], [b, y]) => x - y || (a < b ? -1 : 1));
    if (sorted.length > 1) clashes += 1;
    for (const [place, [line, hash]] of sorted.entries()) lines.push(place === 0 ? line : renamed(line, id, hash));
  }
  const union = new Set(lines);
  const added = lines.filter((line) => !known.has(line));
  return {
    lines,
    added,
    renamed: here.filter((line) => !union.has(line)),
    doubled,
    clashes,
    unknown: added.filter((line) => isUnknown(readLine(line))).length,
  };
};

const renamed = (line: string, id: string, hash: number): string => {
  const hash6 = hash.toString(36).padStart(6, '0').slice(0, 6);
  const cut = id.indexOf('/');
  const named = cut < 0 ? `${id}~${hash6}` : `${id.slice(0, cut)}~${hash6}${id.slice(cut)}`;
  return toLine({ ...readLine(line), id: named });
};
