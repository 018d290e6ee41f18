import type { Change } from '../../../draft/change.ts';
import { makeBlock, makeLanes, makeTogether } from '../../../draft/lanes.ts';
import { lettingGo } from '../../../draft/letting-go.ts';
import { plural } from '../../words.ts';
import { LET_GO, type LineModel, spanOf } from './line-model.ts';

/** Neighbours made into lanes or a block. */
export function Group(props: { readonly line: LineModel; readonly path: string }) {
  const { line, path } = props;
  const doc = line.draft.value.value;
  const marked = spanOf(line, path);
  if (marked === null) return null;
  const { span, most } = marked;
  const count = span.to - span.from + 1;
  const here = `${span.list}/${span.from}`;
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
      </div>
    </details>
  );
}
