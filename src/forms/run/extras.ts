import type { Amount, Bound, Step } from '../../model/deck.ts';
import type { ChipFinding, Drawn } from '../../model/form.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { dayWords, fillWith, fillWithUnits, withLabels } from '../../subjects/fill.ts';
import { cueLimitWords, dayValueWords, limitWords } from '../../subjects/limit/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, View } from '../../subjects/resolved.ts';
import { sourceLine } from '../../subjects/things.ts';

export type Extras = Partial<Pick<ChipFinding, 'by' | 'cue' | 'wait' | 'value' | 'why' | 'slip' | 'source'>>;

/** Values that were drawn by their numbers; of others, as of another procedure, the label. */
export const fillerFor =
  ({ deck }: Resolved, drawn: Drawn): ((text: string) => string) =>
  (text) =>
    withLabels(deck, fillWith(text, dayWords(deck, drawn)));

/** What was hidden of a step until the verdict: who, cue, wait, number, reason, usual slip, source. */
export function extrasOf(
  resolved: Resolved,
  view: View,
  p: ResolvedProcedure,
  { step }: RunStep,
  drawn: Drawn,
): { [K in keyof Extras]: Extras[K] | undefined } {
  const { deck } = resolved;
  const fill = fillerFor(resolved, drawn);
  const fillIf = (text: string | undefined): string | undefined => (text === undefined ? undefined : fill(text));
  const words = (text: string | undefined, limit: string | undefined, day: string | undefined): string =>
    [
      fillIf(text),
      limit === undefined ? undefined : (limitWords(view, limit) ?? undefined),
      day === undefined ? undefined : dayValueWords(deck, day, drawn),
    ]
      .filter((x) => x !== undefined)
      .join(', ');
  const bound = (b: Bound): string => words(b.text, b.limit, b.day);
  const amount = (a: Amount): string =>
    a.limit !== undefined ? (limitWords(view, a.limit) ?? '') : tradeForm(a.value ?? 0, a.unit ?? null);

  const event = deck.conditions?.find((c) => c.id === step.cue?.event);
  const cue = step.cue
    ? [
        step.cue.text === undefined ? '' : plainCue(fillWithUnits(deck, drawn, step.cue.text)),
        step.cue.limit === undefined ? '' : (cueLimitWords(view, step.cue.limit) ?? ''),
        words(undefined, undefined, step.cue.day),
        event && 'yes' in event ? event.yes : '',
      ]
        .filter((x) => x !== '')
        .join(', ')
    : undefined;
  const value = [
    step.limit === undefined ? '' : (limitWords(view, step.limit) ?? ''),
    step.rule === undefined ? '' : ruleWords(view, step.rule),
    step.from ? `from ${bound(step.from)}` : '',
    step.until ? `until ${bound(step.until)}` : '',
  ]
    .filter((x) => x !== '')
    .join('; ');
  return {
    by: step.by === undefined ? undefined : crewLabel(resolved, step.by),
    cue: cue === '' ? undefined : cue,
    wait: step.after ? waitWords(p, step.after, amount, fill) : undefined,
    value: value === '' ? undefined : value,
    why: fillIf(step.why),
    slip: fillIf(step.slip),
    source: sourceLine(deck, step, p.procedure) ?? undefined,
  };
}

/** A cue is shown behind "At:": written "at V1" it would be said twice. "At least" and "at most" are no place. */
const plainCue = (text: string): string => text.replace(/^\s*at\s+(?!least\b|most\b)(?=\S)/i, '');

function waitWords(
  p: ResolvedProcedure,
  wait: NonNullable<Step['after']>,
  amount: (a: Amount) => string,
  fill: (text: string) => string,
): string {
  const other = p.situations.flatMap((s) => s.steps).find((s) => s.step.id === wait.step);
  const parts = [
    wait.atLeast ? plainly('at least', amount(wait.atLeast)) : '',
    wait.atMost ? plainly('at most', amount(wait.atMost)) : '',
  ].filter((x) => x !== '');
  return `${parts.join(', ')} after: ${fill(other?.text ?? wait.step)}`.trim();
}

/** A limit brings its own sense: "at least at least 10 s" says it twice. */
const plainly = (sense: string, amount: string): string =>
  /^(at least|at most|above|below|about) /.test(amount) ? amount : `${sense} ${amount}`;

function ruleWords(view: View, rule: string): string {
  const [id = '', ask = ''] = rule.split('#');
  const found = view.scenarios.find((s) => s.scenario.id === id)?.asks.find((a) => a.ask.id === ask);
  return found ? `by the rule: ${found.ask.ask}` : '';
}

export function crewLabel({ deck }: Pick<Resolved, 'deck'>, by: string): string {
  return deck.crew?.find((c) => c.id === by)?.label ?? (by === 'both' ? 'Both' : by === 'either' ? 'Either' : by);
}
