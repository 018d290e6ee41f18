import type { DayValue } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { dayWords, fillWith, placesIn } from '../../subjects/fill.ts';
import { namesIn } from '../../subjects/formulas.ts';
import { dayValueWords } from '../../subjects/limit/words.ts';
import { drawCircumstances } from '../../subjects/procedure/situations.ts';
import type { Resolved, ResolvedProcedure } from '../../subjects/resolved.ts';
import { viewLine } from '../look-up.ts';
import { asOfLine } from '../other-answers.ts';
import type { Asked } from './draw.ts';

/** What holds while a procedure is asked. */
interface SceneSet {
  readonly drawn: Drawn;
  readonly scene: readonly string[];
  /** Puts the values of the day into a text. */
  fill(text: string): string;
}

/**
 * Draws the circumstances and the values of the day, and says them.
 * @param shown texts that are shown, values of the day not yet filled in
 * @param proves items asked: where the answer hangs on the variant it is named
 * @returns null where no circumstances fit
 */
export function setScene(
  resolved: Resolved,
  { view, p, situation }: Asked,
  shown: readonly string[],
  proves: readonly ItemKey[],
  seed: number,
): SceneSet | null {
  const { deck } = resolved;
  const texts = shown.concat(p.procedure.starts ?? []);
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
  const scene = [
    ...(p.procedure.starts === undefined ? [] : [fill(p.procedure.starts)]),
    ...conditionLines(resolved, p, drawn),
    ...viewLine(resolved, view, proves),
    ...dayLines(resolved, p, texts, drawn),
    ...asOfLine(resolved, proves),
  ];
  return { drawn, scene, fill };
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
