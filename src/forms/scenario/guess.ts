import type { Deck } from '../../model/deck.ts';
import { bandOf } from '../../subjects/band.ts';
import type { ResolvedAsk, ResolvedScenario, View } from '../../subjects/resolved.ts';
import { planDraw, sampleNumbers } from '../../subjects/scenario/draw.ts';
import { isRight } from '../right.ts';

export type NumberAsk = Extract<ResolvedAsk, { number: unknown }>;

/** Draws that a guess rate is taken from. */
const SAMPLE = 40;
const known = new WeakMap<NumberAsk, { readonly g: number; readonly signed: boolean }>();

/**
 * Chance to hit a computed number without computing it: that the right number of one situation would be accepted in
 * another, drawn alike. Between .01 and .5; from 40 draws that depend on the deck alone (standard error some .02).
 */
export const computedGuess = (...of: Parameters<typeof sampled>): number => sampled(...of).g;

/** Is the answer negative in some of the draws? Said of all of them. */
export const isSigned = (...of: Parameters<typeof sampled>): boolean => sampled(...of).signed;

function sampled(deck: Deck, view: View, scenario: ResolvedScenario, ask: NumberAsk) {
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
  const found = { g, signed: ask.ask.unit === '°C' || numbers.some((one) => one < 0) };
  known.set(ask, found);
  return found;
}
