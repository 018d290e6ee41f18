import { takeFocus } from '../take-focus.ts';

/** What is wrong with a question, in the learner's own words, for its author. */
export function QueryField(props: {
  /** Kept by the caller: what was typed is there again after "Never mind". */
  readonly note: string;
  readonly onNote: (note: string) => void;
  /** Takes the cursor: the button that opened it is gone. */
  readonly focus?: boolean;
}) {
  return (
    <label class="field">
      What is wrong with this question?
      <span class="small soft">Once queried, this answer does not count.</span>
      <textarea
        rows={3}
        maxLength={1000}
        ref={props.focus ? takeFocus : null}
        value={props.note}
        onInput={(event) => props.onNote(event.currentTarget.value)}
      />
    </label>
  );
}

/** In the place of what goes on: one filled button at a time. */
export function QueryBar(props: {
  readonly disabled: boolean;
  readonly onBack: () => void;
  readonly onQuery: () => void;
}) {
  return (
    <div class="bar">
      <div class="row even">
        <button type="button" onClick={props.onBack}>
          Never mind
        </button>
        <button type="button" class="main" disabled={props.disabled} onClick={props.onQuery}>
          Query it
        </button>
      </div>
    </div>
  );
}
