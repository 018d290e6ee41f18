import { seeded, shuffled } from '../../lib/random.ts';
import type { DayValue } from '../../model/deck.ts';
import type { About, Drawn, Offer, RunShown } from '../../model/form.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { dayWords, fillWith, placesIn } from '../../subjects/fill.ts';
import { namesIn } from '../../subjects/formulas.ts';
import { dayValueWords } from '../../subjects/limit/words.ts';
import { drawCircumstances } from '../../subjects/procedure/situations.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { procedureIn, viewLine, viewOf } from '../look-up.ts';
import { strangerCount } from './offers.ts';
import { fitting, pickStrangers } from './strangers.ts';

/** Steps given before a part, so that it is clear where it begins. */
const CONTEXT = 2;

export interface Asked {
  readonly view: View;
  readonly p: ResolvedProcedure;
  readonly situation: Situation;
  /** Indices of the steps asked, in authored order. */
  readonly part: readonly number[];
}

/** What a question is about; null where the deck does not hold it. */
export function askedIn(resolved: Resolved, variant: string, about: About): Asked | null {
  const view = viewOf(resolved, variant);
  const p = view && procedureIn(view, about.thing);
  const situation = p?.situations.find((s) => s.id === (about.situation ?? ''));
  if (!view || !p || !situation) return null;
  const all = [...situation.steps.keys()];
  const part = about.part ? all.filter((i) => about.part?.includes((situation.steps[i] as RunStep).step.id)) : all;
  if (part.length === 0 || (about.part && part.length !== about.part.length)) return null;
  return { view, p, situation, part };
}

export function drawRun(resolved: Resolved, offer: Offer, seed: number): RunShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  if (!asked) return null;
  const { view, p, situation, part } = asked;
  const { deck } = resolved;
  const random = seeded(seed);
  const steps = part.map((i) => situation.steps[i] as RunStep);
  const count = strangerCount(steps.length, fitting(p, situation).length, offer.needs);
  const strangers = pickStrangers(p, situation, count, random);
  const from = part[0] as number;
  const before = situation.steps.slice(Math.max(0, from - CONTEXT), from);

  const texts = [...steps, ...strangers, ...before].map((s) => s.text).concat(p.procedure.starts ?? []);
  // Cues may name values of the day too; they are drawn now and shown with the verdict.
  const later = p.situations
    .flatMap((s) => s.steps)
    .flatMap(({ step }) => [
      ...placesIn([step.cue?.text, step.why, step.slip, step.from?.text, step.until?.text].join(' ')),
      ...[step.cue?.day, step.from?.day, step.until?.day].filter((d) => d !== undefined),
    ]);
  const drawn = drawCircumstances(
    { deck, requires: view.requires, lookups: view },
    p.conditions,
    situation.id,
    [...texts.flatMap(placesIn), ...later],
    seed,
  );
  if (!drawn) return null;
  const fill = (text: string): string => fillWith(text, dayWords(deck, drawn));
  const chips = [
    ...steps.map((s) => ({ id: s.step.id, text: fill(s.text) })),
    ...strangers.map((s) => ({ id: s.id, text: fill(s.text) })),
  ];
  return {
    form: 'run',
    title: p.procedure.title,
    scene: [
      ...(p.procedure.starts === undefined ? [] : [fill(p.procedure.starts)]),
      ...conditionLines(resolved, p, drawn),
      ...viewLine(resolved, view, offer.proves),
      ...dayLines(resolved, p, texts, drawn),
    ],
    drawn,
    chips: shuffled(random, chips),
    before: before.map((s) => fill(s.text)),
  };
}

/** The circumstances that the procedure's branches hang on, in words. */
function conditionLines({ deck }: Resolved, p: ResolvedProcedure, drawn: Drawn): string[] {
  const names = new Set(p.conditions.flatMap(namesIn));
  return (deck.conditions ?? [])
    .filter((c) => names.has(c.id) && Object.hasOwn(drawn, c.id))
    .map((c) => {
      const value = drawn[c.id];
      if ('yes' in c) return value === true ? c.yes : c.no;
      if ('options' in c) return c.options[String(value)] ?? String(value);
      return `${c.label} ${tradeForm(Number(value), c.unit)}`;
    });
}

/** Values of the day that the texts or the branches use; not once more what the beginning says with its label and unit. */
function dayLines({ deck }: Resolved, p: ResolvedProcedure, texts: readonly string[], drawn: Drawn): string[] {
  const names = new Set([...p.conditions.flatMap(namesIn), ...texts.flatMap(placesIn)]);
  const starts = p.procedure.starts ?? '';
  const said = ({ id, label, unit }: DayValue): boolean => starts.includes(`${label} {${id}} ${unit}`);
  const used = (deck.day ?? []).filter((d) => names.has(d.id) && Object.hasOwn(drawn, d.id) && !said(d));
  return used.length === 0 ? [] : [used.map((d) => dayValueWords(deck, d.id, drawn)).join(', ')];
}
