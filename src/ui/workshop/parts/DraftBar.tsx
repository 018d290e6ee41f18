import { useState } from 'preact/hooks';
import { go, route } from '../../route.ts';
import { leftAlone } from '../dropped.ts';
import { pageOf } from '../findings/places.ts';
import type { DraftModel } from '../model/draft.ts';

/** The way back: from a page to the draft, from the draft to all of them. */
export function DraftTop(props: { readonly draft: DraftModel; readonly page: string }) {
  const { draft, page } = props;
  const left = leftAlone.value;
  return (
    <>
      <header class="top">
        {page === '' ? (
          <a class="button plain" href="#/workshop">
            All drafts
          </a>
        ) : (
          <a class="button plain" href={`#/workshop/${draft.id}`}>
            The whole deck
          </a>
        )}
        <Kept draft={draft} />
      </header>
      {left !== null && left.at === route.value && (
        <p class="note warn" role="alert">
          {left.why}
        </p>
      )}
    </>
  );
}

function Kept({ draft }: { readonly draft: DraftModel }) {
  const state = draft.state.value;
  if (state === 'saved' || state === 'saving')
    return (
      <span class="small soft">
        {state === 'saved' ? 'Kept' : 'Keeping …'}
        <span class="hidden-visually"> on this device</span>
      </span>
    );
  return <span class="mark">Not kept</span>;
}

/** Undo and redo at the thumb, and what to do where a draft could not be kept. */
export function DraftBar(props: { readonly draft: DraftModel; readonly page: string }) {
  const { draft, page } = props;
  const state = draft.state.value;
  const [undoes, redoes] = [draft.undoes.value, draft.redoes.value];
  const [failed, setFailed] = useState('');
  const keepBoth = async () => {
    setFailed('');
    try {
      go({ at: 'workshop', draft: await draft.keepBoth() }, 'instead');
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <div class="bar">
      {typeof state === 'object' && 'problem' in state && (
        <div class="note bad stack" role="alert">
          <p>{state.problem} What you typed is still here.</p>
          <button type="button" onClick={() => draft.retry()}>
            Try to keep it again
          </button>
        </div>
      )}
      {typeof state === 'object' && 'other' in state && (
        <div class="note bad stack" role="alert">
          <p>
            {state.other === null
              ? 'This draft was removed in another tab.'
              : 'This draft was changed in another tab. Nothing of either is lost.'}
          </p>
          <div class="row">
            <button type="button" class="main" onClick={() => void keepBoth()}>
              Keep mine as a draft of its own
            </button>
            {state.other !== null && (
              <button type="button" onClick={() => location.reload()}>
                Go on with the other
              </button>
            )}
          </div>
          {failed !== '' && <p>{failed} What you typed is still here.</p>}
        </div>
      )}
      {/* With nothing to take back they stay where they are, so that the keyboard does not lose its place. */}
      <div class="row even undo-bar">
        <button type="button" aria-disabled={undoes === null} onClick={() => takeBack(draft, page)}>
          Undo{undoes !== null && <span class="small soft undoes">{undoes}</span>}
        </button>
        <button type="button" aria-disabled={redoes === null} onClick={() => takeBack(draft, page, 'redo')}>
          Redo{redoes !== null && <span class="small soft undoes">{redoes}</span>}
        </button>
      </div>
    </div>
  );
}

/** Pages about the whole draft, which show what was taken back themselves. */
const SHOWS_ALL: ReadonlySet<string | undefined> = new Set(['compare', 'revision', 'hand-over']);

/** Undoes or redoes, and shows where: on another page nobody would see what happened. */
export const takeBack = (draft: DraftModel, page: string, how: 'undo' | 'redo' = 'undo'): void => {
  const path = draft[how]();
  if (path === null || SHOWS_ALL.has(page.split('/')[0])) return;
  const there = pageOf(path);
  const isThere = draft.at(`/${there}`) !== undefined || !there.includes('/');
  if (there !== '' && there !== page && isThere) go({ at: 'workshop', draft: draft.id, page: there });
};
