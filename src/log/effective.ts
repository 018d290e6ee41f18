import type { AnswerEntry, ClockEntry, MarkEntry } from '../model/entry.ts';
import type { AnyEntry } from '../model/ports.ts';
import { isUnknown } from './line.ts';
import { compareOrder, type Order, orderOf, parseId } from './order.ts';

/** An entry as it counts: at its effective time, by its latest marks. */
export interface Effective {
  readonly entry: AnyEntry;
  readonly order: Order;
  /** Nobody knows when it really was: it opens no new study day. */
  readonly timeless: boolean;
}

/**
 * A log in the order of folding: voided answers left out, later marks put in the place of earlier ones, times mended
 * by `clock` entries. One after the other: a log that came in order, as most do, is never held a second time.
 */
export function* effective(entries: Iterable<AnyEntry>): Generator<Effective, void> {
  const all = [...entries];
  const voided = new Set<string>();
  const marks = new Map<string, MarkEntry>();
  const clocks: ClockEntry[] = [];
  let inOrder = true;
  let before = all[0];
  for (const entry of all) {
    // Two at the same moment are rare: only they are compared by writer and number.
    inOrder &&= before === undefined || before.at < entry.at || compareOrder(orderOf(before), orderOf(entry)) <= 0;
    before = entry;
    if (isUnknown(entry)) continue;
    if (entry.k === 'void') voided.add((entry as { of: string }).of);
    else if (entry.k === 'clock') clocks.push(entry as ClockEntry);
    else if (entry.k === 'mark') {
      const mark = entry as MarkEntry;
      const known = marks.get(mark.of);
      if (known === undefined || mark.mv > known.mv) marks.set(mark.of, mark);
    }
  }
  const counts = (entry: AnyEntry, time?: Time): Effective => ({
    entry: marks.size === 0 ? entry : remarked(entry, marks.get(entry.id)),
    order: orderOf(entry, time?.at),
    timeless: time?.timeless ?? false,
  });
  if (inOrder && clocks.length === 0) {
    for (const entry of all) if (!voided.has(entry.id)) yield counts(entry);
    return;
  }
  const times = clocks.length === 0 ? null : effectiveTimes(all, clocks);
  const out: Effective[] = [];
  for (const entry of all) if (!voided.has(entry.id)) out.push(counts(entry, times?.get(entry.id)));
  yield* out.sort((a, b) => compareOrder(a.order, b.order));
}

const remarked = (entry: AnyEntry, mark: MarkEntry | undefined): AnyEntry => {
  if (mark === undefined || entry.k !== 'answer' || mark.mv <= (entry as AnswerEntry).mv) return entry;
  const { flawed: _, ...answer } = entry as AnswerEntry;
  return { ...answer, marks: mark.marks, g: mark.g, mv: mark.mv, ...(mark.flawed && { flawed: true as const }) };
};

interface Time {
  readonly at: number;
  readonly timeless: boolean;
}

interface Numbered {
  readonly id: string;
  readonly n: number;
  readonly at: number;
}

/**
 * Shifted by the `clock` entries of their writer, of several the one with the highest number, whatever their dates say.
 * Where the shift is not known: right after the entry before, or with the first whose time is known.
 */
const effectiveTimes = (all: readonly AnyEntry[], clocks: readonly ClockEntry[]): Map<string, Time> => {
  const byWriter = new Map<string, Numbered[]>();
  for (const { id, at } of all) {
    const parts = parseId(id);
    if (parts === undefined) continue;
    const list = byWriter.get(parts.writer) ?? [];
    list.push({ id, n: parts.n, at });
    byWriter.set(parts.writer, list);
  }
  const latestLast = [...clocks].sort((a, b) => numberOf(a) - numberOf(b) || (a.id < b.id ? -1 : 1));
  const times = new Map<string, Time>();
  for (const [writer, list] of byWriter) {
    const own = latestLast.filter((clock) => clock.writer === writer);
    if (own.length === 0) continue;
    list.sort((a, b) => a.n - b.n);
    const shifts = shiftsOf(list, own);
    let last: number | null = null;
    let early: Numbered[] = [];
    for (const [i, one] of list.entries()) {
      const shift = shifts[i] as number | null;
      if (shift !== null) {
        last = one.at + shift;
        times.set(one.id, { at: last, timeless: false });
        for (const { id } of early) times.set(id, { at: last, timeless: true });
        early = [];
      } else if (last === null) early.push(one);
      else times.set(one.id, { at: last, timeless: true });
    }
    for (const { id, at } of early) times.set(id, { at, timeless: true });
  }
  return times;
};

const numberOf = ({ id }: ClockEntry): number => parseId(id)?.n ?? 0;

/** For each of a list in the order of its numbers: ms, or null where nobody knows. A later clock covers an earlier one. */
const shiftsOf = (list: readonly Numbered[], clocks: readonly ClockEntry[]): (number | null)[] => {
  const shifts: (number | null)[] = list.map(() => 0);
  for (const { from, to, shift } of clocks) {
    let low = 0;
    let high = list.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((list[middle] as Numbered).n < from) low = middle + 1;
      else high = middle;
    }
    for (let i = low; i < list.length && (list[i] as Numbered).n <= to; i++) shifts[i] = shift;
  }
  return shifts;
};
