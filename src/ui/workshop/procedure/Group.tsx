import { useState } from 'preact/hooks';
import { type Change, valueAt } from '../../../draft/change.ts';
import { makeBlock, makeBranch, makeLanes, makeTogether, type Span } from '../../../draft/lanes.ts';
import { lettingGo } from '../../../draft/letting-go.ts';
import { isList, placeOf, textOf } from '../../../draft/nodes.ts';
import { plural } from '../../words.ts';
import { LET_GO, type LineModel } from './line-model.ts';

/** Neighbours made into lanes, a block, one side of a branch. */
export function Group(props: { readonly line: LineModel; readonly path: string }) {
  const { line, path } = props;
  const doc = line.draft.value.value;
  const place = placeOf(path);
  const list = place === null ? undefined : valueAt(doc, place.list);
  if (place === null || !isList(list)) return null;
  const most = list.length - place.index;
  const count = Math.min(line.marked.value, most);
  const span: Span = { list: place.list, from: place.index, to: place.index + count - 1 };
  const here = `${place.list}/${place.index}`;
  const now = () => line.draft.value.peek();
  /** Any order is right: one that was confirmed before no longer is. */
  const free = (label: string, made: readonly Change[]) => {
    const { changes, letGo } = lettingGo(now(), line.procedure, made, 'free');
    line.act(letGo === 0 ? label : `${label}. ${LET_GO}`, changes, here);
  };
  const byCrew = makeLanes(doc, span, 'crew').length > 0;
  return (
    <details class="group-tools">
      <summary class="button">With its neighbours …</summary>
      <div class="stack">
        <fieldset class="row" aria-label="Neighbours that are marked">
          <button
            type="button"
            aria-label="One less"
            aria-disabled={count <= 1}
            onClick={() => {
              line.marked.value = Math.max(1, count - 1);
            }}
          >
            −
          </button>
          <span aria-live="polite">{count === 1 ? 'This one alone' : `${count} one after the other`}</span>
          <button
            type="button"
            aria-label="One more"
            aria-disabled={count >= most}
            onClick={() => {
              line.marked.value = Math.min(most, count + 1);
            }}
          >
            +
          </button>
        </fieldset>
        {count === 1 && most > 1 && <p class="small soft">Take more of those that follow with +.</p>}
        {count > 1 && (
          <div class="row">
            <button type="button" onClick={() => free('Any order', makeLanes(now(), span, 'each'))}>
              May be done in any order
            </button>
            {byCrew && (
              <button type="button" onClick={() => line.act('Side by side', makeLanes(now(), span, 'crew'), here)}>
                Side by side, each pilot’s own
              </button>
            )}
            <button type="button" onClick={() => free('Together', makeTogether(now(), span))}>
              Together, at once
            </button>
          </div>
        )}
        <div class="row">
          <button type="button" onClick={() => line.act('Block', makeBlock(now(), span), here)}>
            {count === 1 ? 'A block of it' : `A block of these ${plural(count, 'step')}`}
          </button>
        </div>
        <Branch line={line} span={span} />
      </div>
    </details>
  );
}

/** @param props.span what is done where the condition holds */
function Branch(props: { readonly line: LineModel; readonly span: Span }) {
  const { line, span } = props;
  const conditions = valueAt(line.draft.value.value, '/conditions');
  const known = (isList(conditions) ? conditions : []).filter((one) => textOf(one, 'yes') !== '');
  const [typed, setTyped] = useState<string | null>(null);
  const formula = (typed ?? textOf(known[0], 'id')).trim();
  const here = `${span.list}/${span.from}`;
  const now = () => line.draft.value.peek();
  const hint = formula === '' ? 'Write in which situation first.' : undefined;
  return (
    <div class="stack">
      <label class="field">
        <span>Only if</span>
        <input
          type="text"
          class="formula"
          list="branch-conditions"
          autocomplete="off"
          autocapitalize="off"
          spellcheck={false}
          value={typed ?? formula}
          onInput={(event) => setTyped(event.currentTarget.value)}
        />
        <datalist id="branch-conditions">
          {known.map((one) => (
            <option key={textOf(one, 'id')} value={textOf(one, 'id')}>
              {textOf(one, 'yes')}
            </option>
          ))}
        </datalist>
      </label>
      <div class="row">
        <button
          type="button"
          onClick={() =>
            line.act('Condition', formula === '' ? [] : makeBlock(now(), span, { if: formula }), here, 'words', hint)
          }
        >
          Only then
        </button>
        <button
          type="button"
          onClick={() =>
            line.act('Branch', formula === '' ? [] : makeBranch(now(), span, formula), here, 'words', hint)
          }
        >
          A branch: else something else
        </button>
      </div>
    </div>
  );
}
