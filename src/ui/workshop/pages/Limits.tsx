import { useState } from 'preact/hooks';
import { blankLimit, lengthAt } from '../../../draft/blank.ts';
import { apply, type Change, insert, put, valueAt } from '../../../draft/change.ts';
import { type LimitLine, readLimitLine } from '../../../draft/paste/limit-line.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { plural } from '../../words.ts';
import type { DraftModel } from '../model/draft.ts';
import { thingTitle } from '../titles.ts';

const LIST = '/limits';

/** Limits in the order of the lines; each is given a name of its own. */
const added = (doc: Json, lines: readonly LimitLine[]): Change[] => {
  const changes: Change[] = Array.isArray(valueAt(doc, LIST)) ? [] : [put(doc, LIST, [])];
  let now = apply(doc, changes);
  for (const line of lines) {
    const change = insert(LIST, lengthAt(now, LIST), blankLimit(now, line));
    changes.push(change);
    now = apply(now, [change]);
  }
  return changes;
};

/** All limits at a glance, and several at once, a line each. */
export function Limits({ draft }: { readonly draft: DraftModel }) {
  // Kept with the draft until it is taken.
  const kept = draft.side.value[LIST];
  const text = typeof kept === 'string' ? kept : '';
  const setText = (next: string) => draft.putSide(LIST, next === '' ? undefined : next);
  const [said, setSaid] = useState('');
  const limits = draft.at(LIST);
  const take = () => {
    const lines = text.split(/\r\n|\r|\n/).filter((line) => line.trim() !== '');
    const read = lines.map((line) => ({ line, limit: readLimitLine(line) }));
    const found = read.flatMap(({ limit }) => limit ?? []);
    const left = read.flatMap(({ line, limit }) => (limit === null ? [line] : []));
    // What could not be read is the author's to word otherwise; taken back, all lines come again.
    const value = left.length === 0 ? undefined : left.join('\n');
    const label = `${plural(found.length, 'limit')} added`;
    if (found.length > 0) draft.change(label, added(draft.value.peek(), found), { side: LIST, value });
    setSaid(
      [
        found.length > 0 ? `${plural(found.length, 'limit')} added.` : '',
        left.length > 0
          ? `${plural(left.length, 'line')} could not be read: a question, a colon, the value and its unit.`
          : '',
      ]
        .filter((part) => part !== '')
        .join(' '),
    );
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
            <p class="small soft">{valueWords(limit)}</p>
          </li>
        ))}
      </ul>
    </>
  );
}

/** "at least 200 ft AAL", as far as it is written. */
const valueWords = (limit: Json): string => {
  const at = (key: string): string => {
    const one = valueAt(limit, `/${key}`);
    return typeof one === 'string' || typeof one === 'number' ? String(one) : '';
  };
  const cases = lengthAt(limit, '/cases');
  if (cases > 0) return plural(cases, 'case');
  if (valueAt(limit, '/table') !== undefined) return 'A table';
  if (valueAt(limit, '/options') !== undefined) return String(valueAt(limit, `/options/${at('is')}`) ?? '');
  const value = at('sense') === 'from-to' ? `${at('from')}–${at('to')}` : `${at('sense')} ${at('value')}`;
  return [value, at('unit'), at('reference')].filter((part) => part !== '').join(' ');
};
