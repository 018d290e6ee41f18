/** What is wrong with a question, in the learner's own words, for its author. */
export function QueryForm(props: {
  /** Kept by the caller: what was typed is there again after "Never mind". */
  readonly note: string;
  readonly onNote: (note: string) => void;
  readonly disabled: boolean;
  readonly onBack: () => void;
  readonly onQuery: () => void;
}) {
  const { note, onNote, disabled, onBack, onQuery } = props;
  return (
    <>
      <label class="field">
        What is wrong with this question?
        <textarea rows={3} maxLength={1000} value={note} onInput={(event) => onNote(event.currentTarget.value)} />
      </label>
      <div class="row even">
        <button type="button" onClick={onBack}>
          Never mind
        </button>
        <button type="button" class="main" disabled={disabled} onClick={onQuery}>
          Query it
        </button>
      </div>
    </>
  );
}
