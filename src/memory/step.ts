import { isUnknown } from '../log/line.ts';
import { compareOrder, type Order, orderOf } from '../log/order.ts';
import { gapDays, type Moment, studyDay } from '../log/study-day.ts';
import type { AnswerEntry, Entry } from '../model/entry.ts';
import { type ItemKey, parseItemKey, type Verdict } from '../model/item.ts';
import type { AnyEntry } from '../model/ports.ts';
import { DEFAULT_MODEL, type MemoryModel, recallChance } from './fsrs.ts';
import { Pace } from './pace.ts';
import type { Facts, ItemMemory, Outcome, SettingValue } from './types.ts';
import { type Evidence, verdictOf } from './verdict.ts';

/** Raised when the same log would fold to other memory: checkpoints of another version are thrown away. */
export const FOLD_VERSION = 6;

/** A memory while it is being folded. Outside this folder it is read only. */
export interface Folding {
  version: number;
  readonly model: MemoryModel;
  items: Map<ItemKey, ItemMemory>;
  read: Map<string, number>;
  settings: Map<string, SettingValue>;
  seen: Set<string>;
  taken: Map<string, number>;
  days: Set<number>;
  answers: number;
  predicted: number;
  pace: Map<string, Pace>;
  upTo: Order | null;
  newer: number;
}

/** @param model with which what follows is folded */
export const emptyMemory = (model: MemoryModel = DEFAULT_MODEL): Folding => ({
  version: FOLD_VERSION,
  model,
  items: new Map(),
  read: new Map(),
  settings: new Map(),
  seen: new Set(),
  taken: new Map(),
  days: new Set(),
  answers: 0,
  predicted: 0,
  pace: new Map(),
  upTo: null,
  newer: 0,
});

/**
 * What one entry does to a memory, live and in the fold: one function, so that both agree. Voids, marks and clock
 * entries do nothing here: `effective` of src/log has put them in.
 * @param memory changed in place
 * @param timeless nobody knows when it was: no time has passed, and no day begins
 * @param tell false: nobody asks what the answer did
 * @returns what an answer did, null for all other entries
 */
export const step = (
  memory: Folding,
  entry: AnyEntry,
  facts: Facts,
  order: Order = orderOf(entry),
  timeless = false,
  tell = true,
): Outcome | null => {
  if (memory.upTo === null || compareOrder(order, memory.upTo) > 0) memory.upTo = order;
  if (isUnknown(entry)) {
    memory.newer += 1;
    return null;
  }
  const known = entry as Entry;
  // The offset is the device's own, so a mended time is still a local one.
  const now: Moment = { day: studyDay(order[0], known.off), at: order[0] };
  switch (known.k) {
    case 'answer':
      return answer(memory, known, facts, now, timeless, tell);
    case 'read': {
      const deck = known.deck.slice(0, known.deck.indexOf('@'));
      for (const thing of known.about) {
        // What a revision changed must be read in it.
        for (const key of [`${deck}#${thing}`, `${known.deck}#${thing}`])
          if (!memory.read.has(key)) memory.read.set(key, now.day);
      }
      return null;
    }
    case 'set': {
      const before = memory.settings.get(known.key);
      if (before === undefined || compareOrder(order, before.order) > 0)
        memory.settings.set(known.key, { value: known.value, order });
      return null;
    }
    case 'deck':
      if (known.state === 'seen') memory.seen.add(known.deck);
      if (known.state === 'in') take(memory.taken, known.deck, now.at);
      return null;
    case 'missed':
      for (const key of known.items) miss(memory, facts.today(key), { day: known.day, at: now.at });
      return null;
    default:
      return null;
  }
};

/** `help` of an answer to an easier question about what was missed on the same day. */
export const EASED = 'eased';

const NO_FACTS = { critical: false, decision: false };

const answer = (
  memory: Folding,
  entry: AnswerEntry,
  facts: Facts,
  now: Moment,
  timeless: boolean,
  tell: boolean,
): Outcome | null => {
  const paceKey = `${entry.form}/${rowsOf(entry.shown)}`;
  let pace = memory.pace.get(paceKey);
  let isFast: boolean | null = null;
  const verdicts: Record<ItemKey, Verdict> = {};
  const predicted: Record<ItemKey, number> = {};
  const named = entry.unsure ?? [];
  // One for all items of the answer, filled anew for each.
  const evidence: { -readonly [K in keyof Evidence]: Evidence[K] } = {
    mark: 'right',
    sure: entry.sure,
    spared: false,
    flawed: entry.flawed === true,
    helped: entry.help !== undefined,
    eased: entry.help === EASED,
    g: entry.g,
    quick: () => {
      isFast ??= pace?.isQuick(entry.ms) === true;
      return isFast;
    },
    gap: 0,
    memory: undefined,
    facts: NO_FACTS,
  };

  for (const said in entry.marks) {
    const mark = entry.marks[said];
    if (mark === undefined) continue;
    const key = facts.today(said);
    const before = memory.items.get(key);
    const moment = timeless && before !== undefined ? before : now;
    const gap = before === undefined ? 0 : gapDays(before, moment);
    // Of what was answered a moment ago nothing is predicted.
    if (before !== undefined && gap > 0) {
      memory.predicted += 1;
      if (tell) predicted[key] = recallChance(before, before.day + gap, memory.model);
    }
    const about = facts.of(key);
    evidence.mark = mark;
    evidence.spared = named.length > 0 && !named.includes(parseItemKey(said)?.thing ?? '');
    evidence.gap = gap;
    evidence.memory = before;
    evidence.facts = about;
    const { verdict, unmoved } = verdictOf(evidence);
    if (tell) verdicts[key] = verdict;
    if (unmoved) continue;
    // In a paced run nobody said that they were sure: what missed its moment there is missed, and no more.
    const saidSure = entry.sure === true && entry.form !== 'paced';
    const sureButWrong = about.critical && saidSure && verdict === 'missed';
    memory.items.set(key, moved(memory.model, before, moment, gap, verdict, mark === 'right', sureButWrong));
  }

  if (entry.sure !== null && entry.ms > 0) {
    if (pace === undefined) {
      pace = new Pace();
      memory.pace.set(paceKey, pace);
    }
    pace.add(entry.ms);
  }
  memory.answers += 1;
  if (!timeless) memory.days.add(now.day);
  if (!tell) return null;
  return { entry: entry.id, verdicts, predicted, marks: entry.marks, sure: entry.sure, g: entry.g };
};

/**
 * A day right of its own: later than the last one, and not the same sitting, be it that four in the morning came in
 * between or that the learner flew west.
 * @param gap days since the last answer, 0 within six hours
 */
const isAnotherDay = (before: ItemMemory | undefined, now: Moment, gap: number): boolean => {
  const last = before?.lastRightDay ?? null;
  return before === undefined || last === null || (now.day > last && (gap > 0 || before.day === now.day));
};

const moved = (
  model: MemoryModel,
  before: ItemMemory | undefined,
  now: Moment,
  gap: number,
  verdict: Verdict,
  right: boolean,
  sureButWrong: boolean,
): ItemMemory => {
  const { s, d } = model.next(before === undefined ? null : before, gap, verdict);
  const newRightDay = right && verdict !== 'missed' && isAnotherDay(before, now, gap);
  const rightDays = (before?.rightDays ?? 0) + (newRightDay ? 1 : 0);
  let alert = before?.alert ?? null;
  if (sureButWrong) alert = 0;
  else if (alert !== null && verdict === 'missed') alert = 0;
  else if (alert !== null && newRightDay) alert = alert + 1 >= 2 ? null : alert + 1;
  return {
    s,
    d,
    day: now.day,
    at: now.at,
    n: (before?.n ?? 0) + 1,
    rightDays,
    lastRightDay: newRightDay ? now.day : (before?.lastRightDay ?? null),
    first: before?.first ?? now.day,
    verdict,
    alert,
  };
};

/** The order is that of the last time, the time that of the first. */
const take = (taken: Map<string, number>, ref: string, at: number): void => {
  const first = taken.get(ref) ?? at;
  taken.delete(ref);
  taken.set(ref, first);
};

/** Missed in the simulator or at a check: as a missed answer of that day. */
const miss = (memory: Folding, key: ItemKey, now: Moment): void => {
  const before = memory.items.get(key);
  // What was missed some days ago, and answered since, is still missed; but time does not run backwards.
  const moment = { day: Math.max(now.day, before?.day ?? now.day), at: now.at };
  const gap = before === undefined ? 0 : moment.day - before.day;
  memory.items.set(key, moved(memory.model, before, moment, gap, 'missed', false, false));
};

const rowsOf = (shown: unknown): number => {
  if (typeof shown !== 'object' || shown === null) return 0;
  const { chips, rows, lines, choices, fields } = shown as Readonly<Record<string, unknown>>;
  for (const list of [chips, rows, lines, choices, fields])
    if (Array.isArray(list) && list.length > 0) return list.length;
  return 0;
};
