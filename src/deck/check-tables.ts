import { isTable } from '../model/deck.ts';
import type { Checking } from '../subjects/check.ts';
import { at } from '../subjects/finding.ts';

/** Limits that something of the deck names: in a formula, or as the limit of a step, cue or wait. */
function namedIn(value: unknown, named: Set<string>, key = ''): void {
  if (typeof value === 'string') {
    if (key === 'limit') named.add(value);
    for (const [, , id] of value.matchAll(/\blookup\s*\(\s*(["'])(.*?)\1/g)) named.add(id as string);
  } else if (typeof value === 'object' && value !== null)
    // Elements of a list stand under the key of their list.
    for (const [own, one] of Object.entries(value)) namedIn(one, named, Array.isArray(value) ? key : own);
}

/** Tables that are not asked row by row and that nothing reads: nobody would ever meet them. */
export function checkTables({ deck, add }: Checking): void {
  const named = new Set<string>();
  namedIn([deck.procedures, deck.scenarios, deck.day], named);
  (deck.limits ?? []).forEach((limit, i) => {
    if (isTable(limit) && limit.asked !== true && !named.has(limit.id)) add('table-unused', at('/limits', i));
  });
}
