import { isFact } from '../../model/deck.ts';
import type { About, Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { seatsOf } from '../crew/seats.ts';
import { costOf } from '../limit/offers.ts';
import { limitIn, wants } from '../look-up.ts';
import { type CrewPair, crewPairs, keysOf, type LimitPair, limitPairs } from './asked.ts';
import { type Pair, pairsOf, wayOf } from './pairs.ts';

/** s: to read what is asked of both and the verdict, and per row. First estimates; pace is measured. */
const SECONDS = { scene: 8, row: 5 };

/** What changes from one option of an axis to another: limits, facts, and who does a step. */
export function* differenceOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<string>();
  const isNew = (keys: readonly ItemKey[]): boolean => seen.size < seen.add(keys.join(' ')).size;
  for (const pair of pairsOf(resolved)) {
    for (const one of eachOf(resolved, pair)) {
      const keys = keysOf(one);
      // Equal keys: one answer for both.
      if (new Set(keys).size === 2 && wants(wanted, keys) && isNew(keys)) yield offerOf(resolved, pair, one, keys);
    }
    yield null;
  }
}

function* eachOf(resolved: Resolved, pair: Pair): Generator<LimitPair | CrewPair> {
  for (const { limit } of pair.first.limits) yield* limitPairs(pair, limit.id);
  for (const { procedure } of pair.first.procedures) yield* crewPairs(resolved, pair, procedure.id);
}

const aboutOf = (pair: Pair, one: LimitPair | CrewPair): About =>
  one.kind === 'limit'
    ? { thing: one.limit.id, case: one.cases[0].id, way: wayOf(pair) }
    : {
        thing: one.asked[0].p.procedure.id,
        situation: one.asked[0].situation.id,
        part: [one.steps[0].step.id],
        way: wayOf(pair),
      };

/** Chance to guess one of them, 0..1. */
const guessOf = (resolved: Resolved, { first }: Pair, one: LimitPair | CrewPair): number => {
  if (one.kind === 'crew') return 1 / seatsOf(resolved).length;
  if (isFact(one.limit)) return 1 / Object.keys(one.limit.options).length;
  const limit = limitIn(first, one.limit.id);
  return limit === undefined ? 0 : costOf(limit, one.cases[0]).g;
};

const offerOf = (resolved: Resolved, pair: Pair, one: LimitPair | CrewPair, proves: readonly ItemKey[]): Offer => ({
  form: 'difference',
  about: aboutOf(pair, one),
  variant: pair.first.id,
  proves,
  g: guessOf(resolved, pair, one),
  seconds: SECONDS.scene + SECONDS.row * 2,
  rows: 2,
  ease: 0.15,
  confusable: [],
  needs: 'right-once',
});
