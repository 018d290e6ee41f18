import type { Blame } from '../forms/contract.ts';
import { MARKER_VERSION, mark } from '../forms/registry.ts';
import type { Given, Marked, Offer, Shown } from '../model/form.ts';
import type { Sure } from '../model/item.ts';
import type { Resolved } from '../subjects/resolved.ts';
import type { DrillEntry } from './events.ts';

/** What the learner said, and to which question. */
export interface Said {
  /** Id of the drill or rehearsal. */
  readonly drill: string;
  readonly offer: Offer;
  readonly shown: Shown;
  readonly given: Given | null;
  /** null: Don't know, which takes back whatever was entered. */
  readonly sure: Sure;
  /** Ids of the steps named as not sure; empty: all. */
  readonly unsure: readonly string[];
  /** Visible time from question to answer, ms. */
  readonly ms: number;
  readonly help?: string;
  readonly seat?: string;
}

/**
 * Marks an answer and writes it as the log keeps it.
 * @param blame recall chance of an item, 0..1: of equal faults the less certain step is blamed
 * @returns null where the deck, as it is flown now, no longer holds the question
 */
export const answerEntry = (
  resolved: Resolved,
  said: Said,
  blame: Blame,
): {
  readonly entry: Extract<DrillEntry, { readonly k: 'answer' }>;
  readonly given: Given | null;
  readonly marked: Marked;
} | null => {
  const { drill, offer, shown, sure, unsure, ms, help, seat } = said;
  const given = sure === null ? null : said.given;
  const marked = mark(resolved, offer, shown, given, blame);
  if (Object.keys(marked.marks).length === 0) return null;
  const entry = {
    k: 'answer' as const,
    drill,
    deck: resolved.ref,
    form: offer.form,
    about: offer.about,
    variant: offer.variant,
    ...(seat !== undefined && { seat }),
    shown,
    given,
    sure,
    ...(sure === false && unsure.length > 0 && { unsure: [...unsure] }),
    ms: Math.max(0, Math.round(ms)),
    ...(help !== undefined && { help }),
    marks: marked.marks,
    ...(marked.flawed && { flawed: true as const }),
    g: marked.g,
    mv: MARKER_VERSION,
  };
  return { entry, given, marked };
};
