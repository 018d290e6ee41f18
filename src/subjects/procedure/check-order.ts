import type { Tree } from '../../formula/tree.ts';
import { foldText } from '../../lib/fold-text.ts';
import type { Id, Procedure, Step } from '../../model/deck.ts';
import { isBlock, isStep } from '../../model/deck.ts';
import type { Checking } from '../check.ts';
import { at, short } from '../finding.ts';
import { isTrue, namesIn } from '../formulas.ts';
import type { PartialOrder, View } from '../resolved.ts';
import { axisOfName, spaceOf } from '../space.ts';
import { nodesBelow } from './check.ts';
import { conditionsOf, type FlatStep, flatten } from './flatten.ts';
import { isOrder, partialOrder } from './order.ts';
import { situationIds } from './situations.ts';
import { asksOrder, stepText } from './words.ts';

/**
 * The orders of a procedure in every variant combination and situation: circles, steps that cannot be told apart,
 * words that give the order away, order that nothing asks for.
 * @param where pointer of each step of the deck
 */
export function checkOrders(
  c: Checking,
  procedure: Procedure,
  path: string,
  views: readonly View[],
  parse: (text: string) => Tree | null,
  where: ReadonlyMap<Id, string>,
): void {
  const told = new Set<string>();
  const once = (key: string): boolean => !told.has(key) && Boolean(told.add(key));
  const seen = new Set<string>();
  for (const view of views) {
    if (!view.procedures.some((p) => p.procedure === procedure)) continue;
    const texts = conditionsOf(c.things, procedure, view.pick).filter((t) => parse(t));
    const trees = texts.map((t) => parse(t) as Tree);
    for (const id of situationIds({ deck: c.deck, requires: view.requires, lookups: view }, trees)) {
      const { steps, pairs } = flatten(c.things, procedure, view.pick, (t) => id[texts.indexOf(t)] === '1');
      const key = JSON.stringify([steps.map((s) => s.step.id), pairs]);
      if (seen.has(key)) continue;
      seen.add(key);
      const order = partialOrder(steps.length, pairs);
      if (!isOrder(order)) {
        const ids = order.cycle.map((i) => (steps[i] as FlatStep).step.id);
        if (once('cycle')) c.add('order-cycle', at(path, 'steps'), { steps: [...ids, ids[0]].join(' → ') });
      } else if (asksOrder(procedure)) {
        const list = steps.map((s) => s.step);
        sameWords(c, list, order, where, once);
        numbers(c, list, order, where, once);
        reasons(c, list, order, where, once);
      }
    }
  }
  strangers(c, procedure, path);
}

type Once = (key: string) => boolean;

function sameWords(
  c: Checking,
  steps: readonly Step[],
  order: PartialOrder,
  where: ReadonlyMap<Id, string>,
  once: Once,
): void {
  const texts = steps.map((s) => foldText(stepText(s)));
  steps.forEach((step, b) => {
    const a = texts.findIndex((t, i) => i < b && t === texts[b] && !order.before[i]?.[b] && !order.before[b]?.[i]);
    if (a >= 0 && once(`same ${step.id}`))
      c.add('same-words', where.get(step.id) ?? '', { text: short(stepText(step)) });
  });
}

/** Numbers in a text with the word behind each: "400 ft" → 400, "ft". A number inside a name (V1) is none. */
function numbersOf(text: string): { readonly value: number; readonly unit: string }[] {
  return [...text.matchAll(/(?<![\p{L}\p{N}.{])(\d+(?:[ \u00a0]\d{3})*(?:\.\d+)?)\s*([\p{L}%°/]*)/gu)].map((m) => ({
    value: Number((m[1] as string).replaceAll(/\s/g, '')),
    unit: (m[2] as string).toLowerCase(),
  }));
}

/** The same words around rising numbers, or rising numbers of one unit, tell which step is first. */
function numbers(
  c: Checking,
  steps: readonly Step[],
  order: PartialOrder,
  where: ReadonlyMap<Id, string>,
  once: Once,
): void {
  for (const [a, b] of order.covers) {
    const [first, second] = [steps[a] as Step, steps[b] as Step];
    const [x, y] = [stepText(first), stepText(second)];
    const [m] = numbersOf(x);
    const [n] = numbersOf(y);
    if (!m || !n || !(m.value < n.value)) continue;
    const mask = (text: string): string => foldText(text.replaceAll(/\d+/g, '0'));
    if (mask(x) !== mask(y) && (m.unit === '' || m.unit !== n.unit)) continue;
    if (once(`number ${second.id}`))
      c.add('words-number', where.get(second.id) ?? '', { first: short(x), second: short(y) });
  }
}

function reasons(
  c: Checking,
  steps: readonly Step[],
  order: PartialOrder,
  where: ReadonlyMap<Id, string>,
  once: Once,
): void {
  for (const [first, second] of withoutReason(steps, order))
    if (once(`reason ${second.id}`))
      c.add('order-reason', where.get(second.id) ?? '', {
        first: short(stepText(first)),
        second: short(stepText(second)),
      });
}

/** Steps that follow one another, in the order of the text, and nothing says why the one must wait for the other. */
export function withoutReason(steps: readonly Step[], order: PartialOrder): (readonly [Step, Step])[] {
  return order.covers
    .filter(([a, b]) => b === a + 1)
    .map(([a, b]) => [steps[a] as Step, steps[b] as Step] as const)
    .filter(([first, { cue, answers, after, needs, from, if: condition, why }]) => {
      if (cue || answers || after || needs?.length || from || first.until) return false;
      return condition === undefined && why === undefined;
    });
}

function strangers(c: Checking, procedure: Procedure, path: string): void {
  const real = new Set<string>();
  const add = (text: string | undefined): void => {
    if (text !== undefined) real.add(foldText(text));
  };
  const visit = (nodes: Procedure['steps'], using: readonly Id[]): void => {
    for (const node of nodes) {
      if (isStep(node)) {
        for (const text of [stepText(node), node.do, node.say, ...(node.alsoDo ?? []), ...(node.alsoSay ?? [])])
          add(text);
      } else if (isBlock(node)) for (const list of node.lanes ?? [node.steps ?? []]) visit(list, using);
      else {
        const named = c.things.blocks.get(node.use);
        if (named && !using.includes(node.use)) visit([named.block], [...using, node.use]);
      }
    }
  };
  visit(procedure.steps, []);
  procedure.strangers?.forEach((s, i) => {
    const text = typeof s === 'string' ? s : s.text;
    if (real.has(foldText(text))) c.add('stranger-real', at(path, 'strangers', i), { text: short(text) });
  });
}

/** An `if` that no circumstance of the deck meets; where they are too many to try all, nothing is said. */
export function checkIfs(
  c: Checking,
  procedure: Procedure,
  path: string,
  views: readonly View[],
  parse: (text: string) => Tree | null,
): void {
  const known = new Map<string, boolean>();
  const never = (text: string): boolean => {
    const tree = parse(text);
    const [view] = views;
    if (!tree || !view) return false;
    const names = new Set(namesIn(tree));
    const requires = view.requires.filter((r) => namesIn(r).some((n) => names.has(n)));
    for (const n of requires.flatMap(namesIn)) names.add(n);
    const space = spaceOf([...names].flatMap((n) => axisOfName(c.deck, n) ?? []));
    if (!space.exact) return false;
    const drawn: Record<string, number | string | boolean> = {};
    for (let i = 0; i < space.count; i++) {
      space.put(i, drawn);
      if (requires.some((r) => isTrue(r, drawn, view) === false)) continue;
      if (views.some((v) => isTrue(tree, drawn, v) === true)) return false;
    }
    return true;
  };
  for (const [node, here] of nodesBelow(procedure.steps, at(path, 'steps'))) {
    if (node.if === undefined) continue;
    const found = known.get(node.if) ?? never(node.if);
    known.set(node.if, found);
    if (found) c.add('if-never', at(here, 'if'));
  }
}
