import { valueAt } from '../../../draft/change.ts';
import { NATURE_WORDS } from '../../words.ts';
import { FindingsSummary } from '../findings/FindingsSummary.tsx';
import type { PageProps } from '../PageOf.tsx';

const DOORS = [
  { page: 'try', words: 'Try it as a learner would' },
  { page: 'compare', words: 'Compare versions' },
  { page: 'revision', words: 'Revision sheet: the manual has changed' },
  { page: 'print', words: 'Print' },
] as const;

/** The draft as a whole: what is to be mended, and what can be done with it. The contents stand beside or above it. */
export function Overview({ draft, live }: PageProps) {
  const value = draft.value.value;
  const nature = valueAt(value, '/nature');
  return (
    <>
      <p>
        {typeof nature === 'string' && nature in NATURE_WORDS && (
          <span class="mark">{NATURE_WORDS[nature as keyof typeof NATURE_WORDS]}</span>
        )}{' '}
        Version {String(valueAt(value, '/version') ?? '?')}
      </p>
      <FindingsSummary draft={draft} live={live} />
      <ul class="lines">
        {DOORS.map(({ page, words }) => (
          <li key={page}>
            <a class="deck-link" href={`#/workshop/${draft.id}/${page}`}>
              {words}
            </a>
          </li>
        ))}
      </ul>
      <a class="button main wide" href={`#/workshop/${draft.id}/hand-over`}>
        Hand over
      </a>
    </>
  );
}
