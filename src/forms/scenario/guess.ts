import type { Deck } from '../../model/deck.ts';
import { bandOf } from '../../subjects/band.ts';
import type { ResolvedAsk, ResolvedScenario, View } from '../../subjects/resolved.ts';
import { planDraw, sampleNumbers } from '../../subjects/scenario/draw.ts';
import { isRight } from '../right.ts';

type NumberAsk = Extract<ResolvedAsk, { number: unknown }>;

/** Draws that a guess rate is taken from. */
const SAMPLE = 40;
const known = new WeakMap<NumberAsk, number>();

/**
 * Chance to hit a computed number without computing it: that the right number of one situation would be accepted in
 * another, drawn alike. Between .01 and .5; from 40 draws that depend on the deck alone (standard error some .02).
 */
export function computedGuess(deck: Deck, view: View, scenario: ResolvedScenario, ask: NumberAsk): number {
  const before = known.get(ask);
  if (before !== undefined) return before;
  const plan = planDraw(deck, scenario, ask.ask.id, null, view);
  const numbers = plan ? sampleNumbers(plan, SAMPLE) : [];
  const band = bandOf(ask.ask.accept);
  let hits = 0;
  numbers.forEach((guess, i) => {
    numbers.forEach((right, j) => {
      if (i !== j && isRight(guess, right, band, ask.ask.show)) hits++;
    });
  });
  const pairs = numbers.length * (numbers.length - 1);
  const g = Math.min(0.5, Math.max(0.01, pairs === 0 ? 0 : hits / pairs));
  known.set(ask, g);
  return g;
}
