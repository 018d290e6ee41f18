import { canonicalJson, type Json } from '../lib/canonical-json.ts';
import { UNKNOWN, type UnknownEntry } from '../model/entry.ts';
import type { AnyEntry } from '../model/ports.ts';
import { upgrade } from './upgrade.ts';

/** Kinds of format 1. */
const KINDS: ReadonlySet<string> = new Set(['answer', 'mark', 'void', 'read', 'set', 'deck', 'missed', 'clock']);

/** The bytes of an entry in database, journal, copy and segment: RFC 8785 JSON, one line. */
export const toLine = (entry: AnyEntry): string => {
  const { [UNKNOWN]: _, ...fields } = entry as UnknownEntry;
  return canonicalJson(fields as unknown as Json);
};

/**
 * Reads a line that was checked when it came in (`readLine` in read-line.ts), of an older version too. Kinds and
 * versions of a newer app come back with all their fields, marked `unknown`.
 */
export const readStored = (line: string): AnyEntry => asEntry(JSON.parse(line) as Record<string, unknown>);

export const asEntry = (raw: Readonly<Record<string, unknown>>): AnyEntry => {
  const entry = upgrade(raw);
  const known = entry.v === 1 && KINDS.has(String(entry.k));
  return (known ? entry : { ...entry, [UNKNOWN]: true }) as unknown as AnyEntry;
};

export const isUnknown = (entry: AnyEntry): entry is UnknownEntry => UNKNOWN in entry;
