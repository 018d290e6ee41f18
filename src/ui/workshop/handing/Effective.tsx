import { useRef } from 'preact/hooks';
import { valueAt } from '../../../draft/change.ts';
import type { Deck } from '../../../model/deck.ts';
import { dayWords } from '../../words.ts';
import type { DraftModel } from '../model/draft.ts';
import { focusSoon } from './focus.ts';

/** An answer is another one than before: from when? By that day the older answers are told apart, and asked until then. */
export function Effective(props: {
  readonly draft: DraftModel;
  readonly before: Pick<Deck, 'version' | 'effective'>;
  /** ISO. */
  readonly today: string;
}) {
  const { draft, before, today } = props;
  const field = useRef<HTMLInputElement>(null);
  const own = valueAt(draft.value.value, '/effective');
  const written = typeof own === 'string' ? own : '';
  const isOld = before.effective !== undefined && written <= before.effective;
  const set = (date: string) => draft.put('/effective', date === '' ? undefined : date, 'Effective date');
  return (
    <div class="stack">
      <h3 id="from-when">From when does the new answer hold?</h3>
      {isOld && (
        <p class="note warn">
          Version {before.version} holds from {dayWords(before.effective ?? '', 0)}, and this one{' '}
          {written === '' ? 'names no day' : written === before.effective ? 'from the same day' : 'from an earlier one'}
          : nobody could tell until when the old answer was right.
        </p>
      )}
      <div class="row">
        <input
          ref={field}
          type="date"
          aria-labelledby="from-when"
          data-path="/effective"
          value={written}
          onInput={(event) => set(event.currentTarget.value)}
        />
        {written !== today && (before.effective ?? '') < today && (
          <button
            type="button"
            onClick={() => {
              set(today);
              focusSoon(field);
            }}
          >
            From today, {dayWords(today)}
          </button>
        )}
      </div>
    </div>
  );
}
