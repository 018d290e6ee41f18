import { isUnknown } from '../log/line.ts';
import { studyDay } from '../log/study-day.ts';
import type { Outcome } from '../memory/types.ts';
import type { AnswerEntry, Entry, VoidEntry } from '../model/entry.ts';
import type { ItemKey, Verdict } from '../model/item.ts';
import type { AnyEntry } from '../model/ports.ts';

/** missed, unsure, sound, fluent. */
export type Verdicts = readonly [missed: number, unsure: number, sound: number, fluent: number];

export interface ItemTally {
  readonly verdicts: Verdicts;
  /** Of those missed: the learner was sure. */
  readonly sureWrong: number;
  /** Answers about it that were taken back. */
  readonly voids: number;
  /** Study day of the last answer that counts; null where there is none, or nobody knows when it was. */
  readonly last: number | null;
}

export interface Query {
  readonly items: readonly ItemKey[];
  /** Study day; of one whose time nobody knows the day that the device said. */
  readonly day: number;
  /** '' where nothing was written. */
  readonly note: string;
}

export interface DeckTally {
  /** Answers that count. */
  readonly answers: number;
  /** Visible time of them, ms. */
  readonly ms: number;
  /** Study days with an answer, rising. */
  readonly days: readonly number[];
  /** By the key of today. */
  readonly items: readonly (readonly [ItemKey, ItemTally])[];
  readonly queries: readonly Query[];
  /** Answers with something wrong, in order. */
  readonly wrong: readonly AnswerEntry[];
}

/** By deck id: all of the log, counted. Plain data, since it crosses from a worker. */
export type Tally = readonly (readonly [string, DeckTally])[];

const PLACE: Readonly<Record<Verdict, 0 | 1 | 2 | 3>> = { missed: 0, unsure: 1, sound: 2, fluent: 3 };

interface Counted {
  verdicts: [number, number, number, number];
  sureWrong: number;
  voids: number;
  last: number | null;
}
interface OfDeck {
  answers: number;
  ms: number;
  readonly days: Set<number>;
  readonly items: Map<ItemKey, Counted>;
  readonly queries: Query[];
  readonly wrong: AnswerEntry[];
}
interface TakenBack {
  readonly day: number;
  /** Null: a slip of the finger. */
  readonly note: string | null;
}

const idOf = (ref: string): string => ref.slice(0, ref.indexOf('@'));

/** @param today key of today for an old one */
export const createTally = (today: (key: ItemKey) => ItemKey) => {
  const decks = new Map<string, OfDeck>();
  const back = new Map<string, TakenBack>();
  const deckOf = (ref: string): OfDeck => {
    const id = idOf(ref);
    const known = decks.get(id) ?? { answers: 0, ms: 0, days: new Set(), items: new Map(), queries: [], wrong: [] };
    decks.set(id, known);
    return known;
  };
  const itemOf = (deck: OfDeck, key: ItemKey): Counted => {
    const known = deck.items.get(key) ?? { verdicts: [0, 0, 0, 0], sureWrong: 0, voids: 0, last: null };
    deck.items.set(key, known);
    return known;
  };

  const answer = (entry: AnswerEntry, { verdicts }: Outcome, day: number | null): void => {
    const deck = deckOf(entry.deck);
    deck.answers += 1;
    deck.ms += entry.ms;
    if (day !== null) deck.days.add(day);
    for (const [key, verdict] of Object.entries(verdicts) as [ItemKey, Verdict][]) {
      const item = itemOf(deck, key);
      item.verdicts[PLACE[verdict]] += 1;
      if (verdict === 'missed' && entry.sure === true) item.sureWrong += 1;
      if (day !== null) item.last = Math.max(day, item.last ?? day);
    }
    if (entry.given !== null && Object.values(entry.marks).includes('wrong')) deck.wrong.push(entry);
  };

  return {
    /**
     * One entry after the other, as they count: those taken back are not among them.
     * @param outcome what it did; null for all but answers
     * @param day study day; null where nobody knows when it was
     */
    add: (entry: Entry, outcome: Outcome | null, day: number | null): void => {
      if (entry.k === 'answer' && outcome !== null) answer(entry, outcome, day);
      else if (entry.k === 'void') {
        const before = back.get(entry.of);
        // Taken back twice, on two devices, is once; the query is what was meant.
        if (before === undefined || before.note === null) back.set(entry.of, takenBack(entry, day));
      }
    },
    /** @param all of the log, those taken back too */
    of: (all: readonly AnyEntry[]): Tally => {
      for (const entry of all) {
        if (isUnknown(entry) || entry.k !== 'answer') continue;
        const taken = back.get(entry.id);
        if (taken === undefined) continue;
        const { deck: ref, marks } = entry as AnswerEntry;
        const deck = deckOf(ref);
        const items = [...new Set(Object.keys(marks).map(today))];
        for (const key of items) itemOf(deck, key).voids += 1;
        if (taken.note !== null) deck.queries.push({ items, day: taken.day, note: taken.note });
      }
      return [...decks].map(([id, { days, items, ...rest }]) => [
        id,
        { ...rest, days: [...days].sort((a, b) => a - b), items: [...items] },
      ]);
    },
  };
};

const takenBack = ({ at, off, why, note }: VoidEntry, day: number | null): TakenBack => ({
  day: day ?? studyDay(at, off),
  note: why === 'query' ? (note ?? '') : null,
});
