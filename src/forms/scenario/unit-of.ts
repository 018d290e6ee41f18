import type { Tree } from '../../formula/tree.ts';
import type { Deck, Show, Unit } from '../../model/deck.ts';
import { isFact, isNumberAsk } from '../../model/deck.ts';
import type { ResolvedScenario } from '../../subjects/resolved.ts';

/** Functions whose values have a unit of their own. */
const FUNCTIONS: Readonly<Record<string, Unit>> = {
  headwind: 'kt',
  crosswind: 'kt',
  trueAirspeed: 'kt',
  pressureAltitude: 'ft',
  densityAltitude: 'ft',
  isaTemperature: '°C',
};
/** Functions whose values have the unit of what they are made of. */
const KEEPING = new Set(['abs', 'min', 'max', 'round', 'floor', 'ceil']);

export interface Said {
  readonly unit: Unit;
  readonly show?: Show;
}

/**
 * The unit of a number within a scenario, as far as the deck tells it: of values, limits and asks it is authored, sums
 * keep it, products make another. Null where it is not known.
 */
export function unitOf(deck: Deck, { scenario, lets, asks }: ResolvedScenario, tree: Tree): Said | null {
  const ofName = (name: string, met: readonly string[]): Said | null => {
    // A circle of names is refused by the checker; here it must only end.
    if (met.includes(name)) return null;
    const asked = asks.find((one) => 'number' in one && one.number.kind === 'name' && one.number.name === name);
    if (asked !== undefined && isNumberAsk(asked.ask)) return said(asked.ask);
    const own = lets.find((one) => one.name === name);
    if (own !== undefined) return of(own.tree, [...met, name]);
    return said(
      scenario.draw[name] ?? deck.day?.find(({ id }) => id === name) ?? deck.conditions?.find(({ id }) => id === name),
    );
  };
  const ofLimit = (id: Tree | undefined): Said | null => {
    const limit = id?.kind === 'string' ? deck.limits?.find((one) => one.id === id.value) : undefined;
    return limit === undefined || isFact(limit) ? null : said(limit);
  };
  const first = (trees: readonly Tree[], met: readonly string[]): Said | null => {
    for (const one of trees) {
      const found = of(one, met);
      if (found !== null) return found;
    }
    return null;
  };
  function of(one: Tree, met: readonly string[]): Said | null {
    switch (one.kind) {
      case 'name':
        return ofName(one.name, met);
      case 'unary':
        return one.op === '-' ? of(one.of, met) : null;
      case 'binary':
        return one.op === '+' || one.op === '-' ? first([one.left, one.right], met) : null;
      case 'choose':
        return first([one.yes, one.no], met);
      case 'call': {
        if (one.name === 'limit' || one.name === 'lookup') return ofLimit(one.args[0]);
        const unit = FUNCTIONS[one.name];
        if (unit !== undefined) return { unit };
        return KEEPING.has(one.name) ? first(one.args, met) : null;
      }
      default:
        return null;
    }
  }
  return of(tree, []);
}

const said = (one: object | undefined): Said | null => {
  const { unit, show } = (one ?? {}) as { readonly unit?: Unit; readonly show?: Show };
  return unit === undefined ? null : { unit, ...(show !== undefined && { show }) };
};
