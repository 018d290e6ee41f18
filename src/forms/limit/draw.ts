import { seeded, shuffled } from '../../lib/random.ts';
import type { NumberLimit, TableLimit, Unit } from '../../model/deck.ts';
import { isFact } from '../../model/deck.ts';
import type { About, LimitShown, NumberField, Offer } from '../../model/form.ts';
import { dayWords, fillWith, placesIn } from '../../subjects/fill.ts';
import { limitSense } from '../../subjects/limit/words.ts';
import { drawCircumstances } from '../../subjects/procedure/situations.ts';
import type { Resolved, ResolvedCase, ResolvedLimit, View } from '../../subjects/resolved.ts';
import { caseIn, compact, limitIn, viewLine, viewOf } from '../look-up.ts';
import { asOfLine } from '../other-answers.ts';

export interface AskedLimit {
  readonly view: View;
  readonly limit: ResolvedLimit;
  readonly case: ResolvedCase;
}

export function askedLimit(resolved: Resolved, variant: string, about: About): AskedLimit | null {
  const view = viewOf(resolved, variant);
  const limit = view && limitIn(view, about.thing);
  const one = limit && caseIn(limit, about.case);
  return view && limit && one ? { view, limit, case: one } : null;
}

export function drawLimit(resolved: Resolved, offer: Offer, seed: number): LimitShown | null {
  const asked = askedLimit(resolved, offer.variant, offer.about);
  if (!asked) return null;
  const { deck } = resolved;
  const { limit } = asked.limit;
  const drawn = drawCircumstances(
    { deck, requires: asked.view.requires, lookups: asked.view },
    [],
    '',
    placesIn(limit.ask),
    seed,
  );
  if (!drawn) return null;
  return {
    form: 'limit',
    ask: fillWith(limit.ask, dayWords(deck, drawn)),
    scene: [
      ...viewLine(resolved, asked.view, offer.proves),
      ...caseLine(asked.limit, asked.case),
      ...asOfLine(resolved, offer.proves),
    ],
    drawn,
    ...answerable(resolved, asked.limit, seed),
  };
}

/** What takes the answer: the fields of a number, the choices of a fact in an order by lot. */
export const answerable = (
  resolved: Resolved,
  { limit }: ResolvedLimit,
  seed: number,
): Pick<LimitShown, 'fields' | 'choices'> => ({
  fields: isFact(limit) ? [] : fieldsOf(resolved, limit),
  choices: isFact(limit)
    ? shuffled(
        seeded(seed),
        Object.entries(limit.options).map(([id, text]) => ({ id, text })),
      )
    : [],
});

/** The circumstances of a case; of the default case those that it is not about. */
function caseLine(limit: ResolvedLimit, c: ResolvedCase): string[] {
  if (c.given !== '') return [c.given];
  const others = limit.cases.filter((o) => o.given !== '').map((o) => o.given);
  return others.length === 0 ? [] : [`None of these: ${others.join(' / ')}`];
}

const negative = new WeakMap<Resolved, ReadonlySet<Unit>>();

/** Units of which some limit of the deck is negative, and temperature: a sign for the answer alone would give it away. */
function signedUnits(resolved: Resolved): ReadonlySet<Unit> {
  const known = negative.get(resolved);
  if (known !== undefined) return known;
  const units = new Set<Unit>(['°C']);
  for (const { limits } of resolved.views)
    for (const { limit, cases } of limits)
      if (!isFact(limit) && cases.some(({ value }) => typeof value !== 'string' && value.some((one) => one < 0)))
        units.add(limit.unit);
  negative.set(resolved, units);
  return units;
}

function fieldsOf(resolved: Resolved, limit: NumberLimit | TableLimit): NumberField[] {
  const common = {
    unit: limit.unit,
    signed: signedUnits(resolved).has(limit.unit) ? (true as const) : undefined,
    reference: limit.reference,
    show: 'show' in limit ? limit.show : undefined,
  };
  if (limit.sense === 'from-to') {
    return ['From', 'To'].map((label) => compact({ label, ...common }) as NumberField);
  }
  const sense = limitSense(limit);
  return [compact({ label: 'Value', ...common, sense: sense === '' ? undefined : sense }) as NumberField];
}
