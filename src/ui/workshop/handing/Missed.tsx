import { useState } from 'preact/hooks';
import type { StoredDeck } from '../../../model/ports.ts';
import type { Learner } from '../../models/learner.ts';
import { go } from '../../route.ts';
import { beginDraft } from '../begin.ts';
import type { DraftModel } from '../model/draft.ts';
import { begunFrom, isPutAbove, markOf, putAbove } from '../revisions.ts';

/** A newer version of the deck is here that the draft does not go on from: as it is, it would take back what that one changed. */
export function Missed(props: {
  readonly learner: Learner;
  readonly draft: DraftModel;
  /** Of `missedBy`. */
  readonly missed: StoredDeck;
  /** It is already being compared. */
  readonly compared?: boolean;
}) {
  const { learner, draft, missed } = props;
  const { version } = missed;
  const from = begunFrom(learner.decks.value, draft);
  const begun =
    from !== null
      ? `from version ${from.version}`
      : draft.base.value === null
        ? 'from nothing, or from a file'
        : 'from a version that is no longer here';
  const [failed, setFailed] = useState('');
  const revise = async () => {
    setFailed('');
    try {
      go({ at: 'workshop', draft: await beginDraft(learner, missed) });
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <div class="note warn stack">
      <p>
        <strong>
          This draft was begun {begun}. Version {version}{' '}
          {missed.installed > draft.made ? 'was installed since' : 'is newer'}.
        </strong>{' '}
        What it changed is not in this draft.
      </p>
      <div class="row">
        {props.compared !== true && (
          <a class="button" href={`#/workshop/${draft.id}/compare/${markOf(missed)}`}>
            Compare with it
          </a>
        )}
        <button type="button" onClick={() => void revise()}>
          Revise version {version} instead
        </button>
      </div>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
      <label class="pick">
        <input
          type="checkbox"
          checked={isPutAbove(draft, missed)}
          onChange={(event) => putAbove(draft, event.currentTarget.checked ? missed : null)}
        />
        I have compared them: this draft is to take the place of version {version}
      </label>
    </div>
  );
}
