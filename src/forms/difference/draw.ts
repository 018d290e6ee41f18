import { isFact } from '../../model/deck.ts';
import type { DifferenceShown, Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { axesThatMatter, optionWords } from '../../subjects/view-names.ts';
import { seatsOf } from '../crew/seats.ts';
import { drawLimit } from '../limit/draw.ts';
import { asOfLine } from '../other-answers.ts';
import { setScene } from '../run/scene.ts';
import { askedDifference, type CrewPair, type LimitPair } from './asked.ts';
import { type Pair, pairOf } from './pairs.ts';

export function drawDifference(resolved: Resolved, offer: Offer, seed: number): DifferenceShown | null {
  const pair = pairOf(resolved, offer.about.way);
  const asked = pair && askedDifference(resolved, pair, offer.about);
  if (!pair || !asked) return null;
  return asked.kind === 'limit'
    ? drawnLimit(resolved, offer, pair, asked, seed)
    : drawnCrew(resolved, offer, pair, asked, seed);
}

function drawnLimit(
  resolved: Resolved,
  offer: Offer,
  pair: Pair,
  { limit, cases }: LimitPair,
  seed: number,
): DifferenceShown | null {
  // As it is asked of the first alone, but for the line that would name its variant.
  const alone = { ...offer, variant: pair.first.id, about: { thing: limit.id, case: cases[0].id }, proves: [] };
  const one = drawLimit(resolved, alone, seed);
  if (one === null) return null;
  const field = one.fields[0];
  return {
    form: 'difference',
    ask: asking(one.ask, isFact(limit) ? 'what holds in each?' : 'what is it in each?'),
    scene: [...common(resolved, pair, offer.proves), ...one.scene, ...asOfLine(resolved, offer.proves)],
    drawn: one.drawn,
    fields: field === undefined ? [] : pair.options.map(({ text }) => ({ ...field, label: text })),
    rows: isFact(limit) ? pair.options : [],
    seats: one.choices,
  };
}

function drawnCrew(
  resolved: Resolved,
  offer: Offer,
  pair: Pair,
  { asked: [asked], steps: [step] }: CrewPair,
  seed: number,
): DifferenceShown | null {
  const set = setScene(resolved, asked, [step.text], [], seed);
  if (!set) return null;
  return {
    form: 'difference',
    ask: asking(set.fill(step.text), 'who does it in each?'),
    scene: [
      asked.p.procedure.title,
      ...set.scene,
      ...common(resolved, pair, offer.proves),
      ...asOfLine(resolved, offer.proves),
    ],
    drawn: set.drawn,
    fields: [],
    rows: pair.options,
    seats: seatsOf(resolved),
  };
}

/** "Lowest height to engage the autopilot: what is it in each?" */
const asking = (what: string, ask: string): string =>
  /[.?!\u2026\u061f]["\u201d]?$/.test(what) ? `${what} ${ask[0]?.toUpperCase()}${ask.slice(1)}` : `${what}: ${ask}`;

/** What of both variants is the same, and decides the answer as well. */
function common({ deck, items, views }: Resolved, { first, axis }: Pair, keys: readonly ItemKey[]): string[] {
  const axes = (deck.variants ?? []).filter(({ id }) => id !== axis);
  const matter = keys.flatMap((key) => axesThatMatter(items.get(key)?.views ?? [], views, deck.variants ?? []));
  const words = optionWords(first.pick, matter, axes);
  return words === '' ? [] : [words];
}
