import type { Json } from '../../lib/canonical-json.ts';
import { foldText } from '../../lib/fold-text.ts';
import type { FormulaText, Procedure, Step } from '../../model/deck.ts';
import type { ItemKey } from '../../model/item.ts';
import type { ViewContext } from '../context.ts';
import { withLabels } from '../fill.ts';
import { limitMeaning } from '../limit/cases.ts';
import type { PartialOrder, ResolvedProcedure, RunStep, Situation } from '../resolved.ts';
import { conditionsOf, type Flat, type FlatStep, flatten } from './flatten.ts';
import { listItems } from './list-items.ts';
import { isOrder, lineUp, partialOrder } from './order.ts';
import { situationIds } from './situations.ts';
import { strangersFor } from './strangers.ts';
import { asksOrder, stepText } from './words.ts';

/**
 * A procedure for one view: its situations, each with steps, order and items.
 * @param requires what the day requires, compiled
 */
export function resolveProcedure(
  context: ViewContext,
  procedure: Procedure,
  requires: Parameters<typeof situationIds>[0]['requires'],
): ResolvedProcedure {
  const { things, pick } = context;
  const parsed: { text: FormulaText; tree: NonNullable<ReturnType<ViewContext['parse']>> }[] = [];
  for (const text of conditionsOf(things, procedure, pick)) {
    const tree = context.parse(text);
    if (tree) parsed.push({ text, tree });
  }
  const conditions = parsed.map((p) => p.tree);
  const ids = situationIds({ deck: things.deck, requires, lookups: context }, conditions);
  const situations: Situation[] = [];
  const known: Known = new Map();
  const seen = new Set<string>();
  for (const id of ids) {
    const flat = inOrder(
      flatten(things, procedure, pick, (text) => {
        const i = parsed.findIndex((p) => p.text === text);
        return i >= 0 && id[i] === '1';
      }),
    );
    const order = partialOrder(flat.steps.length, flat.pairs);
    const same = JSON.stringify([flat.steps.map((s) => s.step.id), flat.pairs]);
    // Truths that change nothing of the steps are one situation: the first stands for all.
    if (!isOrder(order) || flat.steps.length === 0 || seen.has(same)) continue;
    seen.add(same);
    situations.push({ id, order, steps: runSteps(context, procedure, flat.steps, order, known) });
  }
  return {
    procedure,
    done: procedure.done,
    situations,
    conditions,
    calls: asksOrder(procedure) || situations.length === 0 ? null : listItems(context, procedure),
    strangers: strangersFor(context, procedure),
  };
}

function runSteps(
  context: ViewContext,
  procedure: Procedure,
  flat: readonly FlatStep[],
  order: PartialOrder,
  known: Known,
): RunStep[] {
  const before: string[][] = flat.map(() => []);
  const after: string[][] = flat.map(() => []);
  for (const [a, b] of order.covers) {
    before[b]?.push((flat[a] as FlatStep).step.id);
    after[a]?.push((flat[b] as FlatStep).step.id);
  }
  const placed = asksOrder(procedure) && flat.length >= 2;
  return flat.map(({ step, owner, together }, i): RunStep => {
    // Its place first: items of a step come in that order.
    const place = placed
      ? registered(context, procedure, step, {
          facet: 'place',
          meaning: { after: [...(before[i] as string[])].sort(), before: [...(after[i] as string[])].sort() },
          label: `${procedure.title}: ${shownOf(context, step)}`,
        })
      : null;
    const fixed = known.get(step) ?? fixedOf(context, procedure, step, i);
    known.set(step, fixed);
    return { step, owner, together, place, ...fixed };
  });
}

/** Steps as authored, but for those that must wait for one of a lane written further down. Cycles stay as they are. */
function inOrder(flat: Flat): Flat {
  const order = partialOrder(flat.steps.length, flat.pairs);
  if (!isOrder(order)) return flat;
  const line = lineUp(order);
  if (line.every((s, i) => s === i)) return flat;
  const at = new Map(line.map((s, i) => [s, i]));
  return {
    steps: line.map((s) => flat.steps[s] as FlatStep),
    pairs: flat.pairs.map(([a, b]) => [at.get(a) as number, at.get(b) as number] as const),
  };
}

/** What of a step is the same in every situation. */
type Fixed = Pick<RunStep, 'text' | 'critical' | 'cue' | 'crew' | 'words'>;
type Known = Map<Step, Fixed>;

/** @param i its place in the first situation that holds it */
function fixedOf(context: ViewContext, procedure: Procedure, step: Step, i: number): Fixed {
  const shown = shownOf(context, step);
  const item = (facet: StepFacet, meaning: Json, label: string): ItemKey | null =>
    context.leftOut.has(facet) ? null : registered(context, procedure, step, { facet, meaning, label });
  const cue = cueMeaning(context, step);
  // Where a step has words alone, its label must not say them.
  const number = step.do === undefined ? ` at step ${i + 1}` : '';
  const about = step.do === undefined ? procedure.title : withLabels(context.things.deck, step.do);
  return {
    text: stepText(step),
    critical: isCritical(procedure, step),
    cue: cue === null ? null : item('cue', cue, `Cue for: ${shown}`),
    crew: step.by === undefined ? null : item('crew', { by: step.by }, `Who: ${shown}`),
    words: step.say === undefined ? null : item('words', { say: foldText(step.say) }, `Callout${number}: ${about}`),
  };
}

const isCritical = (procedure: Procedure, step: Step): boolean => step.critical ?? procedure.critical ?? false;
/** As it reads in lists and labels. */
const shownOf = ({ things }: ViewContext, step: Step): string => withLabels(things.deck, stepText(step));

type StepFacet = 'place' | 'cue' | 'crew' | 'words';

function registered(
  context: ViewContext,
  procedure: Procedure,
  step: Step,
  what: { readonly facet: StepFacet; readonly meaning: Json; readonly label: string },
): ItemKey {
  return context.register({
    thing: step.id,
    facetKey: what.facet,
    group: procedure.id,
    groupKind: 'procedure',
    critical: isCritical(procedure, step),
    ...what,
  });
}

/** null without a cue, or where its limit is not common to the variants told. */
function cueMeaning(context: ViewContext, { cue }: Step): Json {
  if (!cue) return null;
  const limit = cue.limit === undefined ? null : limitMeaning(context.limits.get(cue.limit));
  if (cue.limit !== undefined && limit === null) return null;
  return {
    ...(cue.text !== undefined && { text: foldText(cue.text) }),
    ...(limit !== null && { limit }),
    ...(cue.day !== undefined && { day: cue.day }),
    ...(cue.event !== undefined && { event: cue.event }),
  };
}
