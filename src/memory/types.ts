import type { ItemKey, Marks, Sure, Verdict } from '../model/item.ts';
import type { MemoryModel } from './fsrs.ts';
import type { Pace } from './pace.ts';

/** What is kept of one item: the smallest that folding needs. JSON, since it goes into checkpoints. */
export interface ItemMemory {
  /** Stability, days: the time after which recall chance is 0.9. */
  readonly s: number;
  /** Difficulty, 1..10. */
  readonly d: number;
  /** Study day of the last answer that moved memory. */
  readonly day: number;
  /** UTC ms of it. */
  readonly at: number;
  /** Answers that moved memory. */
  readonly n: number;
  /** Study days on which it was right (counted up to any number). */
  readonly rightDays: number;
  readonly lastRightDay: number | null;
  /** Study day of the first answer. */
  readonly first: number;
  readonly verdict: Verdict;
  /** Sure and wrong on a critical item: listed until right on two days after; days so far, null = not listed. */
  readonly alert: number | null;
}

/** What marking an answer needs to know of an item. */
export interface ItemFacts {
  /** Must never be wrong: never fluent, and listed while sure and wrong. */
  readonly critical: boolean;
  /** A decision by a rule: thinking takes time, so it is never fluent. */
  readonly decision: boolean;
}

/** A pure function of the decks that are installed, so that the live memory and the fold agree. */
export interface Facts {
  of(key: ItemKey): ItemFacts;
  /** The key of today for an old one that its author joined to it. */
  today(key: ItemKey): ItemKey;
}

export interface SettingValue {
  readonly value: unknown;
  /** Order of the entry that set it: effective time, writer, n. */
  readonly order: readonly [number, string, number];
}

/** The fold of a practice log. Mutable inside src/memory only. */
export interface Memory {
  readonly version: number;
  /** With the weights that it was folded with: all that is predicted from it is predicted with them. */
  readonly model: MemoryModel;
  readonly items: ReadonlyMap<ItemKey, ItemMemory>;
  /** `<deck id>#<thing>`, and `<deck ref>#<thing>` of a revision → study day of the first reading. */
  readonly read: ReadonlyMap<string, number>;
  readonly settings: ReadonlyMap<string, SettingValue>;
  /** Refs of revisions of decks of which the learner has seen what they change. */
  readonly seen: ReadonlySet<string>;
  /** Refs of revisions that the learner took, in the order of the last time → UTC ms of the first. */
  readonly taken: ReadonlyMap<string, number>;
  /** Study days with at least one answer. */
  readonly days: ReadonlySet<number>;
  /** Answers that count, that is not void. */
  readonly answers: number;
  /** Of them, by items: those of which something was predicted (met before, and not asked again on the same day). */
  readonly predicted: number;
  /** `<form>/<rows>` → how long the last answers took. */
  readonly pace: ReadonlyMap<string, Pace>;
  /** Order of the last folded entry. */
  readonly upTo: readonly [number, string, number] | null;
  /** Void and query: ids of entries that were voided and are in this fold. */
  readonly newer: number;
}

/** What one entry did: returned live, and gathered by the Debrief. */
export interface Outcome {
  readonly entry: string;
  readonly verdicts: Readonly<Record<ItemKey, Verdict>>;
  /** Recall chance predicted just before, for items answered before on another study day. */
  readonly predicted: Readonly<Record<ItemKey, number>>;
  readonly marks: Marks;
  readonly sure: Sure;
  readonly g: number;
}
