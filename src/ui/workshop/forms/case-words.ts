import { valueAt } from '../../../draft/change.ts';
import { textOf } from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers } from '../../../lib/json.ts';
import type { Show, Unit } from '../../../model/deck.ts';
import { tradeForm } from '../../../model/trade-form.ts';
import { conditionOf, whenWords } from '../procedure/words.ts';

/**
 * A case of a limit in a line, as far as it is written: "TK-11: 71 % N1". Whoever looks for the one number that changed
 * finds it without unfolding them all.
 * @param path JSON Pointer of the case
 */
export const caseWords = (doc: Json, path: string): string => {
  const limit = valueAt(doc, path.replace(/\/cases\/\d+$/, ''));
  const one = valueAt(doc, path);
  if (!isMembers(limit) || !isMembers(one)) return '';
  const options = isMembers(limit.options) ? limit.options : null;
  const unit = textOf(limit, 'unit');
  const number = (value: Json | undefined): string => {
    // What is typed and no number yet.
    if (typeof value !== 'number') return typeof value === 'string' ? value : '';
    const show = textOf(limit, 'show');
    const reference = textOf(limit, 'reference');
    return tradeForm(value, unit === '' ? null : (unit as Unit), show === '' ? undefined : (show as Show), reference);
  };
  const values = limit.sense === 'from-to' ? [one.from, one.to] : [one.value];
  const value =
    options === null
      ? values
          .map(number)
          .filter((words) => words !== '')
          .join(' to ')
      : textOf(options, textOf(one, 'is')) || textOf(one, 'is');
  const held = [isMembers(one.when) ? whenWords(doc, one.when) : '', ...givenWords(doc, one.given)]
    .filter((words) => words !== '')
    .join(', ');
  return [held || 'Otherwise', value].filter((words) => words !== '').join(': ');
};

/** As a drill says them, of a deck that may not be a right one yet. */
const givenWords = (doc: Json, given: Json | undefined): string[] =>
  isMembers(given)
    ? Object.entries(given).map(([name, wanted]) => {
        const condition = conditionOf(doc, name);
        const label = textOf(condition, 'label') || name;
        if (typeof wanted === 'boolean')
          return textOf(condition, wanted ? 'yes' : 'no') || `${wanted ? '' : 'not '}${label}`;
        if (typeof wanted === 'string')
          return textOf(isMembers(condition) ? condition.options : undefined, wanted) || `${label}: ${wanted}`;
        if (!isMembers(wanted)) return label;
        const unit = textOf(condition, 'unit');
        const say = (key: 'from' | 'to'): string => {
          const bound = wanted[key];
          return typeof bound === 'number'
            ? tradeForm(bound, unit === '' ? null : (unit as Unit))
            : textOf(wanted, key);
        };
        const [from, to] = [say('from'), say('to')];
        if (from !== '' && to !== '') return `${label} from ${from} to below ${to}`;
        if (from !== '') return `${label} ${from} or more`;
        return to === '' ? label : `${label} below ${to}`;
      })
    : [];
