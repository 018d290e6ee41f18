import { dateWords } from '../lib/date-words.ts';
import type { Cited, Deck } from '../model/deck.ts';
import type { ItemKey } from '../model/item.ts';
import type { OtherRevision, Resolved } from '../subjects/resolved.ts';
import { viewOf } from './look-up.ts';
import type { Candidate } from './slip.ts';

/** An answer by another revision of the deck. */
export interface OtherAnswer<T> {
  readonly of: OtherRevision;
  readonly answer: T;
}

/**
 * What other revisions would say, the newest first; each is looked up only now.
 * @param find its own answer, in the view given; null where it has none, or another question
 */
export function otherAnswers<T>(
  resolved: Resolved,
  variant: string,
  find: (other: Resolved, view: string) => T | null,
): OtherAnswer<T>[] {
  const pick = viewOf(resolved, variant)?.pick ?? {};
  return (resolved.others ?? []).flatMap((of) => {
    const other = of.resolved();
    // A revision with other variants: the view that says nothing else.
    const view =
      viewOf(other, variant) ??
      other.views.find((one) => Object.entries(one.pick).every(([axis, o]) => o === null || pick[axis] === o));
    const answer = view === undefined ? null : find(other, view.id);
    return answer === null ? [] : [{ of, answer }];
  });
}

/**
 * What is said of an answer that another revision would take for right.
 * @param cited the thing, then those around it: of a change without a date the edition of its source is named
 */
export function rightThere({ when, day, deck, next }: OtherRevision, ...cited: readonly Cited[]): string {
  if (when === 'coming' && day !== null) return `That will be right from ${dateWords(day)}.`;
  if (day !== null)
    return when === 'now' ? `That is right until ${dateWords(day)}.` : `That was right until ${dateWords(day)}.`;
  return `That was right until ${editionWords(deck, next ?? deck, cited)}.`;
}

/** "Manual, Edition 13" where the source's edition changed, else the deck's version. */
function editionWords(before: Deck, next: Deck, cited: readonly Cited[]): string {
  const { source: ref, edition } = cited.find((one) => one.source !== undefined) ?? {};
  const id = ref?.split('#', 1)[0];
  const source = next.sources.find((s) => s.id === id);
  const now = edition ?? source?.edition;
  const old = before.sources.find((s) => s.id === id)?.edition;
  if (source !== undefined && now !== undefined && now !== old) return `${source.title}, ${now}`;
  return `version ${next.version} of this deck`;
}

/**
 * Old numbers as slips.
 * @param slack distance within which what was typed counts as the old number
 */
export const pastCandidates = (
  found: readonly OtherAnswer<number>[],
  slack: number,
  ...cited: readonly Cited[]
): Candidate[] =>
  found.map(({ of, answer }) => ({
    value: answer,
    note: rightThere(of, ...cited),
    authored: false,
    past: true,
    slack,
  }));

/** "Until 30 November 2026: at least 200 ft": what holds at another time than what was asked. Past answers are not told. */
export function datedAnswers(found: readonly OtherAnswer<string>[], right: string): string[] {
  return found.flatMap(({ of: { when, day }, answer }) => {
    if (when === 'past' || day === null || answer === right) return [];
    return [`${when === 'now' ? 'Until' : 'From'} ${dateWords(day)}: ${answer}`];
  });
}

/** With the question: as of which day it is asked, where another answer is in force at another time. */
export function asOfLine({ others }: Resolved, keys: readonly ItemKey[]): string[] {
  for (const { when, day, resolved } of others ?? []) {
    if (when === 'past' || day === null) continue;
    const { items } = resolved();
    if (keys.every((key) => items.has(key))) continue;
    return [when === 'now' ? `As it is from ${dateWords(day + 1)}` : `As it is until ${dateWords(day - 1)}`];
  }
  return [];
}
