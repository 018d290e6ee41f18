import { dayOfIso, isoOfDay } from '../lib/date-words.ts';
import { CRITICAL_WEIGHT, TARGET, TARGET_CRITICAL, targetOf } from '../memory/day-order.ts';
import { DRILLED } from '../memory/plan/input.ts';
import { READING } from '../memory/plan/shares.ts';
import type { IsoDate } from '../model/deck.ts';
import type { Facet, ItemKey } from '../model/item.ts';
import type { ReportPlan } from '../model/report.ts';
import { itemOf, type KnownDecks, type KnownItem } from './known.ts';
import { keysOf } from './packed.ts';
import { expectedOf, type Person, sameName } from './people.ts';
import { type OldRevision, oldRevisions, type RevisionInput } from './revisions.ts';
import type { Packed, PackedDeck } from './types.ts';
import { type NeverAsked, type WeakItem, weakestOf } from './weakest.ts';

export interface Column {
  readonly id: string;
  readonly deck: string;
  readonly title: string;
  readonly deckTitle: string;
}

/** A trainee in a procedure. Recall is that on its check day if practice stopped, 0..1. */
export interface Cell {
  readonly items: number;
  /** Mean; what was never asked counts as not known. */
  readonly recall: number;
  /** Lowest of the critical items; null where there are none. */
  readonly critical: number | null;
  /** Never asked yet. */
  readonly unmet: number;
  /** Mean or lowest critical item is below its target. */
  readonly below: boolean;
  /** It is checked on a day of its own, before the rest; the first one where its items differ. */
  readonly check?: IsoDate;
}

/** A check of some procedures before that of all. */
export interface OwnCheck {
  readonly date: IsoDate;
  /** Days from today; below 0 behind it. */
  readonly daysLeft: number;
  /** Columns with items that are checked then. */
  readonly columns: readonly Column[];
  /** Of all that is checked by then: items below their target, and the least minutes for them. */
  readonly short: number;
  readonly minutes: number;
  /** Minutes planned until then; null behind it. */
  readonly planned: number | null;
}

/** What came of the minutes planned. */
export interface Practised {
  /** Visible time from question to answer; what is read is not in it. */
  readonly minutes: number;
  /** From the first day practised to the day of the report, both included, by what is planned now. */
  readonly planned: number;
}

export interface Row {
  readonly person: Person;
  /** The report that holds, of the decks that are expected. */
  readonly report: Packed;
  readonly made: IsoDate;
  /** Days since the report was made. */
  readonly age: number;
  /** Nothing came for longer than the instructor waits. */
  readonly silent: boolean;
  readonly checkDate: IsoDate | null;
  /** Days from today to the check; null without one, below 0 behind it. */
  readonly daysLeft: number | null;
  /** Checks of some procedures before it, the first one first. */
  readonly checks: readonly OwnCheck[];
  /** Recall is that of the day of the report: there is no check date, or it was past. */
  readonly asOfReport: boolean;
  readonly items: number;
  /** Of all items, as in a cell. */
  readonly recall: number;
  readonly critical: number | null;
  readonly unmet: number;
  /** Items below their target, never asked ones among them. */
  readonly short: number;
  /** Columns below their target. */
  readonly below: number;
  /** See `leastMinutes`. */
  readonly minutes: number;
  /** Minutes a day that are planned, times the days left; null without a check ahead. */
  readonly planned: number | null;
  /** Null where days or minutes were left out, and before the first. */
  readonly practised: Practised | null;
  /** Mean shortfall against the targets, critical items three times, 0..1: who has most of it needs help first. */
  readonly need: number;
  /** What their own app expects of the minutes planned; null where the report does not say, or no check is ahead. */
  readonly plan: ReportPlan | null;
  /** Items that were answered, over all answers: one question may be about several. */
  readonly answered: number;
  /** Of `answered`: wrong though they were sure; null where left out. */
  readonly sureWrong: number | null;
  /** Items of the deck that are not asked of the trainee. */
  readonly notAsked: number;
  readonly old: readonly OldRevision[];
  /** By column; null: nothing of it is asked. */
  readonly cells: readonly (Cell | null)[];
}

export interface ClassTable {
  readonly columns: readonly Column[];
  /** Who needs help first, first. */
  readonly rows: readonly Row[];
  /** Expected, and nothing of theirs is here. */
  readonly missing: readonly string[];
  /** Whoever reports and is not expected; none where nobody is expected by name. */
  readonly unlisted: readonly Person[];
  /** The weakest first. */
  readonly weakest: readonly WeakItem[];
  /** Items that nobody was asked yet. */
  readonly neverAsked: NeverAsked;
}

export interface TableInput extends RevisionInput {
  readonly people: readonly Person[];
  /** By hash; whose newest is not among them has no row. */
  readonly reports: ReadonlyMap<string, Packed>;
  readonly today: IsoDate;
}

/**
 * s of one question about one item, by what is asked: an item's share of the usual question that the forms put
 * (`SECONDS` in src/forms). A report says nothing of the questions themselves.
 */
const SECONDS: Readonly<Record<Facet, number>> = {
  place: 5,
  cue: 17,
  crew: 5,
  words: 5,
  value: 12,
  rule: 25,
  number: 33,
};

/**
 * Least minutes of drills for what is short of its target: each such item asked once more, and read before where it was
 * never asked, times what a drill takes beyond its questions. A floor, not a plan: what is missed needs more than one
 * question, what is asked too early fades again, and how firm each item is the report does not say. The plan of the
 * trainee's own app knows it, and says what minutes a day would do.
 * @param seconds s of questions and readings
 */
export const leastMinutes = (seconds: number): number => Math.max(0, Math.ceil((DRILLED * seconds) / 60 - 1e-9));

export const practisedOf = ({
  days: [first] = [],
  minutes,
  planned,
  made,
}: Pick<Packed, 'days' | 'minutes' | 'planned' | 'made'>): Practised | null => {
  const from = first === undefined ? null : dayOfIso(first);
  if (minutes === undefined || from === null || planned === 0) return null;
  return { minutes, planned: planned * Math.max(1, (dayOfIso(made) ?? from) - from + 1) };
};

/** Of a drill's minutes those that go into answering; the rest is reading. From memory, as drills are simulated. */
export const ANSWERING = 0.6;

/** Less than half of what comes of minutes that are kept: what their own app expects of them will not hold. */
export const practisesLess = ({ practised }: Pick<Row, 'practised'>): boolean =>
  practised !== null && practised.minutes < (ANSWERING / 2) * practised.planned;

/** Sure and wrong so often that it is no slip: at least so many answers, and so large a share of all. Guesses. */
const OFTEN = 10;
const OFTEN_SHARE = 0.2;
export const isOftenSureWrong = ({ sureWrong, answered }: Pick<Row, 'sureWrong' | 'answered'>): boolean =>
  sureWrong !== null && sureWrong >= OFTEN && sureWrong >= OFTEN_SHARE * answered;

/** All items of a class: each key once, with a number of its own. */
class Items {
  readonly #decks: KnownDecks;
  readonly #numbers = new Map<ItemKey, number>();
  readonly #lists = new Map<string, Int32Array>();
  readonly keys: ItemKey[] = [];
  readonly known: KnownItem[] = [];
  readonly deckOf: string[] = [];

  constructor(decks: KnownDecks) {
    this.#decks = decks;
  }

  /** Numbers of the items of a list, which trainees who fly the same share. */
  of({ id, keys }: PackedDeck, split: () => readonly ItemKey[]): Int32Array {
    const before = this.#lists.get(keys);
    if (before !== undefined) return before;
    const numbers = Int32Array.from(split(), (key) => this.#number(id, key));
    this.#lists.set(keys, numbers);
    return numbers;
  }

  #number(deck: string, key: ItemKey): number {
    const before = this.#numbers.get(key);
    if (before !== undefined) return before;
    const number = this.keys.push(key) - 1;
    this.#numbers.set(key, number);
    this.known.push(itemOf(this.#decks.get(deck), key));
    this.deckOf.push(deck);
    return number;
  }
}

const columnsOf = (packed: readonly Packed[], items: Items, decks: KnownDecks): Column[] => {
  const used = new Set(items.known.map(({ column }) => column));
  const titles = new Map<string, string>();
  for (const { decks: reported } of packed) for (const { id, title } of reported) titles.set(id, title);
  return [...titles.keys()].sort().flatMap((deck) => {
    const known = decks.get(deck);
    const deckTitle = known?.title ?? titles.get(deck) ?? deck;
    const named = [...(known?.columns ?? [])].filter(([id]) => used.has(id));
    const rest = used.has(`${deck}#`) ? [[`${deck}#`, known === undefined ? deckTitle : 'Of another revision']] : [];
    return [...named, ...rest].map(([id = '', title = '']) => ({ id, deck, title, deckTitle }));
  });
};

/** The table of a class. O(trainees × items), without a look-up for each item where trainees fly the same. */
export const classTable = (input: TableInput): ClassTable => {
  const { people, reports, decks, settings, today } = input;
  const wanted = new Set(settings.decks.map(({ id }) => id));
  const shown = people.flatMap((person) => {
    const packed = reports.get(person.newest.hash);
    if (packed === undefined) return [];
    const own = wanted.size === 0 ? packed.decks : packed.decks.filter(({ id }) => wanted.has(id));
    return [{ person, packed: { ...packed, decks: own } }];
  });
  const items = new Items(decks);
  for (const { packed } of shown) for (const deck of packed.decks) items.of(deck, () => keysOf(deck));
  const columns = columnsOf(
    shown.map(({ packed }) => packed),
    items,
    decks,
  );
  const columnNumber = new Map(columns.map(({ id }, c) => [id, c]));
  const columnOf = Int32Array.from(items.known, ({ column }) => columnNumber.get(column) ?? -1);
  const critical = Uint8Array.from(items.known, (item) => Number(item.critical));
  const target = Float64Array.from(items.known, targetOf);
  const seconds = Float64Array.from(items.known, ({ facet }) => SECONDS[facet]);
  const sum = new Float64Array(items.keys.length);
  const met = new Int32Array(items.keys.length);
  const shortOf = new Int32Array(items.keys.length);
  const day = dayOfIso(today) ?? 0;

  const rows = shown.map(({ person, packed }): Row => {
    const count = new Int32Array(columns.length);
    const total = new Float64Array(columns.length);
    const unmet = new Int32Array(columns.length);
    const lowest = new Float64Array(columns.length).fill(Number.POSITIVE_INFINITY);
    const { checkDate, made } = packed;
    const asOfReport = checkDate === null || checkDate < made;
    const first = new Int32Array(columns.length);
    const dated = new Map<number, { readonly columns: Set<number>; short: number; work: number }>();
    let short = 0;
    let work = 0;
    let answered = 0;
    let sureWrong = 0;
    let gap = 0;
    let weights = 0;
    for (const deck of packed.decks) {
      const numbers = items.of(deck, () => keysOf(deck));
      const chances = asOfReport ? deck.now : deck.day;
      answered += deck.verdicts.reduce((a, b) => a + b, 0);
      for (let j = 0; j < numbers.length; j++) {
        const i = numbers[j] as number;
        const c = columnOf[i] as number;
        const isMet = !Number.isNaN(deck.now[j] as number);
        const r = isMet ? (chances[j] as number) || 0 : 0;
        const isCritical = critical[i] === 1;
        const aim = target[i] as number;
        count[c] = (count[c] as number) + 1;
        total[c] = (total[c] as number) + r;
        if (!isMet) unmet[c] = (unmet[c] as number) + 1;
        if (isCritical && r < (lowest[c] as number)) lowest[c] = r;
        if (isMet) {
          sum[i] = (sum[i] as number) + r;
          met[i] = (met[i] as number) + 1;
        }
        sureWrong += Math.max(0, deck.sureWrong[j] as number);
        const weight = isCritical ? CRITICAL_WEIGHT : 1;
        weights += weight;
        const own = deck.check?.[j] ?? -1;
        let check = own < 0 ? undefined : dated.get(own);
        if (own >= 0) {
          check ??= { columns: new Set(), short: 0, work: 0 };
          dated.set(own, check);
          check.columns.add(c);
          if (first[c] === 0 || own < (first[c] as number)) first[c] = own;
        }
        if (r >= aim) continue;
        short += 1;
        if (isMet) shortOf[i] = (shortOf[i] as number) + 1;
        const takes = (seconds[i] as number) + (isMet ? 0 : READING);
        work += takes;
        if (check !== undefined) {
          check.short += 1;
          check.work += takes;
        }
        gap += (weight * (aim - r)) / aim;
      }
    }
    const cells = columns.map((_, c): Cell | null => {
      const n = count[c] as number;
      if (n === 0) return null;
      const recall = (total[c] as number) / n;
      const low = lowest[c] as number;
      const worst = low === Number.POSITIVE_INFINITY ? null : low;
      const below = recall < TARGET || (worst !== null && worst < TARGET_CRITICAL);
      const own = first[c] as number;
      const cell = { items: n, recall, critical: worst, unmet: unmet[c] as number, below };
      return own === 0 ? cell : { ...cell, check: isoOfDay(own) };
    });
    const all = cells.filter((cell) => cell !== null);
    const n = all.reduce((whole, cell) => whole + cell.items, 0);
    const worst = all.flatMap((cell) => cell.critical ?? []);
    const age = day - (dayOfIso(person.newest.made) ?? day);
    const daysLeft = checkDate === null ? null : (dayOfIso(checkDate) ?? day) - day;
    const plannedIn = (days: number | null) => (days === null || days <= 0 ? null : packed.planned * days);
    let [shortBy, workBy] = [0, 0];
    const checks = [...dated]
      .sort(([a], [b]) => a - b)
      .map(([date, own]): OwnCheck => {
        shortBy += own.short;
        workBy += own.work;
        return {
          date: isoOfDay(date),
          daysLeft: date - day,
          columns: columns.filter((_, c) => own.columns.has(c)),
          short: shortBy,
          minutes: leastMinutes(workBy),
          planned: plannedIn(date - day),
        };
      });
    return {
      person,
      report: packed,
      made,
      age,
      silent: age > settings.silentDays,
      checkDate,
      daysLeft,
      checks,
      asOfReport,
      items: n,
      recall: n === 0 ? 0 : all.reduce((whole, cell) => whole + cell.recall * cell.items, 0) / n,
      critical: worst.length === 0 ? null : Math.min(...worst),
      unmet: all.reduce((whole, cell) => whole + cell.unmet, 0),
      short,
      below: all.filter(({ below }) => below).length,
      minutes: leastMinutes(work),
      planned: plannedIn(daysLeft),
      practised: practisedOf(packed),
      need: weights === 0 ? 0 : gap / weights,
      plan: daysLeft !== null && daysLeft > 0 ? (packed.plan ?? null) : null,
      answered,
      sureWrong: packed.leftOut.includes('sure') ? null : sureWrong,
      notAsked: packed.decks.reduce((whole, { notAsked }) => whole + notAsked, 0),
      old: oldRevisions(packed, input),
      cells,
    };
  });
  rows.sort((a, b) => b.need - a.need || (a.person.id < b.person.id ? -1 : 1));

  const here = new Set(people.flatMap(({ heads }) => heads.map(({ trainee }) => sameName(trainee))));
  const missing = settings.expected.filter((name) => !here.has(sameName(name)));
  const unlisted = settings.expected.length === 0 ? [] : people.filter((one) => expectedOf(settings, one).length === 0);
  const { keys, known, deckOf } = items;
  return { columns, rows, missing, unlisted, ...weakestOf({ keys, known, deckOf, sum, met, short: shortOf }) };
};
