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
 * situations, then those of the procedures before and after it that are flown. A form leaves out what reads like a
 * real step of the situation it asks.
 */
export function strangersFor(context: ViewContext, procedure: Procedure): StrangerText[] {
  // Nothing that says nothing, nothing that is real, and nothing twice.
  const taken = new Set(['']);
  const strange: Step[] = [];
  const all: Step[] = [];
  walk(context, procedure.steps, (step, inView, always) => {
    all.push(step);
    // What cannot be told is neither real nor strange: it may well be this learner's.
    if (inView === null || (inView && always)) {
      for (const text of [stepText(step), ...(step.alsoDo ?? []), ...(step.alsoSay ?? [])]) taken.add(foldText(text));
    } else strange.push(step);
  });

  const line = context.things.deck.procedures ?? [];
  const here = line.indexOf(procedure);
  for (const way of [line.slice(0, here).reverse(), line.slice(here + 1)]) {
    for (const near of way.filter(asksOrder)) {
      const found: Step[] = [];
      const flown = holds(near.when, context.pick, context.axes);
      walk(context, near.steps, (step, inView) => inView && found.push(step), flown);
      // With a block of this one it does the same another way: its other steps may mean the same as some of these.
      if (found.length === 0 || found.some((step) => all.includes(step))) continue;
      strange.push(...found);
      break;
    }
  }
  const texts: StrangerText[] = [
    ...(procedure.strangers ?? []).map((s) => (typeof s === 'string' ? { text: s } : s)),
    ...strange.map((step) => ({ text: stepText(step) })),
  ];
  return texts.filter(({ text }) => {
    const key = foldText(text);
    return !taken.has(key) && taken.add(key);
  });
}

/** Every step below some nodes: does it hold in this view, and in every situation? */
function walk(
  context: ViewContext,
  nodes: readonly Node[],
  visit: (step: Step, inView: boolean | null, always: boolean) => unknown,
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
