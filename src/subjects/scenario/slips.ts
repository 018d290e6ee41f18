import type { Tree } from '../../formula/tree.ts';
import { inlined, mapCalls, sameTree } from '../formulas.ts';
import type { ResolvedAsk } from '../resolved.ts';

/** A wrong way to compute a number. */
export interface NumberSlip {
  readonly number: Tree;
  readonly note: string;
  readonly authored: boolean;
  /** A draw is wanted in which making it can be told from a rough answer. */
  readonly mustShow: boolean;
}

/** The author's slips; for a wind component also sine and cosine taken for one another, and the whole wind. */
export function numberSlips(
  ask: Extract<ResolvedAsk, { number: unknown }>,
  lets: ReadonlyMap<string, Tree>,
): NumberSlip[] {
  const authored = ask.slips.map((s) => ({
    number: inlined(s.number, lets),
    note: s.note,
    authored: true,
    mustShow: false,
  }));
  const right = inlined(ask.number, lets);
  const swapped = mapCalls(right, (name, args) =>
    name === 'headwind' ? { call: 'crosswind', args } : name === 'crosswind' ? { call: 'headwind', args } : null,
  );
  if (sameTree(swapped, right)) return authored;
  const whole = mapCalls(right, (name, args) =>
    name === 'headwind' || name === 'crosswind' ? (args[1] as Tree) : null,
  );
  const machine = [
    {
      number: swapped,
      note: 'Sine and cosine are exchanged: that is the other wind component.',
      authored: false,
      mustShow: true,
    },
    { number: whole, note: 'That is the whole wind, not its component.', authored: false, mustShow: false },
  ];
  // What the author says in other words is not said twice: two of one number could never be told apart.
  return [
    ...authored,
    ...machine.filter((m) => !authored.some((a) => sameTree(unsigned(a.number), unsigned(m.number)))),
  ];
}

/** From whichever side: what `abs` is taken of. */
const unsigned = (tree: Tree): Tree =>
  tree.kind === 'call' && tree.name === 'abs' ? unsigned(tree.args[0] as Tree) : tree;
