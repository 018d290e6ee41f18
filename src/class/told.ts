/** What trainees answered wrongly and queried, over the class. */
import type { IsoDate } from '../model/deck.ts';
import type { ItemKey } from '../model/item.ts';
import { itemOf, type KnownDecks, sameThing } from './known.ts';
import type { Person } from './people.ts';
import { queryId, unstamped } from './query-id.ts';
import type { Packed } from './types.ts';

export interface ClassSlip {
  readonly key: ItemKey;
  readonly deck: string;
  /** What was asked, and where others would read the same, for which item it was. */
  readonly asked: string;
  readonly given: string;
  /** The right answer, where a deck here says it. */
  readonly right: string | null;
  readonly times: number;
  readonly trainees: number;
}

export interface ClassQuery {
  readonly person: Person;
  readonly deck: string;
  readonly deckTitle: string;
  readonly version: string;
  readonly keys: readonly ItemKey[];
  /** What was asked about, an item a line. */
  readonly labels: readonly string[];
  /** Titles of the procedures, or what else it is of, where a deck here says it. */
  readonly where: readonly string[];
  /** Right answers that a deck here says and no label does; of several items each with its label. */
  readonly right: readonly string[];
  readonly on: IsoDate;
  readonly note: string;
  /** Of `queryId`. */
  readonly id: string;
  /** On which day the instructor answered it; null: it is open. */
  readonly answered: IsoDate | null;
}

/** So many slips are told. */
const MOST_SLIPS = 12;

interface Told {
  readonly people: readonly Person[];
  /** By hash. */
  readonly reports: ReadonlyMap<string, Packed>;
  /** Deck ids; empty: all. */
  readonly only: ReadonlySet<string>;
}

function* decksIn({ people, reports, only }: Told) {
  for (const person of people)
    for (const deck of reports.get(person.newest.hash)?.decks ?? [])
      if (only.size === 0 || only.has(deck.id)) yield { person, deck };
}

export interface ClassSlips {
  /** The commonest: those that most trainees made, then most often. */
  readonly slips: readonly ClassSlip[];
  /** All there are: so many kinds. */
  readonly kinds: number;
  /** Trainees who left theirs out of the report. */
  readonly leftOut: number;
  /** Wrong answers that reports count and do not name. */
  readonly unnamed: number;
}

/** A wrong answer of one trainee. */
export interface OwnSlip {
  readonly key: ItemKey;
  readonly asked: string;
  readonly given: string;
  /** The right answer, where a deck here says it. */
  readonly right: string | null;
  readonly critical: boolean;
  readonly times: number;
}

/** Of one report: the most often given first, of equal ones critical ones first; and what it counts without naming it. */
export const slipsOf = (
  { decks: reported }: Pick<Packed, 'decks'>,
  decks: KnownDecks,
): { readonly slips: readonly OwnSlip[]; readonly unnamed: number } => ({
  slips: reported
    .flatMap(({ id, slips = [] }) =>
      slips.map((slip): OwnSlip => {
        const { right, critical } = itemOf(decks.get(id), slip.key);
        return { ...slip, right, critical };
      }),
    )
    .sort((a, b) => b.times - a.times || Number(b.critical) - Number(a.critical)),
  unnamed: reported.reduce((sum, { slipsLeftOut = 0 }) => sum + slipsLeftOut, 0),
});

export const commonSlips = (told: Told, decks: KnownDecks): ClassSlips => {
  const found = new Map<string, { slip: ClassSlip; by: Set<string> }>();
  for (const { person, deck } of decksIn(told))
    for (const { key, asked, given, times } of deck.slips ?? []) {
      const same = JSON.stringify([key, given]);
      const before = found.get(same);
      const by = before?.by ?? new Set<string>();
      by.add(person.id);
      const all = (before?.slip.times ?? 0) + times;
      const { right = null } = decks.get(deck.id)?.items.get(key) ?? {};
      found.set(same, { by, slip: { key, deck: deck.id, asked, given, right, times: all, trainees: by.size } });
    }
  const all = [...found.values()].map(({ slip }) => slip);
  const named = new Map<string, number>();
  for (const slip of all) named.set(lineOf(slip), (named.get(lineOf(slip)) ?? 0) + 1);
  const slips = all
    .sort((a, b) => b.trainees - a.trainees || b.times - a.times || (a.key < b.key ? -1 : 1))
    .slice(0, MOST_SLIPS)
    .map((slip): ClassSlip => {
      if (named.get(lineOf(slip)) === 1) return slip;
      const { label } = itemOf(decks.get(slip.deck), slip.key);
      return { ...slip, asked: `${slip.asked} (${label})` };
    });
  let unnamed = 0;
  for (const { deck } of decksIn(told)) unnamed += deck.slipsLeftOut ?? 0;
  return { slips, kinds: all.length, leftOut: leftOutOf(told), unnamed };
};

/** As it reads on the screen. */
const lineOf = ({ deck, asked, given, right }: ClassSlip): string => JSON.stringify([deck, asked, given, right]);

const leftOutOf = ({ people, reports }: Told): number =>
  people.filter(({ newest }) => reports.get(newest.hash)?.leftOut.includes('slips')).length;

/** The last first. */
export const queriesOf = (told: Told, decks: KnownDecks): ClassQuery[] =>
  [...decksIn(told)]
    .flatMap(({ person, deck }) =>
      (deck.queries ?? []).map(({ items, on, note }): ClassQuery => {
        const [here, id] = [decks.get(deck.id), queryId(deck.id, { items, on, note })];
        const asked = [...new Map(items.map((key) => [itemOf(here, key).label, key]))];
        const kept = person.devices.flatMap(({ answered = {} }) => Object.entries(answered));
        return {
          id,
          answered: kept.find(([one]) => unstamped(one) === id)?.[1] ?? null,
          person,
          deck: deck.id,
          deckTitle: here?.title ?? deck.title,
          version: deck.version,
          keys: items,
          labels: asked.map(([label]) => label),
          where: [...new Set(items.flatMap((key) => here?.columns.get(sameThing(here, key)?.column ?? '') ?? []))],
          right: asked.flatMap(([label, key]) => {
            const right = here?.items.get(key)?.right ?? null;
            if (right === null || label.includes(right)) return [];
            return [asked.length === 1 ? right : `${label}: ${right}`];
          }),
          on,
          note,
        };
      }),
    )
    .sort((a, b) => (a.on < b.on ? 1 : a.on > b.on ? -1 : 0));
