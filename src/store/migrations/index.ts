import { migration001 } from './001.ts';
import { migration002 } from './002.ts';

/**
 * One step from a version to the next, on the bare database: the types of today say nothing about those of its time.
 * Works within the upgrade's transaction and must not wait for anything else.
 */
export type Migration = (database: IDBDatabase, transaction: IDBTransaction) => void;

/** In order; the n-th makes version n. Never reordered, never changed; each has a database in tests/fixtures/db. */
export const MIGRATIONS: readonly Migration[] = [migration001, migration002];

export const VERSION = MIGRATIONS.length;
