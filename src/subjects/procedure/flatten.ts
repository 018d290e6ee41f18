import type { FormulaText, Id, Node, Procedure, Step } from '../../model/deck.ts';
import { isBlock, isUse } from '../../model/deck.ts';
import type { Pick } from '../resolved.ts';
import type { Things } from '../things.ts';
import { holds } from '../when.ts';

export interface FlatStep {
  readonly step: Step;
  /** Procedure whose text holds it. */
  readonly owner: Id;
  /** Steps done together share a number. */
  readonly together: number | null;
}

export interface Flat {
  /** In authored order. */
  readonly steps: readonly FlatStep[];
  /** Required pairs of indices, not closed; they hold a cycle where the deck has one. */
  readonly pairs: readonly (readonly [number, number])[];
}

/** Steps of a part with those that nothing of the part comes before, and after. */
interface Part {
  readonly all: readonly number[];
  readonly first: readonly number[];
  readonly last: readonly number[];
}
const NOTHING: Part = { all: [], first: [], last: [] };

/**
 * The steps of a procedure for one variant combination and one situation, and the pairs its text requires:
 * a list is in order, lanes interleave, what is done together is unordered; `needs`, `answers` and `after` add
 * pairs; `use` takes the named block of another procedure. References that hold nowhere here add nothing.
 * @param truth of an `if`
 */
export function flatten(things: Things, procedure: Procedure, pick: Pick, truth: (text: FormulaText) => boolean): Flat {
  const axes = things.deck.variants ?? [];
  const steps: FlatStep[] = [];
  const pairs: [number, number][] = [];
  const members = new Map<Id, readonly number[]>();
  const taken = new Set<Id>();
  const using: Id[] = [];
  let groups = 0;

  const link = (before: readonly number[], after: readonly number[]): void => {
    for (const a of before) for (const b of after) pairs.push([a, b]);
  };
  const series = (parts: readonly Part[]): Part => {
    const real = parts.filter((p) => p.all.length > 0);
    real.forEach((p, i) => {
      if (i > 0) link((real[i - 1] as Part).last, p.first);
    });
    return { all: real.flatMap((p) => p.all), first: real[0]?.first ?? [], last: real.at(-1)?.last ?? [] };
  };
  const parallel = (parts: readonly Part[]): Part => ({
    all: parts.flatMap((p) => p.all),
    first: parts.flatMap((p) => p.first),
    last: parts.flatMap((p) => p.last),
  });
  const list = (nodes: readonly Node[], owner: Id, group: number | null): Part[] =>
    nodes.map((n) => part(n, owner, group));

  const part = (node: Node, owner: Id, group: number | null): Part => {
    if (holds(node.when, pick, axes) !== true || (node.if !== undefined && !truth(node.if))) return NOTHING;
    if (isUse(node)) {
      const named = things.blocks.get(node.use);
      if (!named || using.includes(node.use)) return NOTHING;
      using.push(node.use);
      const used = part(named.block, named.owner, group);
      using.pop();
      return used;
    }
    if (isBlock(node)) {
      const own = node.together ? groups++ : group;
      const whole = node.lanes
        ? parallel(node.lanes.map((lane) => series(list(lane, owner, own))))
        : (node.together ? parallel : series)(list(node.steps ?? [], owner, own));
      if (node.id !== undefined) members.set(node.id, whole.all);
      return whole;
    }
    // A block used twice in one situation counts once: its steps have one memory.
    if (taken.has(node.id)) return NOTHING;
    taken.add(node.id);
    const i = steps.push({ step: node, owner, together: group }) - 1;
    members.set(node.id, [i]);
    return { all: [i], first: [i], last: [i] };
  };

  series(list(procedure.steps, procedure.id, null));
  steps.forEach(({ step }, i) => {
    for (const id of [...(step.needs ?? []), step.answers, step.after?.step]) {
      if (id !== undefined) link(members.get(id) ?? [], [i]);
    }
  });
  return { steps, pairs };
}

/** The distinct `if`s of a procedure for one variant combination, in the order of its text. */
export function conditionsOf(things: Things, procedure: Procedure, pick: Pick): FormulaText[] {
  const found = new Set<FormulaText>();
  flatten(things, procedure, pick, (text) => {
    found.add(text);
    return true;
  });
  return [...found];
}
