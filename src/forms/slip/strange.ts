import { foldText } from '../../lib/fold-text.ts';
import type { Id, Node, Step, When } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';
import type { ItemKey } from '../../model/item.ts';
import { stepText } from '../../subjects/procedure/words.ts';
import type { Resolved, View } from '../../subjects/resolved.ts';
import { holds } from '../../subjects/when.ts';
import { fitting, isAuthored, type NumberedStranger } from '../run/strangers.ts';
import type { Window } from './window.ts';

/** A line that does not belong. */
export interface Strange extends NumberedStranger {
  readonly kind: 'stranger' | 'variant';
  /** variant: the step as another variant has it. */
  readonly step?: Step;
}

/** Strangers that may stand before a row, or behind the last one; never a variant's step. The author's own go first. */
export function strangersAt({ resolved, asked: { view, p, situation, part } }: Window, row: number): Strange[] {
  const theirs = new Set(foreignIn(resolved, view, p.procedure.steps).map(({ text }) => text));
  const list = fitting(p, situation).filter(({ text }) => !theirs.has(foldText(text)));
  const own = list.filter((one) => isAuthored(p, one));
  // Where one procedure meets the next, a step of the neighbour may well be right.
  const atSeam = part[row] === 0 || part[row] === situation.steps.length - 1;
  return (own.length > 0 ? own : atSeam ? [] : list).map((one) => ({ ...one, kind: 'stranger' }));
}

/** Steps of other variants that stand before a row where they belong, and read like no step of this one. */
export function variantsAt({ resolved, asked: { view, p, situation }, steps }: Window, row: number): Strange[] {
  const here = steps[row]?.step.id;
  const held = new Set(situation.steps.map(({ step }) => step.id));
  const found: Strange[] = [];
  for (const { step, text, after } of foreignIn(resolved, view, p.procedure.steps)) {
    if (after.find((id) => held.has(id)) !== here) continue;
    const stranger = fitting(p, situation).find((one) => foldText(one.text) === text);
    if (stranger !== undefined && !found.some(({ id }) => id === stranger.id))
      found.push({ ...stranger, kind: 'variant', step });
  }
  return found;
}

/** "Of another variant: TK-14": what has the step that reads so. */
export function variantWords(resolved: Resolved, view: View, nodes: readonly Node[], text: string): string {
  const one = foreignIn(resolved, view, nodes).find((foreign) => foreign.text === foldText(text));
  const labels = (resolved.deck.variants ?? []).flatMap(({ id, options }) =>
    Object.keys(options)
      .filter((option) => one?.whens.every((when) => holds(when, { ...view.pick, [id]: option }, axesOf(resolved))))
      .map((option) => options[option] as string),
  );
  return labels.length === 0 ? 'Of another variant' : `Of another variant: ${labels.join(' or ')}`;
}

/** Items of what reads so, as the other views flown have it: where it hangs on the view, that must be named. */
export const keysOfText = ({ views }: Resolved, procedure: Id, text: string): ItemKey[] =>
  views
    .flatMap(({ procedures }) => procedures)
    .filter((p) => p.procedure.id === procedure)
    .flatMap(({ situations }) => situations.flatMap(({ steps }) => steps))
    .flatMap((step) => (step.place !== null && foldText(step.text) === foldText(text) ? [step.place] : []));

interface Foreign {
  readonly step: Step;
  /** Folded. */
  readonly text: string;
  /** What it hangs on. */
  readonly whens: readonly When[];
  /** Ids of the steps written after it, in order. */
  readonly after: readonly Id[];
}

const axesOf = ({ deck }: Resolved) => deck.variants ?? [];

const known = new WeakMap<View, Map<readonly Node[], readonly Foreign[]>>();

/** Steps of a procedure that its view does not have, shared blocks left out. */
function foreignIn(resolved: Resolved, view: View, nodes: readonly Node[]): readonly Foreign[] {
  const ofView = known.get(view) ?? new Map<readonly Node[], readonly Foreign[]>();
  known.set(view, ofView);
  const before = ofView.get(nodes);
  if (before !== undefined) return before;
  const all: { readonly step: Step; readonly whens: readonly When[] }[] = [];
  const walk = (list: readonly Node[], whens: readonly When[]): void => {
    for (const node of list) {
      const here = node.when === undefined ? whens : [...whens, node.when];
      if (isUse(node)) continue;
      if (!isBlock(node)) all.push({ step: node, whens: here });
      else for (const lane of node.lanes ?? [node.steps ?? []]) walk(lane, here);
    }
  };
  walk(nodes, []);
  const found = all.flatMap(({ step, whens }, i) =>
    whens.some((when) => holds(when, view.pick, axesOf(resolved)) === false)
      ? [{ step, text: foldText(stepText(step)), whens, after: all.slice(i + 1).map((one) => one.step.id) }]
      : [],
  );
  ofView.set(nodes, found);
  return found;
}
