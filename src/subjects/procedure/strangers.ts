import { foldText } from '../../lib/fold-text.ts';
import type { Node, Procedure, Step } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';
import type { ViewContext } from '../context.ts';
import { holds } from '../when.ts';
import { asksOrder, stepText } from './words.ts';

export interface StrangerText {
  readonly text: string;
  readonly note?: string;
}

/**
 * Steps that do not belong, the most telling first: authored ones, this procedure's own of other variants and
 * situations, then those of the procedures before and after it. A form leaves out what reads like a real
 * step of the situation it asks.
 */
export function strangersFor(context: ViewContext, procedure: Procedure): StrangerText[] {
  const out = new Map<string, StrangerText>();
  const add = (one: StrangerText): void => {
    const key = foldText(one.text);
    if (key !== '' && !out.has(key)) out.set(key, one);
  };
  for (const s of procedure.strangers ?? []) add(typeof s === 'string' ? { text: s } : s);

  const real = new Set<string>();
  const own: Step[] = [];
  walk(context, procedure.steps, (step, inView, always) => {
    // What cannot be told is neither real nor strange: it may well be this learner's.
    if (inView === null || (inView && always)) {
      real.add(foldText(stepText(step)));
      for (const also of step.alsoDo ?? []) real.add(foldText(also));
      for (const also of step.alsoSay ?? []) real.add(foldText(also));
    } else own.push(step);
  });
  for (const step of own) add({ text: stepText(step) });

  const line = (context.things.deck.procedures ?? []).filter(asksOrder);
  const here = line.indexOf(procedure);
  for (const neighbour of [line[here - 1], line[here + 1]]) {
    if (!neighbour || here < 0) continue;
    walk(context, neighbour.steps, (step, inView) => {
      if (inView === true) add({ text: stepText(step) });
    });
  }
  return [...out].filter(([key]) => !real.has(key)).map(([, s]) => s);
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
