import { valueAt } from '../../../draft/change.ts';
import { NATURE_WORDS } from '../../words.ts';
import { FindingsSummary } from '../findings/FindingsSummary.tsx';
import type { PageProps } from '../PageOf.tsx';
import { installedSince, isSame, markOf } from '../revisions.ts';

const DOORS = [
  { page: 'try', words: 'Try it as a learner would' },
  { page: 'compare', words: 'Compare versions' },
  { page: 'revision', words: 'Revision sheet: the manual has changed' },
  { page: 'print', words: 'Print' },
] as const;

/** The draft as a whole, and what is to be mended in it. */
export function Overview({ learner, draft, live }: PageProps) {
  const value = draft.value.value;
  const since = installedSince(learner.decks.value, draft);
  const nature = valueAt(value, '/nature');
  return (
    <>
      <p>
        {typeof nature === 'string' && nature in NATURE_WORDS && (
          <span class="mark">{NATURE_WORDS[nature as keyof typeof NATURE_WORDS]}</span>
        )}{' '}
        Version {String(valueAt(value, '/version') ?? '?')}
      </p>
      {since !== null && !isSame(since, value) && (
        <p class="note">
          Version {since.version} was installed since this draft began:{' '}
          <a href={`#/workshop/${draft.id}/compare/${markOf(since)}`}>compare</a>
        </p>
      )}
      <FindingsSummary draft={draft} live={live} />
    </>
  );
}

/** What can be done with the draft as a whole; behind its contents on a phone, below what is to be mended elsewhere. */
export function Doors({ draft }: Pick<PageProps, 'draft'>) {
  return (
    <nav class="doors stack" aria-label="The draft as a whole">
      <a class="button main wide" href={`#/workshop/${draft.id}/hand-over`}>
        Hand over
      </a>
      <ul class="lines">
        {DOORS.map(({ page, words }) => (
          <li key={page}>
            <a class="deck-link" href={`#/workshop/${draft.id}/${page}`}>
              {words}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}
