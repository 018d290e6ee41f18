import { useState } from 'preact/hooks';
import { lengthAt } from '../../../draft/blank.ts';
import { valueAt } from '../../../draft/change.ts';
import { addLimits, readLimitLines } from '../../../draft/paste/limit-lines.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { plural } from '../../words.ts';
import { caseWords } from '../forms/case-words.ts';
import type { DraftModel } from '../model/draft.ts';
import { thingTitle } from '../titles.ts';
import { takenWords } from './limit-words.ts';

const LIST = '/limits';

/** All limits at a glance, and several at once, a line each. */
export function Limits({ draft }: { readonly draft: DraftModel }) {
  // Kept with the draft until it is taken.
  const kept = draft.side.value[LIST];
  const text = typeof kept === 'string' ? kept : '';
  const setText = (next: string) => draft.putSide(LIST, next === '' ? undefined : next);
  const [said, setSaid] = useState('');
  const limits = draft.at(LIST);
  const take = () => {
    const read = readLimitLines(text);
    const { limits: found, left } = read;
    // What could not be read is the author's to word otherwise; taken back, all lines come again.
    const value = left.length === 0 ? undefined : left.join('\n');
    const label = `${plural(found.length, 'limit')} added`;
    if (found.length > 0) draft.change(label, addLimits(draft.value.peek(), found), { side: LIST, value });
    setSaid(takenWords(read));
  };
  return (
    <>
      <label class="field">
        Limit after limit, a line each
        <textarea rows={4} value={text} onInput={(event) => setText(event.currentTarget.value)} />
      </label>
      <p class="small soft">
        “Lowest height to engage the autopilot: at least 200 ft AAL”. Also at most, below, above, about, and 60–95 °C.
        Cases, reasons and slips are added afterwards.
      </p>
      <div class="row">
        <button type="button" class="main" disabled={text.trim() === ''} onClick={take}>
          Add them
        </button>
      </div>
      <p role="status">{said}</p>
      <ul class="lines">
        {(Array.isArray(limits) ? (limits as readonly Json[]) : []).map((limit, i) => (
          <li key={String(valueAt(limit, '/id') ?? i)}>
            <a class="deck-link" href={`#/workshop/${draft.id}/limits/${i}`}>
              {thingTitle(limit)}
            </a>
            <p class="small soft">{valueWords(draft.value.value, `${LIST}/${i}`)}</p>
          </li>
        ))}
      </ul>
    </>
  );
}

/** "at least 200 ft AAL", "TK-11: 71 % N1; TK-14: 74 % N1", as far as it is written. */
const valueWords = (doc: Json, path: string): string => {
  const limit = valueAt(doc, path) ?? null;
  const at = (key: string): string => {
    const one = valueAt(limit, `/${key}`);
    return typeof one === 'string' || typeof one === 'number' ? String(one) : '';
  };
  const cases = lengthAt(limit, '/cases');
  const each = Array.from({ length: cases }, (_, i) => caseWords(doc, `${path}/cases/${i}`));
  if (cases > 0) return each.join('; ');
  if (valueAt(limit, '/table') !== undefined) return 'A table';
  if (valueAt(limit, '/options') !== undefined) return String(valueAt(limit, `/options/${at('is')}`) ?? '');
  const value = at('sense') === 'from-to' ? `${at('from')}–${at('to')}` : `${at('sense')} ${at('value')}`;
  return [value, at('unit'), at('reference')].filter((part) => part !== '').join(' ');
};
