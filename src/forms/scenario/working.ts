import type { Tree } from '../../formula/tree.ts';
import type { Deck } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { UNIT_FACTS } from '../../model/units.ts';
import { formulaWords } from '../../subjects/formula-words.ts';
import { namesIn } from '../../subjects/formulas.ts';
import type { ResolvedScenario, View } from '../../subjects/resolved.ts';
import { type Said, unitOf } from './unit-of.ts';

/** Says how an answer was worked out, in words and values: one drawn question. */
export interface Working {
  /** A formula as a sentence. */
  say(tree: Tree): string;
  /** The values of `let` that formulas stand on, in the order of the deck: "crosswind = 12.3 kt". */
  values(trees: readonly Tree[]): string[];
}

export function workingOf(deck: Deck, view: View, scenario: ResolvedScenario, values: Drawn): Working {
  const lets = new Map(scenario.lets.map((l) => [l.name, l.tree]));
  const say = (tree: Tree): string => formulaWords(deck, view, scenario, tree);
  return {
    say,
    values: (trees) => {
      const needed = new Set<string>();
      const visit = (tree: Tree): void => {
        for (const name of namesIn(tree)) {
          const own = lets.get(name);
          if (!own || needed.has(name)) continue;
          visit(own);
          needed.add(name);
        }
      };
      for (const tree of trees) visit(tree);
      return scenario.lets
        .filter((l) => needed.has(l.name))
        .map(({ name, tree }) => {
          const short = say({ kind: 'name', name });
          const long = say(tree);
          const value = plain(values[name], unitOf(deck, scenario, { kind: 'name', name }));
          // "6 kt if the surface is wet, else 11 kt" is a sentence, not a sum.
          if (tree.kind === 'choose') return `${short === long ? '' : `${short}: `}${long}; here ${value}`;
          return `${short === long ? '' : `${short} = `}${long} = ${value}`;
        });
    },
  };
}

function plain(value: number | string | boolean | undefined, said: Said | null): string {
  if (typeof value === 'number') return tradeForm(rounded(value, said), said?.unit ?? null, said?.show);
  return value === true ? 'yes' : value === false ? 'no' : String(value);
}

/** So far that a value near a limit still shows on which side it is; nobody computes 3333.33 ft. */
function rounded(value: number, said: Said | null): number {
  if (said === null || !UNIT_FACTS[said.unit].whole) return Number(value.toFixed(2));
  return Number(value.toFixed(Math.abs(value) < 1000 ? 1 : 0));
}
