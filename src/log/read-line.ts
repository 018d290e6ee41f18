import * as v from 'valibot';
import { isCanonical, type Json } from '../lib/canonical-json.ts';
import type { AnyEntry } from '../model/ports.ts';
import { asEntry, isUnknown, toLine } from './line.ts';
import { AnyShape, ENTRY_SHAPES } from './shape.ts';
import { isSoundAnswer } from './sound.ts';

/**
 * Reads a line from elsewhere: a saved copy, a journal. Kinds and versions of a newer app come back with all their
 * fields, marked `unknown`.
 * @throws RangeError that says what is wrong with the line
 */
export const readLine = (line: string): AnyEntry => checked(parsed(line));

/**
 * The same, with the line as this app would write it.
 * @param raw what the line says, where it was parsed before
 * @throws RangeError that says what is wrong with the line, or that it cannot be written again
 */
export const readAndWrite = (
  line: string,
  raw: Readonly<Record<string, unknown>> = parsed(line),
): { readonly entry: AnyEntry; readonly line: string } => {
  const entry = checked(raw);
  return { entry, line: entry.v === raw.v && isCanonical(line, raw as Json) ? line : toLine(entry) };
};

const parsed = (line: string): Record<string, unknown> => {
  try {
    return JSON.parse(line);
  } catch {
    throw new RangeError('This line is damaged: it is no JSON.');
  }
};

const checked = (raw: Readonly<Record<string, unknown>>): AnyEntry => {
  if (isSoundAnswer(raw)) return asEntry(raw);
  const any = v.safeParse(AnyShape, raw);
  if (!any.success) throw new RangeError(`This line is no entry: ${complaint(any.issues)}.`);
  const entry = asEntry(raw);
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
