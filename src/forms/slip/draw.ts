import { foldText } from '../../lib/fold-text.ts';
import { below, type Random, seeded } from '../../lib/random.ts';
import type { Fault, Offer, SlipLine, SlipShown } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { caseWords, limitWords } from '../../subjects/limit/words.ts';
import type { Resolved, RunStep } from '../../subjects/resolved.ts';
import { compact, limitIn } from '../look-up.ts';
import { askedIn } from '../run/draw.ts';
import { crewLabel } from '../run/extras.ts';
import { setScene } from '../run/scene.ts';
import { type Plan, plansOf, windowIn } from './plans.ts';
import { keysOfText, type Strange, strangersAt, variantsAt } from './strange.ts';
import type { Window } from './window.ts';
import { showsValues, type WrongValue, wrongValuesAt } from './wrong-value.ts';

/** A line before it has its number. */
interface Row {
  readonly text: string;
  readonly by?: string | undefined;
  readonly value?: string | undefined;
}
interface Planted {
  readonly plan: Plan;
  readonly rows: readonly Row[];
  readonly of?: string | undefined;
}

export function drawSlip(resolved: Resolved, offer: Offer, seed: number): SlipShown | null {
  const asked = askedIn(resolved, offer.variant, offer.about);
  if (!asked || offer.about.way === undefined) return null;
  const window = windowIn(resolved, asked);
  const plans = plansOf(window, offer.about.way);
  if (plans === null) return null;
  const { rows, planted } = plant(window, plans, seeded(seed));
  const texts = [...rows, ...window.before].map(({ text }) => text);
  const set = setScene(resolved, asked, texts, keysShown(window, rows), seed);
  if (!set) return null;
  const { drawn, scene, fill } = set;
  const lines = rows.map((row, i): SlipLine => compact({ ...row, id: `line-${i + 1}`, text: fill(row.text) }));
  // With the values of the day two lines may have come to read alike: which one is meant?
  const strange = planted
    .filter(({ of }) => of !== undefined)
    .flatMap((one) => one.rows.map((row) => rows.indexOf(row)));
  const folded = lines.map(({ text }) => foldText(text));
  if (strange.some((i) => folded.filter((text) => text === folded[i]).length > 1)) return null;
  return {
    form: 'slip',
    title: asked.p.procedure.title,
    scene,
    drawn,
    before: window.before.map(({ text }) => fill(text)),
    lines,
    faults: planted.map(
      ({ plan: { kind, step, item }, rows: own, of }): Fault =>
        compact({ kind, lines: own.map((row) => `line-${rows.indexOf(row) + 1}`).sort(byNumber), step, item, of }),
    ),
  };
}

const byNumber = (a: string, b: string): number => Number(a.slice(5)) - Number(b.slice(5));

/** The right run with the faults in it: none of them touches a row of another. */
function plant(window: Window, plans: readonly Plan[], random: Random): { rows: Row[]; planted: Planted[] } {
  const right = window.steps.map((step): Row => rowOf(window, step));
  const shown: Row[] = [...right];
  const at = (row: number): number => shown.indexOf(right[row] as Row);
  const put = (plan: Plan): Planted => {
    const { kind, row } = plan;
    const own = right[row] as Row;
    switch (kind) {
      case 'swapped': {
        const [a, b] = plan.rows.map(at) as [number, number];
        const pair = [shown[b] as Row, shown[a] as Row];
        shown.splice(a, 2, ...pair);
        return { plan, rows: pair };
      }
      case 'missing':
        shown.splice(at(row), 1);
        return { plan, rows: (plan.waiting ?? []).map((one) => right[one] as Row) };
      case 'stranger':
      case 'variant': {
        const strange = oneOf(random, (kind === 'stranger' ? strangersAt : variantsAt)(window, row));
        const line = strangeRow(window, strange, row, random);
        // Behind the last line as often as before it.
        const behind = kind === 'stranger' && row === right.length - 1 && random() < 0.5;
        shown.splice(at(row) + (behind ? 1 : 0), 0, line);
        return { plan, rows: [line], of: strange.id };
      }
      case 'value': {
        const wrong = wrongValuesAt(window, row).find((one) => one.case.id === plan.case) as WrongValue;
        const line = { ...own, value: wrongWords(wrong, oneOf(random, wrong.values)) };
        shown.splice(at(row), 1, line);
        return { plan, rows: [line] };
      }
      case 'crew': {
        const line = { ...own, by: crewLabel(window.resolved, plan.by as string) };
        shown.splice(at(row), 1, line);
        return { plan, rows: [line] };
      }
    }
  };
  return { planted: plans.map(put), rows: shown };
}

const oneOf = <T>(random: Random, list: readonly T[]): T => list[below(random, list.length)] as T;

/** What a line shows of a step: every line alike, not the faulty one alone. */
function rowOf(window: Window, { step, text }: Pick<RunStep, 'step' | 'text'>): Row {
  const { resolved, asked } = window;
  return {
    text,
    by: step.by === undefined ? undefined : crewLabel(resolved, step.by),
    value:
      step.limit === undefined || !showsValues(window) ? undefined : (limitWords(asked.view, step.limit) ?? undefined),
  };
}

/** A stranger belongs to nobody: it is given to someone where the others are, so that this does not tell. */
function strangeRow(window: Window, { text, step }: Strange, row: number, random: Random): Row {
  if (step !== undefined) return rowOf(window, { step, text });
  if (window.steps[row]?.step.by === undefined) return { text };
  const seats = window.steps.flatMap((one) => one.step.by ?? []);
  return { text, by: crewLabel(window.resolved, oneOf(random, seats)) };
}

/** As `limitWords`, one case of it with another number. */
function wrongWords({ limit, case: wrong }: WrongValue, value: readonly number[]): string {
  return limit.cases
    .map((c) => (c === wrong ? { ...c, value } : c))
    .map((c) => `${c.given === '' ? '' : `${c.given}: `}${caseWords(limit, c)}`)
    .join('; ');
}

/** Whatever a line hangs on: the view is named where one of them differs by it. */
function keysShown(window: Window, rows: readonly Row[]): ItemKey[] {
  const { resolved, asked, steps } = window;
  return [
    ...steps.flatMap(({ place, crew }) => [place, crew].filter((key) => key !== null)),
    ...(showsValues(window)
      ? steps.flatMap(({ step }) => limitIn(asked.view, step.limit ?? '')?.cases.map(({ key }) => key) ?? [])
      : []),
    ...rows.flatMap(({ text }) => keysOfText(resolved, asked.p.procedure.id, text)),
  ];
}
