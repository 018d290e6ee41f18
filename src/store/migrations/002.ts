import type { Migration } from './index.ts';

/**
 * Version 2. Decks that are being written, each with what can be taken back, under its own id.
 * Frozen: databases in the field were made by it. What must change goes into 003.ts.
 */
export const migration002: Migration = (database) => {
  database.createObjectStore('drafts', { keyPath: 'id' });
};
