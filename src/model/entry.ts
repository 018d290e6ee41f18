import type { Id } from './deck.ts';
import type { About, FormId } from './form.ts';
import type { ItemKey, Marks, Sure } from './item.ts';

/** The practice log, format 1. One JSON line each, never rewritten. */
interface EntryBase {
  readonly v: 1;
  /** `<writer>.<n>`, n from 1 without gaps. */
  readonly id: string;
  /** UTC milliseconds as the device said. */
  readonly at: number;
  /** Minutes east of UTC. */
  readonly off: number;
  /** Id of the drill it belongs to. */
  readonly drill?: string;
  /** Version of the app that wrote it. */
  readonly app: string;
}

export interface AnswerEntry extends EntryBase {
  readonly k: 'answer';
  /** `<deck id>@<16 hex of content id>` */
  readonly deck: string;
  readonly form: FormId;
  readonly about: About;
  /** View id: the variant combination asked. */
  readonly variant: string;
  readonly seat?: string;
  /** All that the deck does not fix: chips in order, drawn values, seed. */
  readonly shown: unknown;
  readonly given: unknown;
  readonly sure: Sure;
  /** Steps named as not sure within a run. */
  readonly unsure?: readonly Id[];
  /** Visible time from question to answer. */
  readonly ms: number;
  /** What helped, such as `assistive` or `hint`. */
  readonly help?: string;
  readonly marks: Marks;
  /** The run held a fault of any kind (also a stranger, which is no item): its right steps prove less. */
  readonly flawed?: true;
  readonly g: number;
  /** Marker version. */
  readonly mv: number;
}
export interface MarkEntry extends EntryBase {
  readonly k: 'mark';
  readonly of: string;
  readonly mv: number;
  readonly marks: Marks;
  readonly flawed?: true;
  readonly g: number;
}
export interface VoidEntry extends EntryBase {
  readonly k: 'void';
  readonly of: string;
  readonly why: 'mis-tap' | 'query';
  readonly note?: string;
}
export interface ReadEntry extends EntryBase {
  readonly k: 'read';
  readonly deck: string;
  /** Things read in a walk-through: step, limit or scenario ids. */
  readonly about: readonly Id[];
}
export interface SetEntry extends EntryBase {
  readonly k: 'set';
  /** dates, minutes, variants, targets, courses: `check-date/<course>`, `minutes/<course>`, `variants/<deck id>` … */
  readonly key: string;
  readonly value: unknown;
}
export interface DeckEntry extends EntryBase {
  readonly k: 'deck';
  readonly deck: string;
  readonly state: 'in' | 'out' | 'seen';
}
export interface MissedEntry extends EntryBase {
  readonly k: 'missed';
  readonly items: readonly ItemKey[];
  readonly where: 'simulator' | 'check';
  readonly day: number;
}
export interface ClockEntry extends EntryBase {
  readonly k: 'clock';
  readonly writer: string;
  readonly from: number;
  readonly to: number;
  readonly shift: number | null;
}

export type Entry = AnswerEntry | MarkEntry | VoidEntry | ReadEntry | SetEntry | DeckEntry | MissedEntry | ClockEntry;

/** Marks what a newer app wrote; no text of a field, since a newer kind may use any. */
export const UNKNOWN: unique symbol = Symbol('unknown');

/** From a newer version of the app: kept and passed on, not folded. */
export interface UnknownEntry extends EntryBase {
  readonly k: string;
  readonly [UNKNOWN]: true;
}

type DistributiveOmit<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never;
/** What a caller says; the store adds v, id and app. */
export type NewEntry = DistributiveOmit<Entry, 'v' | 'id' | 'app'>;
