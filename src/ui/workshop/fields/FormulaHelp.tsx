import { put } from '../../../draft/change.ts';
import { Folded } from '../../parts/Later.tsx';
import { Compare } from './Compare.tsx';
import { domId, useDraft, useOf } from './editing.ts';
import {
  comparedChoices,
  FUNCTION_OFFERS,
  formulaHelp,
  type FormulaHelp as Help,
  isCondition,
  type Offer,
  putIn,
} from './formula-help.ts';
import type { FieldProps } from './Plain.tsx';

/** What can be written in a formula, each put in where the cursor was. */
export function FormulaHelp(props: FieldProps) {
  return <Folded summary="What can be written here">{() => <Offers {...props} />}</Folded>;
}

function Offers({ spec, path }: FieldProps) {
  const draft = useDraft();
  const text = useOf((one) => JSON.stringify(formulaHelp(one.value.value, path)), `formula ${path}`);
  const { values, limits, tables } = JSON.parse(text) as Help;
  const insert = (offer: Offer) => {
    const box = document.getElementById(domId(path));
    const value = draft.at(path);
    const whole = typeof value === 'string' ? value : '';
    const typed = box instanceof HTMLTextAreaElement;
    const next = putIn(
      whole,
      typed ? box.selectionStart : whole.length,
      typed ? box.selectionEnd : whole.length,
      offer,
    );
    draft.change(spec.label, [put(draft.value.peek(), path, next.text)]);
    requestAnimationFrame(() => {
      if (!typed) return;
      box.focus();
      box.setSelectionRange(next.from, next.to);
    });
  };
  const groups: readonly (readonly [string, readonly Offer[]])[] = [
    ['Values', values.filter(({ kind }) => kind !== 'string').map(({ name, words }) => ({ text: name, words }))],
    ['Events and choices', values.flatMap(comparedChoices)],
    ['Limits and tables', [...limits, ...tables]],
  ];
  const list = (label: string, offers: readonly Offer[]) => (
    <ul class="lines" aria-label={label}>
      {offers.map((offer) => (
        <li key={offer.text} class="row">
          <button type="button" class="formula" onClick={() => insert(offer)}>
            {offer.text}
          </button>
          <span class="small">{offer.words}</span>
        </li>
      ))}
    </ul>
  );
  return (
    <div class="stack">
      {isCondition(path) && <Compare path={path} label={spec.label} values={values} limits={limits} />}
      {groups.map(
        ([label, offers]) =>
          offers.length > 0 && (
            <div key={label}>
              <p class="small soft">{label}</p>
              {list(label, offers)}
            </div>
          ),
      )}
      <Folded summary="Functions">{() => list('Functions', FUNCTION_OFFERS)}</Folded>
      <p class="small soft">
        Signs: + - * /, in brackets as needed; &gt; above, &gt;= at least, &lt; below, &lt;= at most, == is, != is not;
        &amp;&amp; and, || or, ! not.
      </p>
    </div>
  );
}
