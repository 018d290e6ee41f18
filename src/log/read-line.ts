import * as v from 'valibot';
import type { AnyEntry } from '../model/ports.ts';
import { asEntry, isUnknown } from './line.ts';
import { AnyShape, ENTRY_SHAPES } from './shape.ts';

/**
 * Reads a line from elsewhere: a saved copy, a journal. Kinds and versions of a newer app come back with all their
 * fields, marked `unknown`.
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
  const entry = asEntry(raw as Record<string, unknown>);
  if (isUnknown(entry)) return entry;
  const known = v.safeParse(ENTRY_SHAPES[entry.k as keyof typeof ENTRY_SHAPES], entry);
  if (!known.success) throw new RangeError(`This ${entry.k} entry is damaged: ${complaint(known.issues)}.`);
  return entry;
};

const complaint = (issues: readonly v.BaseIssue<unknown>[]): string => {
  const [first] = issues;
  if (first === undefined) return 'unreadable';
  return `${v.getDotPath(first) ?? 'the line'} should be ${first.expected ?? 'otherwise'}, is ${first.received}`;
};
