import { foldText } from '../../lib/fold-text.ts';
import type { Node, Procedure, Step } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';
import type { ViewContext } from '../context.ts';
import type { Stranger } from '../resolved.ts';
import { holds } from '../when.ts';
import { asksOrder, stepText } from './words.ts';

/**
 * Steps that do not belong, the most telling first: authored ones, this procedure's own of other variants and
 * situations, then those of the procedures before and after it. A form leaves out what reads like a real
 * step of the situation it asks.
 */
export function strangersFor(context: ViewContext, procedure: Procedure): Stranger[] {
  const out = new Map<string, Stranger>();
  const add = (one: Stranger): void => {
    const key = foldText(one.text);
    if (key !== '' && !out.has(key)) out.set(key, one);
  };
  const line = context.things.deck.procedures ?? [];
  const [before, after] = [line.slice(0, line.indexOf(procedure)), line.slice(line.indexOf(procedure) + 1)];
  const elsewhere = (text: string, from: 'author' | 'neighbour', note?: string): void => {
    const earlier = before.some((p) => walked(context, p).texts.has(foldText(text)));
    add({ text, from, ...(note !== undefined && { note }), ...(earlier && { earlier }) });
  };
  for (const s of procedure.strangers ?? []) {
    if (typeof s === 'string') elsewhere(s, 'author');
    else elsewhere(s.text, 'author', s.note);
  }

  const real = new Set<string>();
  const { visits, steps } = walked(context, procedure);
  for (const { step, inView, always } of visits) {
    // What cannot be told is neither real nor strange: it may well be this learner's.
    if (inView === null || (inView && always)) for (const text of wordings(step)) real.add(text);
    else add({ text: stepText(step), from: inView ? 'situation' : 'variant' });
  }

  // A procedure that has steps of this one by `use` does the same another way: its own steps may mean the same as ours.
  const isNeighbour = (p: Procedure): boolean =>
    asksOrder(p) &&
    holds(p.when, context.pick, context.axes) === true &&
    !walked(context, p).visits.some(({ step }) => steps.has(step));
  const neighbours = asksOrder(procedure) ? [before.filter(isNeighbour).at(-1), after.find(isNeighbour)] : [];
  for (const neighbour of neighbours.flatMap((p) => p ?? []))
    for (const { step, inView } of walked(context, neighbour).visits)
      if (inView === true) elsewhere(stepText(step), 'neighbour');
  return [...out].filter(([key]) => !real.has(key)).map(([, s]) => s);
}

const wordings = (step: Step): string[] =>
  [stepText(step), ...(step.alsoDo ?? []), ...(step.alsoSay ?? [])].map(foldText);

interface Walked {
  readonly visits: readonly { readonly step: Step; readonly inView: boolean | null; readonly always: boolean }[];
  readonly steps: ReadonlySet<Step>;
  /** Of steps that are, or may be, in the view; folded. */
  readonly texts: ReadonlySet<string>;
}

const known = new WeakMap<ViewContext, Map<Procedure, Walked>>();

/** All steps of a procedure, walked once a view. */
function walked(context: ViewContext, procedure: Procedure): Walked {
  const ofView = known.get(context) ?? new Map<Procedure, Walked>();
  known.set(context, ofView);
  const before = ofView.get(procedure);
  if (before !== undefined) return before;
  const visits: { step: Step; inView: boolean | null; always: boolean }[] = [];
  walk(
    context,
    procedure.steps,
    (step, inView, always) => visits.push({ step, inView, always }),
    holds(procedure.when, context.pick, context.axes),
  );
  const found: Walked = {
    visits,
    steps: new Set(visits.map(({ step }) => step)),
    texts: new Set(visits.flatMap(({ step, inView }) => (inView === false ? [] : wordings(step)))),
  };
  ofView.set(procedure, found);
  return found;
}

/** Every step below some nodes: does it hold in this view, and in every situation? */
function walk(
  context: ViewContext,
  nodes: readonly Node[],
  visit: (step: Step, inView: boolean | null, always: boolean) => void,
  inView: boolean | null = true,
  always = true,
  using: readonly string[] = [],
): void {
  for (const node of nodes) {
    const here = and(inView, holds(node.when, context.pick, context.axes));
    const sure = always && node.if === undefined;
    if (isUse(node)) {
      const named = context.things.blocks.get(node.use);
      if (named && !using.includes(node.use)) walk(context, [named.block], visit, here, sure, [...using, node.use]);
    } else if (isBlock(node)) {
      for (const list of node.lanes ?? [node.steps ?? []]) walk(context, list, visit, here, sure, using);
    } else visit(node, here, sure);
  }
}

const and = (a: boolean | null, b: boolean | null): boolean | null =>
  a === false || b === false ? false : a === null || b === null ? null : true;
