import { useRef, useState } from 'preact/hooks';
import { apply, type Change, put, valueAt } from '../../../draft/change.ts';
import { makeBlock, makeBranch, makeElse, type Span } from '../../../draft/lanes.ts';
import { newCondition } from '../../../draft/new-condition.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isMembers } from '../../../lib/json.ts';
import { plural } from '../../words.ts';
import { DraftContext } from '../fields/editing.ts';
import { Field } from '../fields/Field.tsx';
import type { LineModel } from './line-model.ts';
import { circumstances } from './words.ts';

/** Choices of the list that are no formula: none of them can be read as one. */
const ALWAYS = '';
const NEW = '+';
const FORMULA = '=';

const squeezed = (formula: string): string => formula.replaceAll(/\s+(?=(?:[^"]*"[^"]*")*[^"]*$)/g, '');

/**
 * In which circumstances a step or block holds, chosen in words; and what is done otherwise. Of several neighbours
 * that are marked, what is chosen holds for a block of them.
 */
export function OnlyIf(props: { readonly line: LineModel; readonly path: string; readonly span: Span }) {
  const { line, path, span } = props;
  const doc = line.draft.value.value;
  const node = valueAt(doc, path);
  const count = span.to - span.from + 1;
  const [chosen, setChosen] = useState<string | null>(null);
  const select = useRef<HTMLSelectElement>(null);
  if (!isMembers(node)) return null;
  const all = circumstances(doc);
  const written = count === 1 ? node.if : undefined;
  const known = all.find(({ formula }) => typeof written === 'string' && squeezed(formula) === squeezed(written));
  const there = written === undefined ? ALWAYS : (known?.formula ?? FORMULA);
  // What is chosen and not yet done; else what is written.
  const value = chosen ?? there;
  const now = () => line.draft.value.peek();
  /** Holds for what is marked. @param first what comes to the deck with it */
  const hold = (formula: string, branch: boolean, first: readonly Change[] = []) => {
    const with_ = apply(now(), first);
    const made =
      count > 1
        ? branch
          ? makeBranch(with_, span, formula)
          : makeBlock(with_, span, { if: formula })
        : [put(with_, `${path}/if`, formula)];
    setChosen(null);
    // What is taken back is shown where it was done: in the line.
    line.act(branch ? 'Branch' : 'Condition', [...made, ...first], `${span.list}/${span.from}`);
  };
  const choose = (to: string) => {
    if (count > 1 || to === NEW || to === FORMULA) return setChosen(to === there ? null : to);
    setChosen(null);
    line.draft.put(`${path}/if`, to === ALWAYS ? undefined : to, 'Condition');
  };
  const otherwise = () => {
    if (value === ALWAYS || value === NEW) {
      line.said.value = 'Choose first when it holds.';
      select.current?.focus();
    } else if (count > 1) hold(value, true);
    else line.act('Branch', makeElse(now(), path), `${span.list}/${span.from + 1}/steps/0`, 'form');
  };
  return (
    <div class="stack">
      <label class="field">
        <span>Only if{count > 1 && ` (these ${plural(count, 'step')})`}</span>
        <select
          ref={select}
          data-tool="only-if"
          data-group={`${path}/if`}
          value={value}
          onChange={(event) => choose(event.currentTarget.value)}
        >
          <option value={ALWAYS}>{count > 1 ? 'Choose …' : 'Always'}</option>
          {all.map(({ formula, words }) => (
            <option key={formula} value={formula}>
              {words}
            </option>
          ))}
          <option value={NEW}>A new condition …</option>
          {count === 1 && <option value={FORMULA}>As a formula</option>}
        </select>
      </label>
      {value === NEW && <NewCondition doc={doc} onNew={(id, first) => hold(id, false, first)} />}
      {value === FORMULA && count === 1 && (
        <DraftContext.Provider value={line.draft}>
          <Field spec={AS_FORMULA} path={`${path}/if`} />
        </DraftContext.Provider>
      )}
      <div class="row">
        {count > 1 && value !== ALWAYS && value !== NEW && (
          <button type="button" onClick={() => hold(value, false)}>
            Only then
          </button>
        )}
        <button type="button" onClick={otherwise}>
          A branch: otherwise …
        </button>
      </div>
    </div>
  );
}

const AS_FORMULA = {
  label: 'As a formula',
  help: 'With the names of conditions: engineOut && flapLever == "one".',
  kind: { is: 'formula' },
} as const;

/** Two sentences make a condition of the deck. */
function NewCondition(props: { readonly doc: Json; readonly onNew: (id: string, changes: readonly Change[]) => void }) {
  const [yes, setYes] = useState('');
  const [no, setNo] = useState('');
  const missing = yes.trim() === '' || no.trim() === '';
  const { id, changes } = newCondition(props.doc, yes, no);
  return (
    <fieldset class="stack" aria-label="A new condition">
      <label class="field">
        <span>
          Told when it is so <span class="small soft">Such as “Engine failure after V1”.</span>
        </span>
        <input type="text" value={yes} onInput={(event) => setYes(event.currentTarget.value)} />
      </label>
      <label class="field">
        <span>
          Told when it is not <span class="small soft">Such as “Both engines run”.</span>
        </span>
        <input type="text" value={no} onInput={(event) => setNo(event.currentTarget.value)} />
      </label>
      <div class="row">
        <button type="button" disabled={missing || changes.length === 0} onClick={() => props.onNew(id, changes)}>
          Add it: only when it is so
        </button>
      </div>
    </fieldset>
  );
}
