import type { Tree } from '../formula/tree.ts';
import type { Deck, Id, Node } from '../model/deck.ts';
import { isBlock, isStep } from '../model/deck.ts';
import { type Item, type ItemKey, itemKey } from '../model/item.ts';
import { type ItemDraft, stampOf, type ViewContext } from '../subjects/context.ts';
import { parseFormula } from '../subjects/formulas.ts';
import { resolveLimit, soleValue, tableValue } from '../subjects/limit/cases.ts';
import { resolveProcedure } from '../subjects/procedure/compile.ts';
import { asksOrder } from '../subjects/procedure/words.ts';
import {
  type Flown,
  LEFT_OUT,
  type Pick,
  type Resolved,
  type ResolvedLimit,
  type ResolvedProcedure,
  type ResolvedScenario,
  type View,
} from '../subjects/resolved.ts';
import { resolveScenario } from '../subjects/scenario/compile.ts';
import { type Things, thingsOf } from '../subjects/things.ts';
import { axesThatMatter, optionWords } from '../subjects/view-names.ts';
import { holds } from '../subjects/when.ts';
import { aliasesOf } from './keeps.ts';

/** More variant combinations than this are not asked side by side. */
export const MOST_VIEWS = 16;

/**
 * A deck as one learner flies it. Never throws for a deck that the checker passes; of any other it leaves out
 * what cannot be resolved.
 * @param contentId 64 hex digits
 */
export function resolve(deck: Deck, contentId: string, flown: Flown): Resolved {
  const steps = resolveInSteps(deck, contentId, flown);
  for (;;) {
    const { done, value } = steps.next();
    if (done === true) return value;
  }
}

/** The same with pauses: a large deck takes a slow phone a tenth of a second. */
export function* resolveInSteps(deck: Deck, contentId: string, flown: Flown): Generator<void, Resolved> {
  const things = thingsOf(deck);
  const trees = new Map<string, Tree | null>();
  const parse = (text: string): Tree | null => {
    const known = trees.get(text);
    if (known !== undefined) return known;
    const tree = parseFormula(text);
    trees.set(text, tree);
    return tree;
  };
  const requires = (deck.day ?? []).flatMap((d) => d.require ?? []).flatMap((text) => parse(text) ?? []);
  const register = new Register(deck);
  const views: View[] = [];
  const leftOut = new Set(flown[LEFT_OUT] ?? []);
  for (const pick of picksOf(deck, flown))
    views.push(yield* resolveView(things, pick, leftOut, parse, requires, register));
  const items = register.items(things, views, leftOut);
  return {
    deck,
    ref: `${deck.id}@${contentId.slice(0, 16)}`,
    views,
    items,
    aliases: aliasesOf(deck, items),
    namesView: (key) => {
      const item = items.get(key);
      return item !== undefined && item.views.length < views.length;
    },
  };
}

/** The product of the options flown per axis, at most 16; an axis without any is not told (null). */
export function picksOf(deck: Deck, flown: Flown): Pick[] {
  let picks: Record<Id, Id | null>[] = [{}];
  for (const axis of deck.variants ?? []) {
    const told = Object.keys(axis.options).filter((o) => (flown[axis.id] ?? []).includes(o));
    const options = told.length > 0 ? told : [null];
    picks = picks.flatMap((p) => options.map((o) => ({ ...p, [axis.id]: o }))).slice(0, MOST_VIEWS);
  }
  return picks;
}

const viewId = (pick: Pick): string =>
  Object.entries(pick)
    .filter(([, option]) => option !== null)
    .map(([axis, option]) => `${axis}=${option}`)
    .join(',');

function* resolveView(
  things: Things,
  pick: Pick,
  leftOut: ReadonlySet<string>,
  parse: ViewContext['parse'],
  requires: readonly Tree[],
  register: Register,
): Generator<void, View> {
  const { deck } = things;
  const axes = deck.variants ?? [];
  const id = viewId(pick);
  const base = { things, pick, axes, leftOut, parse, register: (draft: ItemDraft): ItemKey => register.add(draft, id) };
  const limits = new Map<Id, ResolvedLimit>();
  for (const l of deck.limits ?? []) {
    if (!limits.has(l.id)) limits.set(l.id, resolveLimit(base, l));
    yield;
  }
  const context: ViewContext = {
    ...base,
    limits,
    limitValue: (limit) => soleValue(limits.get(limit)),
    lookup: (limit, x) => tableValue(things.limits.get(limit), x),
  };
  const procedures: ResolvedProcedure[] = [];
  for (const p of deck.procedures ?? []) {
    if (!leftOut.has(`#${p.id}`) && holds(p.when, pick, axes) === true)
      procedures.push(resolveProcedure(context, p, requires));
    yield;
  }
  const scenarios: ResolvedScenario[] = [];
  for (const s of deck.scenarios ?? []) {
    const found = resolveScenario(context, s, requires);
    if (found !== null) scenarios.push(found);
    yield;
  }
  return {
    id,
    pick,
    label: axes.flatMap((a) => a.options[pick[a.id] ?? ''] ?? []).join(', '),
    procedures,
    limits: [...limits.values()],
    scenarios,
    requires,
    limitValue: context.limitValue,
    lookup: context.lookup,
  };
}

/** Gathers items over views: an equal key is one item. */
class Register {
  readonly #deck: Deck;
  readonly #found = new Map<ItemKey, { draft: ItemDraft; views: Set<string>; critical: boolean }>();

  constructor(deck: Deck) {
    this.#deck = deck;
  }

  add(draft: ItemDraft, view: string): ItemKey {
    const key = itemKey(this.#deck.id, draft.thing, draft.facetKey, stampOf(draft.meaning));
    const known = this.#found.get(key);
    if (known) {
      known.views.add(view);
      known.critical ||= draft.critical;
    } else this.#found.set(key, { draft, views: new Set([view]), critical: draft.critical });
    return key;
  }

  /**
   * In authored order; what differs among the views says its view. A limit or scenario left out stays in the views,
   * since steps and formulas need its values, and is no item.
   */
  items(things: Things, views: readonly View[], leftOut: ReadonlySet<string>): Map<ItemKey, Item> {
    const place = authoredOrder(things);
    const axes = this.#deck.variants ?? [];
    const known = new Map<string, string>();
    const names = (held: ReadonlySet<string>): string => {
      const id = [...held].join(' ');
      const before = known.get(id);
      if (before !== undefined) return before;
      const only = axesThatMatter([...held], views, axes);
      const said = views.filter((v) => held.has(v.id)).map((v) => optionWords(v.pick, only, axes));
      const text = [...new Set(said)].join(' / ');
      known.set(id, text);
      return text;
    };
    const list = [...this.#found]
      .map(([key, x], found) => ({ key, ...x, found }))
      .filter(({ draft: { thing } }) => !leftOut.has(`#${thing}`));
    list.sort(
      (a, b) =>
        (place.get(a.draft.thing) ?? place.size) - (place.get(b.draft.thing) ?? place.size) || a.found - b.found,
    );
    return new Map(
      list.map(({ key, draft, views: held, critical }, rank) => {
        const some = held.size < views.length;
        const item: Item = {
          key,
          deck: this.#deck.id,
          thing: draft.thing,
          facet: draft.facet,
          group: draft.group,
          groupKind: draft.groupKind,
          critical,
          label: some ? `${draft.label} (${names(held)})` : draft.label,
          rank,
          views: [...held],
        };
        return [key, item];
      }),
    );
  }
}

/** Place of every list that is read, step, limit and scenario in the deck's text. */
function authoredOrder(things: Things): Map<Id, number> {
  const order = new Map<Id, number>();
  const put = (id: Id): void => {
    if (!order.has(id)) order.set(id, order.size);
  };
  const visit = (nodes: readonly Node[]): void => {
    for (const node of nodes) {
      if (isStep(node)) put(node.id);
      else if (isBlock(node)) for (const list of node.lanes ?? [node.steps ?? []]) visit(list);
    }
  };
  const { deck } = things;
  for (const p of deck.procedures ?? []) {
    if (!asksOrder(p)) put(p.id);
    visit(p.steps);
  }
  for (const l of deck.limits ?? []) put(l.id);
  for (const s of deck.scenarios ?? []) put(s.id);
  return order;
}
