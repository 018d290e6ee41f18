import { useId } from 'preact/hooks';
import { valueAt } from '../../../draft/change.ts';
import type { Deck } from '../../../model/deck.ts';
import type { DraftModel } from '../model/draft.ts';

/** What changed and why, in the author's words; that of the version before stays to be read beside it. */
export function Note(props: {
  readonly draft: DraftModel;
  readonly before: Pick<Deck, 'version' | 'amendment'>;
  /** Something changed that a note is wanted for. */
  readonly changed: boolean;
}) {
  const { draft, before } = props;
  const id = useId();
  const own = valueAt(draft.value.value, '/amendment');
  const written = typeof own === 'string' ? own : '';
  const put = (text: string) => draft.put('/amendment', text || undefined, 'Note for the learner');
  const old = before.amendment;
  return (
    <>
      <label class="field">
        Note for the learner
        <textarea
          rows={3}
          data-path="/amendment"
          aria-describedby={id}
          value={written}
          onInput={(event) => put(event.currentTarget.value)}
        />
      </label>
      <p class="small soft" id={id}>
        What changed and why, in a sentence or two. It is shown before the first question after the change.
        {props.changed && written.trim() === '' && ' Nothing is written yet.'}
      </p>
      {old !== undefined &&
        (written === old ? (
          props.changed && (
            <div class="note warn stack">
              <p>This is the note of version {before.version}, word for word: it does not say what changed since.</p>
              <button type="button" onClick={() => put('')}>
                Begin a new note
              </button>
            </div>
          )
        ) : (
          <div class="small soft">
            <p>Note of version {before.version}:</p>
            <blockquote class="note" dir="auto">
              {old}
            </blockquote>
          </div>
        ))}
    </>
  );
}
