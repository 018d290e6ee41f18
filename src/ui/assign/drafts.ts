/** Assignments as their instructor keeps them on the device: written at every change, numbered as they are handed out. */
import { canonicalJson, type Json } from '../../lib/canonical-json.ts';
import { fnv36 } from '../../lib/hash.ts';
import type { AssignedDeck, AssignedGroup, Assignment, AssignmentFinding } from '../../model/assignment.ts';
import type { Deck } from '../../model/deck.ts';
import type { Store, StoredDeck } from '../../model/ports.ts';
import type { Learner } from '../models/learner.ts';

export type Value = Omit<Assignment, 'recency' | 'v' | 'id' | 'n' | 'made'>;

export type AssignedRevision = Pick<AssignedDeck, 'id' | 'contentId' | 'version'>;

export interface AssignmentDraft {
  readonly id: string;
  /** Perhaps not yet a right one. */
  readonly value: Value;
  /** As it was handed out last, of its decks the revisions; null: never. */
  readonly handed: {
    readonly n: number;
    readonly made: string;
    readonly sum: string;
    readonly decks?: readonly AssignedRevision[];
  } | null;
}

const KEY = 'assignments';

export const readDrafts = async (store: Store): Promise<readonly AssignmentDraft[]> => {
  const kept = await store.device.get(KEY);
  return Array.isArray(kept) ? (kept as AssignmentDraft[]) : [];
};

/** Of all of them. @throws StoreProblem */
export const keepDrafts = (store: Store, drafts: readonly AssignmentDraft[]): Promise<void> =>
  store.device.put(KEY, drafts);

export const blank = (id: string): AssignmentDraft => ({ id, value: { title: '', decks: [] }, handed: null });

/** What is empty is not said at all. */
const said = ({ title, decks, checkDate, groups = [], minutes, note }: Value): Value => ({
  title: title.trim(),
  decks: decks.map(({ address, variants, ...deck }) => {
    const told = Object.entries(variants ?? {}).filter(([, options]) => options.length > 0);
    return {
      ...deck,
      ...(address !== undefined && address.trim() !== '' && { address: address.trim() }),
      ...(told.length > 0 && { variants: Object.fromEntries(told) }),
    };
  }),
  ...(checkDate !== undefined && checkDate !== '' && { checkDate }),
  ...(groups.length > 0 && {
    groups: groups.map(({ id, name, things, checkDate: own, opens }) => ({
      id,
      name: name.trim(),
      things,
      ...(own !== undefined && own !== '' && { checkDate: own }),
      ...(opens !== undefined && opens !== '' && { opens }),
    })),
  }),
  ...(minutes !== undefined && { minutes }),
  ...(note !== undefined && note.trim() !== '' && { note: note.trim() }),
});

/** What the form calls a part that has no name yet. @param i its place */
export const partName = ({ name }: Pick<AssignedGroup, 'name'>, i: number): string =>
  name.trim() === '' ? `Part ${i + 1}` : name.trim();

const FIELDS: Readonly<Record<string, string>> = {
  address: 'address',
  name: 'name',
  things: 'procedures',
  checkDate: 'check date',
  opens: 'opens on',
};
const PLACES: Readonly<Record<string, string>> = {
  checkDate: 'Check date',
  note: 'Note',
  title: 'Title',
  decks: 'Decks',
};

/** Where a finding is, in the words of the form. */
const placeOf = (where: string, { decks, groups = [] }: Value): string => {
  const [, member = '', index = '', field = ''] = where.split('/');
  const i = Number(index);
  const group = member === 'groups' && index !== '' ? groups[i] : undefined;
  const of = member === 'decks' && index !== '' ? decks[i]?.title : group && partName(group, i);
  if (of === undefined) return PLACES[member] ?? where;
  return FIELDS[field] === undefined ? of : `${of}: ${FIELDS[field]}`;
};

/**
 * What hinders handing out, with its place on the form. A part without any day is right as a file, and changes nothing:
 * here it was forgotten.
 */
export const toPutRight = (
  findings: readonly AssignmentFinding[],
  value: Value,
): readonly { readonly place: string; readonly text: string }[] => {
  const isSaid = (date: string | undefined) => date !== undefined && date !== '';
  return [
    ...findings.map(({ where, text }) => ({ place: placeOf(where, value), text })),
    ...(value.groups ?? []).flatMap((group, i) =>
      isSaid(group.checkDate) || isSaid(group.opens)
        ? []
        : [
            {
              place: partName(group, i),
              text: 'It has neither a check date nor a day on which it opens, and so changes nothing. Give it one, or remove it.',
            },
          ],
    ),
  ];
};

const sumOf = (value: Value): string => fnv36(canonicalJson(said(value) as unknown as Json));

/**
 * As it is handed out: what has not changed since goes out under the number that it had, all else under the next.
 * @param today ISO date
 */
export const assignmentOf = ({ id, value, handed }: AssignmentDraft, today: string): Assignment => {
  const isSame = handed !== null && handed.sum === sumOf(value);
  const n = handed === null ? 1 : isSame ? handed.n : handed.n + 1;
  return { recency: 'assignment', v: 1, id, n, made: isSame ? handed.made : today, ...said(value) };
};

const revisionsOf = ({ decks }: Value): readonly AssignedRevision[] =>
  decks.map(({ id, contentId, version }) => ({ id, contentId, version }));

/** Deck id → the revision that trainees were told to practise last. */
export const assignedRevisions = (drafts: readonly AssignmentDraft[]): ReadonlyMap<string, AssignedRevision> => {
  const handed = drafts.flatMap((draft) => draft.handed ?? []);
  // The drafts begin with the newest: of one day it holds.
  const inOrder = handed.reverse().sort((a, b) => (a.made < b.made ? -1 : a.made > b.made ? 1 : 0));
  return new Map(inOrder.flatMap(({ decks = [] }) => decks.map((deck) => [deck.id, deck] as const)));
};

/** Id of an assignment → the number under which it was handed out last. */
export const handedNumbers = (drafts: readonly AssignmentDraft[]): ReadonlyMap<string, number> =>
  new Map(drafts.flatMap(({ id, handed }) => (handed === null ? [] : [[id, handed.n] as const])));

/** From now on this is what trainees have. */
export const handedOut = (draft: AssignmentDraft, { n, made }: Assignment): AssignmentDraft => ({
  ...draft,
  handed: { n, made, sum: sumOf(draft.value), decks: revisionsOf(draft.value) },
});

/** One that was handed out from another device, to go on from. */
export const draftFrom = ({ recency: _, v: __, id, n, made, ...value }: Assignment): AssignmentDraft => ({
  id,
  value,
  handed: { n, made, sum: sumOf(value), decks: revisionsOf(value) },
});

/** "type-rating-group-3-2.assignment.json" */
export const fileName = ({ title, n }: Assignment): string => {
  const words = title
    .normalize('NFKD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
    .replaceAll(/^-|-$/g, '')
    .slice(0, 40);
  return `${words === '' ? 'practice' : words}-${n}.assignment.json`;
};

export const assigned = ({ id, contentId, title, version, nature }: StoredDeck, address?: string): AssignedDeck => ({
  id,
  contentId,
  title,
  version,
  nature,
  ...(address !== undefined && { address }),
});

/** The draft's value with another set of decks: groups keep what is still of one of them. */
export const withDecks = (value: Value, decks: readonly AssignedDeck[]): Value => {
  const known = new Set(decks.map(({ id }) => id));
  const groups = value.groups?.map(
    (group): AssignedGroup => ({
      ...group,
      things: group.things.filter((thing) => known.has(thing.slice(0, thing.indexOf('#')))),
    }),
  );
  return { ...value, decks, ...(groups !== undefined && { groups }) };
};

/** A group with an id that no other has. */
export const newGroup = (groups: readonly AssignedGroup[]): AssignedGroup => {
  let next = groups.length + 1;
  while (groups.some(({ id }) => id === `g${next}`)) next += 1;
  return { id: `g${next}`, name: '', things: [] };
};

/** Deck id → https address, as far as its author wrote it down in the Workshop. */
export const knownAddresses = async (learner: Learner): Promise<ReadonlyMap<string, string>> => {
  const known = new Map<string, string>();
  for (const { value, side } of await learner.store.drafts.list()) {
    const { id } = (value ?? {}) as { readonly id?: unknown };
    const { address } = side;
    if (typeof id === 'string' && typeof address === 'string' && address.trim() !== '') known.set(id, address.trim());
  }
  return known;
};

export interface Assignable {
  readonly stored: StoredDeck;
  readonly deck: Deck;
}

/** Of each deck that is here the revision practised, else the one that came last. */
export const assignable = (decks: readonly StoredDeck[]): readonly Assignable[] =>
  [...new Set(decks.map(({ id }) => id))].flatMap((id) => {
    const all = decks.filter((one) => one.id === id);
    const stored = all.find(({ active }) => active) ?? all.at(-1);
    return stored === undefined ? [] : [{ stored, deck: JSON.parse(stored.text) as Deck }];
  });
