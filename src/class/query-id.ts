import { canonicalJson, type Json } from '../lib/canonical-json.ts';
import type { ReportQuery } from '../model/report.ts';

/** The same in every later report of the trainee, so that what was answered stays so. */
export const queryId = (deck: string, { items, on, note }: ReportQuery): string =>
  unstamped(canonicalJson([deck, [...items].sort(), on, note] as Json));

/**
 * A revision may give an item another stamp, in the report of one device and not yet in that of another. Also of ids that
 * older versions of the app kept, with stamps.
 */
export const unstamped = (id: string): string => id.replace(/~[0-9a-z]+(?=")/g, '');
