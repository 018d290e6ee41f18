import type { Unit } from '../../model/deck.ts';
import { at } from '../../subjects/finding.ts';
import type { Saying } from './field-words.ts';
import { type Field, plainFields } from './fields.ts';
import type { Part, Put } from './parts.ts';

/** What a deck says of itself: its own data, sources, variants, crew, the day, conditions. */
export function headParts(s: Saying, put: Put): void {
  const { deck } = s;
  const none = { parent: null, of: 'head', variants: '', says: '' } as const;
  put({ ...none, key: 'deck', path: '', label: '', fields: plainFields(s, deck, '', { head: true }) });
  const list = (key: string, kind: string, of: readonly Headed[] = []): void =>
    of.forEach((one, i) => {
      const path = at('', key, i);
      const fields = plainFields(s, one, path, { head: true, ...(one.unit && { unit: one.unit }) });
      const words = one.title ?? one.label ?? one.id;
      const part: Part = { ...none, key: `${key} ${one.id}`, path, label: `${kind}: ${words}`, says: words, fields };
      put(part);
      for (const [option, text] of Object.entries(one.options ?? {})) {
        const here = at(path, 'options', option);
        const field: Field = { name: 'label', raw: text, words: text, path: here, items: [] };
        put({
          key: `${part.key} ${option}`,
          parent: part.key,
          path: here,
          label: `${kind}, ${words}: ${text}`,
          says: text,
          of: key === 'variants' ? 'option' : 'head',
          variants: key === 'variants' ? text : '',
          fields: new Map([['label', field]]),
        });
      }
    });
  list('sources', 'Source', deck.sources);
  list('variants', 'Variant', deck.variants);
  list('crew', 'Crew', deck.crew);
  list('day', 'Value of the day', deck.day);
  list('conditions', 'Condition', deck.conditions);
}

/** What the lists at the head of a deck hold. */
interface Headed {
  readonly id: string;
  readonly title?: string;
  readonly label?: string;
  readonly unit?: Unit;
  readonly options?: Readonly<Record<string, string>>;
}
