import { fnv1a } from '../lib/hash.ts';
import type { AnyEntry, Progress } from '../model/ports.ts';
import { isUnknown, readStored, toLine } from './line.ts';
import { plainIdOf } from './line-id.ts';
import { readAndWrite } from './read-line.ts';
import { studyDay } from './study-day.ts';

export interface Merged {
  /** The union, ordered by id; sorted when asked for. */
  readonly lines: readonly string[];
  /** In the union, not in `here`; ordered by id. */
  readonly added: readonly string[];
  /** In `here`, not in the union: an entry that had to give its id to another and took a longer one. */
  readonly renamed: readonly string[];
  /** Lines of `incoming` that were here already, byte for byte. */
  readonly doubled: number;
  /** Ids that two different entries claimed (a copied phone): both are kept. */
  readonly clashes: number;
  /** What is told of an added line: read once, since reading is most of the work. */
  readonly factOf: (line: string) => Fact;
}

export interface Fact {
  readonly id: string;
  /** UTC ms. */
  readonly at: number;
  /** Study day. */
  readonly day: number;
  readonly isAnswer: boolean;
  /** Of a kind that this version does not know. */
  readonly isUnknown: boolean;
}

const factOf = (entry: AnyEntry): Fact => ({
  id: entry.id,
  at: entry.at,
  day: studyDay(entry.at, entry.off),
  isAnswer: !isUnknown(entry) && entry.k === 'answer',
  isUnknown: isUnknown(entry),
});

/** Lines between two tellings of the share done. */
const TELL_EVERY = 1000;

const SUFFIX = /~[0-9a-z]+(?=$|\/)/;

/** Id that an entry was written under, before any clash. */
export const originalId = (id: string): string => id.replace(SUFFIX, '');

/**
 * Union by id. Of two different entries under one id the one whose line has the smaller hash keeps it; the others are
 * `<id>~<hash6>`. A function of the set of entries alone, and so commutative, associative and idempotent.
 * @param here lines that were checked when they came in
 * @throws RangeError for an incoming line that is no entry
 */
export const mergeLines = (
  here: readonly string[],
  incoming: readonly string[],
  onProgress: Progress = () => undefined,
): Merged => {
  /** Of nearly every id one line claims it: no map for that. */
  const claims = new Map<string, string | Map<string, number>>();
  const known = new Set(here);
  const facts = new Map<string, Fact>();
  let doubled = 0;
  let read = 0;
  const count = () => {
    read += 1;
    if (read % TELL_EVERY === 0) onProgress(read / (here.length + incoming.length));
  };
  const claim = (id: string, original: string): void => {
    const before = claims.get(id);
    if (before === undefined) claims.set(id, original);
    else if (typeof before !== 'string') before.set(original, fnv1a(original));
    else if (before !== original)
      claims.set(id, new Map([before, original].map((line) => [line, fnv1a(line)] as const)));
  };
  const claimAs = (entry: AnyEntry): void => {
    const id = originalId(entry.id);
    claim(id, toLine({ ...entry, id }));
  };
  for (const line of here) {
    count();
    const id = plainIdOf(line);
    if (id !== null) {
      claim(id, line);
      continue;
    }
    const entry = readStored(line);
    if (entry.id.includes('~')) claimAs(entry);
    else claim(entry.id, line);
  }
  for (const line of incoming) {
    count();
    if (known.has(line)) {
      doubled += 1;
      continue;
    }
    // Whoever wrote the file may have laid it out otherwise.
    const { entry, line: canonical } = readAndWrite(line);
    if (known.has(canonical)) doubled += 1;
    if (entry.id.includes('~')) claimAs(entry);
    else claim(entry.id, canonical);
    facts.set(canonical, factOf(entry));
  }
  /** With the ids that they were claimed under; several of one id in the order in which they go on from it. */
  const union: Claimed[] = [];
  let clashes = 0;
  for (const [id, claimed] of claims) {
    if (typeof claimed === 'string') {
      union.push({ id, line: claimed });
      continue;
    }
    clashes += 1;
    const sorted = [...claimed].sort(([a, x], [b, y]) => x - y || (a < b ? -1 : 1));
    for (const [place, [line, hash]] of sorted.entries())
      union.push({ id, line: place === 0 ? line : renamed(line, id, hash) });
  }
  const kept = new Set(union.map(({ line }) => line));
  return {
    get lines() {
      return byId(union);
    },
    added: byId(union.filter(({ line }) => !known.has(line))),
    renamed: here.filter((line) => !kept.has(line)),
    doubled,
    clashes,
    factOf: (line) => facts.get(line) ?? factOf(readStored(line)),
  };
};

interface Claimed {
  readonly id: string;
  readonly line: string;
}

const byId = (claimed: readonly Claimed[]): string[] =>
  [...claimed].sort((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0)).map(({ line }) => line);

const renamed = (line: string, id: string, hash: number): string => {
  const hash6 = hash.toString(36).padStart(6, '0').slice(0, 6);
  const cut = id.indexOf('/');
  const named = cut < 0 ? `${id}~${hash6}` : `${id.slice(0, cut)}~${hash6}${id.slice(cut)}`;
  return toLine({ ...readStored(line), id: named });
};
