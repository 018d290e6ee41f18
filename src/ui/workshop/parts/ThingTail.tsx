import { useState } from 'preact/hooks';
import { lengthAt } from '../../../draft/blank.ts';
import { insert, put, valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { go } from '../../route.ts';
import type { DraftModel } from '../model/draft.ts';

const WORDS: Readonly<Record<string, string>> = { procedures: 'procedure', limits: 'limit', scenarios: 'scenario' };

/** Below a procedure, limit or scenario: to try it, to put it elsewhere in the deck, to remove it. */
export function ThingTail(props: { readonly draft: DraftModel; readonly section: string; readonly index: number }) {
  const { draft, section, index } = props;
  const [said, setSaid] = useState('');
  const list = `/${section}`;
  const value = draft.value.value;
  const length = lengthAt(value, list);
  const thing = valueAt(value, `${list}/${index}`);
  const word = WORDS[section] ?? 'thing';
  if (thing === undefined) return null;
  const page = (at: number) => ({ at: 'workshop' as const, draft: draft.id, page: `${section}/${at}` });
  const move = (to: number) => {
    if (to < 0 || to >= length) return setSaid(`It stays where it is: ${index + 1} of ${length}.`);
    draft.change(`The ${word} moved`, [put(value, `${list}/${index}`, undefined), insert(list, to, thing as Json)]);
    setSaid(`Now ${to + 1} of ${length}.`);
    go(page(to), 'instead');
  };
  const remove = () => {
    draft.change(`The ${word} removed`, [put(value, `${list}/${index}`, undefined)]);
    go({ at: 'workshop', draft: draft.id }, 'instead');
  };
  return (
    <div class="stack rule">
      <a class="button" href={`#/workshop/${draft.id}/try/${encodeURIComponent(String(valueAt(thing, '/id') ?? ''))}`}>
        Try this {word}
      </a>
      {section === 'procedures' && (
        <a class="button" href={`#/workshop/${draft.id}/paste/${index}`}>
          Its steps from a list
        </a>
      )}
      <div class="row">
        <button type="button" aria-disabled={index === 0} onClick={() => move(index - 1)}>
          Earlier in the deck
        </button>
        <button type="button" aria-disabled={index >= length - 1} onClick={() => move(index + 1)}>
          Later in the deck
        </button>
      </div>
      <p class="small soft" role="status">
        {said}
      </p>
      <button type="button" class="plain" data-remove={`${list}/${index}`} onClick={remove}>
        Remove this {word}
      </button>
    </div>
  );
}
