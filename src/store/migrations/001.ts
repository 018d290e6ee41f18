import type { Migration } from './index.ts';

/**
 * Version 1. Rows of the log are lines under [study day, id]; no index: each one would be written with every answer.
 * Frozen: databases in the field were made by it. What must change goes into 002.ts.
 */
export const migration001: Migration = (database) => {
  database.createObjectStore('log');
  database.createObjectStore('segments');
  database.createObjectStore('decks', { keyPath: 'ref' });
  database.createObjectStore('state');
  database.createObjectStore('device');
};
