import type { Tree } from '../formula/tree.ts';
import type { Checking } from '../subjects/check.ts';
import { at } from '../subjects/finding.ts';
import { isTrue, parseFormula } from '../subjects/formulas.ts';
import { checkCases } from '../subjects/limit/check-cases.ts';
import { nodesBelow } from '../subjects/procedure/check.ts';
import { checkIfs, checkOrders } from '../subjects/procedure/check-order.ts';
import type { View } from '../subjects/resolved.ts';
import { checkDraws } from '../subjects/scenario/check-draws.ts';
import { axisOfName, spaceOf } from '../subjects/space.ts';
import { resolve } from './resolve.ts';

/** Draws tried in one deck: beyond them each scenario gets a small sample, so that no deck takes a minute. */
const MOST_DRAWS = 2_000_000;

/** What is seen only once variants are picked and values drawn. Of a deck without an error in what it names. */
export function checkViews(c: Checking): void {
  const { deck } = c;
  const every = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
  const { views } = resolve(deck, '0'.repeat(64), every);
  const trees = new Map<string, Tree | null>();
  const parse = (text: string): Tree | null => {
    const known = trees.get(text);
    if (known !== undefined) return known;
    const tree = parseFormula(text);
    trees.set(text, tree);
    return tree;
  };
  const where = new Map<string, string>();
  (deck.procedures ?? []).forEach((p, i) => {
    for (const [node, path] of nodesBelow(p.steps, at('/procedures', i, 'steps')))
      if ('id' in node && node.id !== undefined) where.set(node.id, path);
  });
  (deck.procedures ?? []).forEach((p, i) => {
    const path = at('/procedures', i);
    checkOrders(c, p, path, views, parse, where);
    checkIfs(c, p, path, views, parse);
  });
  (deck.limits ?? []).forEach((l, i) => {
    checkCases(c, l, at('/limits', i), views);
  });
  checkDay(c, views);
  const budget = { points: MOST_DRAWS, live: 100 };
  (deck.scenarios ?? []).forEach((s, i) => {
    checkDraws(c, s, at('/scenarios', i), views, budget);
  });
}

/** Values of the day that can never stand together: no procedure that shows one could be asked. */
function checkDay(c: Checking, [view]: readonly View[]): void {
  const { day = [] } = c.deck;
  if (!view || view.requires.length === 0) return;
  const space = spaceOf(day.flatMap((d) => axisOfName(c.deck, d.id) ?? []));
  const drawn: Record<string, number | string | boolean> = {};
  for (let i = 0; i < space.count; i++) {
    space.put(i, drawn);
    if (view.requires.every((r) => isTrue(r, drawn, view) === true)) return;
  }
  c.add(space.exact ? 'scenario-never' : 'scenario-rare', '/day', { tried: space.count, what: '' });
}
