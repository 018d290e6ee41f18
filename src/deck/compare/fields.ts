import type { Json } from '../../lib/canonical-json.ts';
import type { FormulaText, Unit } from '../../model/deck.ts';
import { at } from '../../subjects/finding.ts';
import { parseFormula } from '../../subjects/formulas.ts';
import { fieldName, fieldWords, type Saying } from './field-words.ts';

export interface Field {
  readonly name: string;
  readonly raw: Json;
  readonly words: string;
  readonly path: string;
  /** Items (`thing.facet`) whose difference says what changed here. */
  readonly items: readonly string[];
  /** The words count as those items count them: by their letters alone. */
  readonly folded?: true;
  /** A sequence of ids: only the order of those that both decks have counts. */
  readonly sequence?: true;
  /** No item holds this, and yet it is what is done: a change of it is a changed answer. */
  readonly weighty?: true;
}

/** Fields that are parts of their own, or say nothing by themselves. */
const SKIPPED: ReadonlySet<string> = new Set(
  'id keeps steps lanes cases asks choose options table draw let sources variants crew day conditions procedures limits scenarios paced areas format version signatures'.split(
    ' ',
  ),
);
/** Words of a list that is read. */
const FOLDED: ReadonlySet<string> = new Set(['called', 'starts']);
/** What of a thing is done, but has no memory of its own. */
const WEIGHTY: ReadonlySet<string> = new Set(['reference', 'after', 'limit', 'rule', 'from', 'until', 'if']);

export interface Told {
  readonly items?: (key: string) => readonly string[];
  readonly unit?: Unit;
  readonly head?: boolean;
}

/** The fields of an object that are said as they stand. */
export function plainFields(
  s: Saying,
  object: object,
  path: string,
  { items, unit, head }: Told = {},
): Map<string, Field> {
  const fields = new Map<string, Field>();
  for (const [key, raw] of Object.entries(object) as [string, Json | undefined][]) {
    if (raw === undefined || SKIPPED.has(key)) continue;
    const held = items?.(key) ?? [];
    fields.set(key, {
      name: fieldName(key, head),
      // Spaces and brackets of a formula change nothing.
      raw: key === 'if' && typeof raw === 'string' ? meant(raw) : raw,
      words: fieldWords(s, key, raw, unit),
      path: at(path, key),
      items: held,
      ...((key === 'say' || (held.length > 0 && FOLDED.has(key))) && { folded: true }),
      ...(!head && held.length === 0 && WEIGHTY.has(key) && { weighty: true }),
    });
  }
  return fields;
}

export const meant = (text: FormulaText): Json => (parseFormula(text) as Json | null) ?? text;

/** Words by their id: options, events, computed values. */
export const namedFields = (
  of: Readonly<Record<string, Json>>,
  name: string,
  path: string,
  items: (id: string) => readonly string[],
  say: (raw: Json) => string = (raw) => (typeof raw === 'string' ? raw : JSON.stringify(raw)),
): [string, Field][] =>
  Object.entries(of).map(([id, raw]) => [
    `${name} ${id}`,
    {
      name: `${name} “${id}”`,
      raw,
      words: say(raw),
      path: at(path, id),
      items: items(id),
      ...(name === 'option' && { folded: true }),
    },
  ]);
