import type { Deck } from '../model/deck.ts';
import { type Code, type Finding, finding, SEVERITIES } from '../subjects/finding.ts';
import { checkAllDraws, noJobs } from './check-draw-parts.ts';
import { type Noted, type Part, settingOf, textParts, viewParts } from './check-parts.ts';
import { readDeck } from './read.ts';

export interface CheckOptions {
  /** ISO calendar date against which review dates are held. */
  readonly today: string;
}

export interface Checked {
  /** Absent where a finding is an error. */
  readonly deck?: Deck;
  readonly findings: readonly Finding[];
}

/** Findings of one code beyond this are left out: a systematic mistake need not be said a thousand times. */
const MOST_OF_ONE = 50;

/**
 * All that is to be said of a deck whose shape is right: errors first, then warnings and hints, each in the order of
 * the text. What a deck draws and how its steps can be ordered is tried out only once everything it names is there.
 */
export function checkDeck(deck: Deck, { today }: CheckOptions): Finding[] {
  const setting = settingOf(deck);
  const noted: Noted[] = [];
  const run = (part: Part): void => part.work((...one) => void noted.push(one));
  textParts(setting, today).forEach(run);
  if (!hasError(noted)) {
    viewParts(setting).forEach(run);
    noted.push(...drained(checkAllDraws(setting, noJobs)));
  }
  return told(noted);
}

export const hasError = (noted: readonly Noted[]): boolean => noted.some(([code]) => SEVERITIES[code] === 'error');

/** In the order in which they are told, the many of one code cut short. */
export function told(noted: readonly Noted[]): Finding[] {
  const counts = new Map<Code, number>();
  const found: Finding[] = [];
  for (const [code, path, args] of noted) {
    const count = (counts.get(code) ?? 0) + 1;
    counts.set(code, count);
    if (count <= MOST_OF_ONE) found.push(finding(code, path, args));
  }
  return inOrder(found);
}

/** Errors first, then warnings and hints. */
export function inOrder(found: readonly Finding[]): Finding[] {
  const rank = { error: 0, warning: 1, hint: 2 };
  return [...found].sort((a, b) => rank[a.severity] - rank[b.severity]);
}

function drained<T>(steps: Generator<undefined, T>): T {
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** The same from the text of a deck; never throws, whatever the text. */
export function checkText(text: string, options: CheckOptions): Checked {
  const { deck, findings } = readDeck(text);
  if (!deck) return { findings };
  const found = checkDeck(deck, options);
  return found.some((f) => f.severity === 'error') ? { findings: found } : { deck, findings: found };
}
