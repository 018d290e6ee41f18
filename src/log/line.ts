import * as v from 'valibot';
import { canonicalJson, type Json } from '../lib/canonical-json.ts';
import type { Entry, UnknownEntry } from '../model/entry.ts';
import type { AnyEntry } from '../model/ports.ts';
import { AnyShape, ENTRY_SHAPES } from './shape.ts';
import { upgrade } from './upgrade.ts';

/** The bytes of an entry in database, journal, copy and segment: RFC 8785 JSON, one line. */
export const toLine = (entry: AnyEntry): string => {
  const { unknown: _, ...fields } = entry as UnknownEntry;
  return canonicalJson(fields as unknown as Json);
};

/**
 * Reads a line, of an older version too. Kinds and versions of a newer app come back with all their fields, marked
 * `unknown`.
 * @throws RangeError that says what is wrong with the line
 */
export const readLine = (line: string): AnyEntry => {
  let raw: unknown;
  try {
    raw = JSON.parse(line);
  } catch {
    throw new RangeError('This line is damaged: it is no JSON.');
  }
  const any = v.safeParse(AnyShape, raw);
  if (!any.success) throw new RangeError(`This line is no entry: ${complaint(any.issues)}.`);
  const entry = upgrade(raw as Record<string, unknown>);
  const shape = Object.hasOwn(ENTRY_SHAPES, String(entry.k)) ? ENTRY_SHAPES[entry.k as keyof typeof ENTRY_SHAPES] : null;
  if (entry.v !== 1 || shape === null) return { ...(entry as object), unknown: true } as unknown as UnknownEntry;
  const known = v.safeParse(shape, entry);
  if (!known.success) throw new RangeError(`This ${String(entry.k)} entry is damaged: ${complaint(known.issues)}.`);
  return entry as unknown as Entry;
};

const complaint = (issues: readonly v.BaseIssue<unknown>[]): string => {
  const [first] = issues;
  if (first === undefined) return 'unreadable';
  return `${v.getDotPath(first) ?? 'the line'} should be ${first.expected ?? 'otherwise'}, is ${first.received}`;
};

export const isUnknown = (entry: AnyEntry): entry is UnknownEntry => 'unknown' in entry && entry.unknown === true;
