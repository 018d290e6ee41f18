import type { DBSchema, IDBPDatabase } from 'idb';
import type { StoredDeck, StoredDraft } from '../model/ports.ts';

/** Where the next entry goes and what the log holds; written in the same transaction as the log itself. */
export interface Head {
  readonly writer: string;
  /** n of the writer's last entry. */
  readonly n: number;
  /** Entries in rows and segments together. */
  readonly entries: number;
  /** `entries` after the last merge: a checkpoint of fewer does not hold what came in then. */
  readonly floor: number;
  /** Greatest `at` of all entries, UTC ms; 0 when there is none. */
  readonly at: number;
}

/** Some hundred entries of old days: never changed, named by its content, the unit that two devices exchange. */
export interface Segment {
  /** SHA-256 of `text`, 64 hex. */
  readonly hash: string;
  readonly count: number;
  /** Entry lines, each ended by a line feed. */
  readonly text: string;
}

export interface StoredCheckpoint {
  readonly value: unknown;
  readonly entries: number;
}

/** Study day and entry id. */
export type RowKey = [day: number, id: string];

/** What the latest migration leaves behind. */
export interface Schema extends DBSchema {
  /** Entry lines that are not sealed yet. */
  log: { key: RowKey; value: string };
  /** Key: first study day, hash. */
  segments: { key: [day: number, hash: string]; value: Segment };
  decks: { key: string; value: StoredDeck };
  /** Records `head`, `checkpoint`, `drill`. */
  state: { key: string; value: unknown };
  device: { key: string; value: unknown };
  drafts: { key: string; value: StoredDraft };
}

export type Database = IDBPDatabase<Schema>;

export const DATABASE = 'recency';
