import type { Deck } from '../../model/deck.ts';
import type { ResolvedScenario } from '../../subjects/resolved.ts';
import type { Axis } from '../../subjects/space.ts';
import type { SurveyAxis } from './types.ts';
import { drawnWords, labelOf } from './words.ts';

/** Bins along one side of a picture: a phone shows so many. */
const MOST_BINS = 24;

/** Which bin a place of an axis falls into; bins of numbers are as even as can be. */
export const binOf = (axis: Axis, place: number): number =>
  axis.count <= MOST_BINS ? place : Math.floor((place * MOST_BINS) / axis.count);

export const binsOf = (axis: Axis): number => Math.min(axis.count, MOST_BINS);

/** First and last place of a bin. */
export function placesOf(axis: Axis, bin: number): readonly [number, number] {
  if (axis.count <= MOST_BINS) return [bin, bin];
  const first = Math.ceil((bin * axis.count) / MOST_BINS);
  return [first, Math.ceil(((bin + 1) * axis.count) / MOST_BINS) - 1];
}

export function describe(deck: Deck, resolved: ResolvedScenario, axis: Axis): SurveyAxis {
  const say = (place: number): string => drawnWords(deck, resolved, axis.name, axis.value(place));
  return {
    name: axis.name,
    label: labelOf(deck, resolved, axis.name),
    ranged: isRange(deck, resolved, axis.name),
    count: axis.count,
    bins: Array.from({ length: binsOf(axis) }, (_, bin) => {
      const [first, last] = placesOf(axis, bin);
      return first === last ? say(first) : `${say(first)} – ${say(last)}`;
    }),
  };
}

/** Drawn from an interval, so that one value is next to another; runways of a list are not. */
function isRange(deck: Deck, { scenario }: ResolvedScenario, name: string): boolean {
  const own = scenario.draw[name];
  if (own) return 'from' in own;
  return [...(deck.day ?? []), ...(deck.conditions ?? [])].some((one) => one.id === name && 'from' in one);
}
