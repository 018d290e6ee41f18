import type { Json } from '../../lib/canonical-json.ts';
import { foldText } from '../../lib/fold-text.ts';
import type { FormulaText, Procedure, Step } from '../../model/deck.ts';
import type { ItemKey } from '../../model/item.ts';
import type { ViewContext } from '../context.ts';
import { withLabels } from '../fill.ts';
import { limitMeaning } from '../limit/cases.ts';
import type { PartialOrder, ResolvedProcedure, RunStep, Situation } from '../resolved.ts';
import { conditionsOf, type FlatStep, flatten } from './flatten.ts';
import { isOrder, partialOrder } from './order.ts';
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
  const seen = new Set<string>();
  for (const id of ids) {
    const flat = flatten(things, procedure, pick, (text) => {
      const i = parsed.findIndex((p) => p.text === text);
      return i >= 0 && id[i] === '1';
    });
    const order = partialOrder(flat.steps.length, flat.pairs);
    const same = JSON.stringify([flat.steps.map((s) => s.step.id), flat.pairs]);
    // Truths that change nothing of the steps are one situation: the first stands for all.
    if (!isOrder(order) || flat.steps.length === 0 || seen.has(same)) continue;
    seen.add(same);
    situations.push({ id, order, steps: runSteps(context, procedure, flat.steps, order) });
  }
  return { procedure, done: procedure.done, situations, conditions, strangers: strangersFor(context, procedure) };
}

function runSteps(
  context: ViewContext,
  procedure: Procedure,
  flat: readonly FlatStep[],
  order: PartialOrder,
): RunStep[] {
  const before: string[][] = flat.map(() => []);
  const after: string[][] = flat.map(() => []);
  for (const [a, b] of order.covers) {
    before[b]?.push((flat[a] as FlatStep).step.id);
    after[a]?.push((flat[b] as FlatStep).step.id);
  }
  const placed = asksOrder(procedure) && flat.length >= 2;
  return flat.map(({ step, owner, together }, i): RunStep => {
    const text = stepText(step);
    const critical = step.critical ?? procedure.critical ?? false;
    const shown = withLabels(context.things.deck, text);
    const item = (facet: 'place' | 'cue' | 'crew' | 'words', meaning: Json, label: string): ItemKey =>
      context.register({
        thing: step.id,
        facet,
        facetKey: facet,
        meaning,
        group: procedure.id,
        groupKind: 'procedure',
        critical,
        label,
      });
    const cue = cueMeaning(context, step);
    return {
      step,
      owner,
      text,
      critical,
      together,
      place: placed
        ? item(
            'place',
            { after: [...(before[i] as string[])].sort(), before: [...(after[i] as string[])].sort() },
            `${procedure.title}: ${shown}`,
          )
        : null,
      cue: cue === null ? null : item('cue', cue, `Cue for: ${shown}`),
      crew: step.by === undefined ? null : item('crew', { by: step.by }, `Who: ${shown}`),
      // Where a step has words alone, its label must not say them.
      words:
        step.say === undefined
          ? null
          : item(
              'words',
              { say: foldText(step.say) },
              `Callout${step.do === undefined ? ` ${i + 1}` : ''}: ${step.do ? withLabels(context.things.deck, step.do) : procedure.title}`,
            ),
    };
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
