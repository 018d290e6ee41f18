import { type BareView, bareViews, formulaReader } from '../deck/bare-views.ts';
import { mend } from '../deck/mend.ts';
import { readDeck } from '../deck/read.ts';
import type { Json } from '../lib/canonical-json.ts';
import type { Deck, Node, Procedure } from '../model/deck.ts';
import { isBlock, isUse } from '../model/deck.ts';
import { conditionsOf, type Flat, flatten } from '../subjects/procedure/flatten.ts';
import { isOrder, partialOrder } from '../subjects/procedure/order.ts';
import { situationIds } from '../subjects/procedure/situations.ts';
import type { PartialOrder } from '../subjects/resolved.ts';
import { type Things, thingsOf } from '../subjects/things.ts';

/** A procedure of a draft as all who fly it have it. */
export interface Flown {
  readonly deck: Deck;
  readonly things: Things;
  readonly procedure: Procedure;
  readonly views: readonly BareView[];
  readonly parse: ReturnType<typeof formulaReader>;
}

/** Blocks that use one another can double without end; the checker refuses them. */
const MOST_STEPS = 1000;

/**
 * @param index of the procedure in the draft
 * @returns null where the draft is not yet in a shape that says it
 */
export const flownFrom = (doc: Json, index: number): Flown | null => {
  const text = JSON.stringify(doc);
  const { deck: right, findings } = readDeck(text);
  const deck = right ?? mend(text, findings)?.deck;
  const procedure = deck?.procedures?.[index];
  if (deck === undefined || procedure === undefined) return null;
  const things = thingsOf(deck);
  if (sizeOf(things, procedure.steps) > MOST_STEPS) return null;
  const parse = formulaReader();
  const views = bareViews(things, parse).filter((view) => view.procedures.some((one) => one.procedure === procedure));
  return { deck, things, procedure, views, parse };
};

const sizeOf = (things: Things, nodes: readonly Node[], known = new Map<string, number>()): number => {
  let sum = 0;
  for (const node of nodes) {
    if (isUse(node)) {
      const before = known.get(node.use);
      if (before === undefined) {
        known.set(node.use, 0);
        const block = things.blocks.get(node.use)?.block;
        known.set(node.use, block === undefined ? 0 : sizeOf(things, [block], known));
      }
      sum += known.get(node.use) ?? 0;
    } else if (isBlock(node)) for (const list of node.lanes ?? [node.steps ?? []]) sum += sizeOf(things, list, known);
    else sum++;
  }
  return Math.min(sum, MOST_STEPS * MOST_STEPS);
};

export interface Run extends Flat {
  readonly order: PartialOrder;
}

/** Every order in which the procedure is done: of each view each situation that can be; none that goes in a circle. */
export const runsOf = ({ deck, things, procedure, views, parse }: Flown): Run[] => {
  const runs = new Map<string, Run>();
  for (const view of views) {
    const texts = conditionsOf(things, procedure, view.pick).filter((text) => parse(text) !== null);
    const trees = texts.flatMap((text) => parse(text) ?? []);
    for (const id of situationIds({ deck, requires: view.requires, lookups: view }, trees)) {
      const flat = flatten(things, procedure, view.pick, (text) => id[texts.indexOf(text)] === '1');
      const order = partialOrder(flat.steps.length, flat.pairs);
      const key = JSON.stringify([flat.steps.map(({ step }) => step.id), flat.pairs]);
      if (isOrder(order) && !runs.has(key)) runs.set(key, { ...flat, order });
    }
  }
  return [...runs.values()];
};
