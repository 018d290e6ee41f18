import type { Json } from '../lib/canonical-json.ts';
import { isList } from '../lib/json.ts';
import { type Change, insert, put, valueAt } from './change.ts';
import { mintName, namesIn } from './mint-name.ts';

/**
 * A yes/no condition of the deck from its two sentences; its name for formulas is made of the first.
 * @returns no changes where the draft's conditions are no list
 */
export const newCondition = (
  doc: Json,
  yes: string,
  no: string,
): { readonly id: string; readonly changes: readonly Change[] } => {
  const id = mintName(yes, namesIn(doc), 'condition');
  const condition: Json = { id, label: yes.trim(), yes: yes.trim(), no: no.trim() };
  const there = valueAt(doc, '/conditions');
  if (isList(there)) return { id, changes: [insert('/conditions', there.length, condition)] };
  return { id, changes: there === undefined ? [put(doc, '/conditions', [condition])] : [] };
};
