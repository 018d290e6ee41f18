import { isoOfDay } from '../lib/date-words.ts';
import type { ClassSettings, Head, TraineeRecord } from './types.ts';

/** A trainee, with one device or with several that the instructor has joined. */
export interface Person {
  /** Key of the first device: names the trainee. */
  readonly id: string;
  readonly devices: readonly TraineeRecord[];
  /** Of several devices that of the first, whichever report holds: by it the trainee is expected. */
  readonly pseudonym: string;
  /** The pseudonym, and where others chose the same one, the first letters of the key: "Falcon (ABCD EFGH)". */
  readonly name: string;
  /** Others have the same pseudonym. */
  readonly shared: boolean;
  readonly note: string;
  /** The report that holds. */
  readonly newest: Head;
  /** All, the newest first. */
  readonly heads: readonly Head[];
}

const text = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/**
 * A report dated after it was taken in comes of a clock that is ahead: it counts as of that day, or it would hold, and be
 * fresh, until that date has come. A day more is another time zone.
 */
const dated = (head: Head): Head => {
  const taken = Math.floor(head.taken / 86_400_000);
  return head.made > isoOfDay(taken + 1) ? { ...head, made: isoOfDay(taken) } : head;
};

/** Of one device: below 0 where `a` is older. The hash decides where a device was copied. */
const byNumber = (a: Head, b: Head): number => a.n - b.n || text(a.made, b.made) || text(a.hash, b.hash);

/** Of several devices: each counts for itself, so the day comes first. */
const byDay = (a: Head, b: Head): number => text(a.made, b.made) || a.n - b.n || text(a.hash, b.hash);

/** Pseudonyms that people take for the same. */
export const sameName = (name: string): string => name.normalize('NFC').trim().toLowerCase();

/** Names among those expected that are this trainee's. */
export const expectedOf = (
  { expected }: Pick<ClassSettings, 'expected'>,
  { heads }: Pick<Person, 'heads'>,
): string[] => {
  const names = new Set(heads.map(({ trainee }) => sameName(trainee)));
  return expected.filter((name) => names.has(sameName(name)));
};

/** Union by hash, in the order of the hashes; of two with one hash the one taken in first. */
export const union = <H extends Head>(a: readonly H[], b: readonly H[]): H[] => {
  const found = new Map<string, H>();
  for (const head of [...a, ...b]) {
    const known = found.get(head.hash);
    if (known === undefined || head.taken < known.taken) found.set(head.hash, head);
  }
  return [...found.values()].sort((x, y) => text(x.hash, y.hash));
};

/**
 * Who there is. The report that holds is of each device the one with the greatest number; of several devices the one of
 * those made last. Whoever has no report is not among them. In the order of the pseudonyms.
 */
export const peopleOf = (heads: readonly Head[], trainees: readonly TraineeRecord[]): Person[] => {
  const records = new Map(trainees.map((record) => [record.key, record]));
  const byPerson = new Map<string, Map<string, Head[]>>();
  for (const head of union(heads, []).map(dated)) {
    const owner = records.get(head.key)?.joined ?? head.key;
    const devices = byPerson.get(owner) ?? new Map<string, Head[]>();
    byPerson.set(owner, devices.set(head.key, [...(devices.get(head.key) ?? []), head]));
  }
  const people = [...byPerson].map(([id, devices]) => {
    const last = [...devices.values()].flatMap((own) => own.sort(byNumber).at(-1) ?? []).sort(byDay);
    const newest = last.at(-1) as Head;
    const keys = [id, ...[...devices.keys()].filter((key) => key !== id).sort(text)];
    return {
      id,
      devices: keys.map((key) => records.get(key) ?? { key, letters: '', joined: null, note: '' }),
      pseudonym: (last.find(({ key }) => key === id) ?? newest).trainee,
      note: records.get(id)?.note ?? '',
      newest,
      heads: [...devices.values()].flat().sort((a, b) => byDay(b, a)),
    };
  });
  const named = new Map<string, number>();
  for (const { pseudonym } of people) named.set(sameName(pseudonym), (named.get(sameName(pseudonym)) ?? 0) + 1);
  return people
    .map((person) => {
      const shared = (named.get(sameName(person.pseudonym)) ?? 0) > 1;
      const letters = (person.devices[0]?.letters ?? '').slice(0, 9) || person.id.slice(0, 8);
      return { ...person, shared, name: shared ? `${person.pseudonym} (${letters})` : person.pseudonym };
    })
    .sort((a, b) => text(sameName(a.pseudonym), sameName(b.pseudonym)) || text(a.id, b.id));
};
