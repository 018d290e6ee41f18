import type { Deck } from '../model/deck.ts';
import { type Checking, namesOf } from '../subjects/check.ts';
import { at, type Code, type Finding, finding } from '../subjects/finding.ts';
import { checkLimit } from '../subjects/limit/check.ts';
import { checkProcedure } from '../subjects/procedure/check.ts';
import { checkScenario } from '../subjects/scenario/check.ts';
import { thingsOf } from '../subjects/things.ts';
import { checkHead } from './check-head.ts';
import { checkViews } from './check-views.ts';
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
  const found: Finding[] = [];
  const counts = new Map<Code, number>();
  const c: Checking = {
    deck,
    things: thingsOf(deck),
    names: namesOf(deck),
    add: (code, path, args) => {
      const count = (counts.get(code) ?? 0) + 1;
      counts.set(code, count);
      if (count <= MOST_OF_ONE) found.push(finding(code, path, args));
    },
  };
  checkHead(c, today);
  (deck.procedures ?? []).forEach((p, i) => {
    checkProcedure(c, p, at('/procedures', i));
  });
  (deck.limits ?? []).forEach((l, i) => {
    checkLimit(c, l, at('/limits', i));
  });
  (deck.scenarios ?? []).forEach((s, i) => {
    checkScenario(c, s, at('/scenarios', i));
  });
  if (!found.some((f) => f.severity === 'error')) checkViews(c);
  const rank = { error: 0, warning: 1, hint: 2 };
  return found.sort((a, b) => rank[a.severity] - rank[b.severity]);
}

/** The same from the text of a deck; never throws, whatever the text. */
export function checkText(text: string, options: CheckOptions): Checked {
  const { deck, findings } = readDeck(text);
  if (!deck) return { findings };
  const found = checkDeck(deck, options);
  return found.some((f) => f.severity === 'error') ? { findings: found } : { deck, findings: found };
}
