import { useEffect, useState } from 'preact/hooks';
import { compareDecks } from '../../deck/compare/compare.ts';
import type { Comparison, Difference } from '../../deck/compare/types.ts';
import { weightiestFirst } from '../../deck/compare/weight.ts';
import type { Deck } from '../../model/deck.ts';
import { plural } from '../words.ts';
import { Text } from './Text.tsx';

interface Kind {
  readonly title: string;
  readonly of: (one: Difference) => boolean;
}

const KINDS: readonly Kind[] = [
  { title: 'Other answers', of: ({ kind }) => kind === 'answer' },
  { title: 'New', of: ({ kind }) => kind === 'added' },
  { title: 'No longer asked', of: ({ kind }) => kind === 'removed' },
];

/** Two revisions held against each other; null until that is done. */
const useComparison = (before: Deck, after: Deck): Comparison | null => {
  const [found, setFound] = useState<Comparison | null>(null);
  useEffect(() => {
    setFound(null);
    // The page is drawn first: comparing large decks takes a slow phone a moment.
    const timer = setTimeout(() => setFound(compareDecks(before, after)));
    return () => clearTimeout(timer);
  }, [before, after]);
  return found;
};

function Comparing() {
  return <p role="status">Comparing the two versions …</p>;
}

interface Compared {
  readonly before: Deck;
  readonly after: Deck;
}

/** The same in a line, the rest behind a tap. */
export function ChangesInShort({ before, after }: Compared) {
  const found = useComparison(before, after);
  if (found === null) return <Comparing />;
  const said = KINDS.flatMap(({ title, of }) => {
    const all = found.differences.filter(of);
    const critical = all.filter((one) => one.critical && one.because === undefined).length;
    return all.length === 0 ? [] : [`${title}: ${all.length}${critical > 0 ? `, ${critical} critical` : ''}.`];
  });
  return (
    <details>
      <summary class="button">
        {said.length === 0 ? 'No answer changes.' : said.join(' ')} {found.differences.length > 0 && 'See what changes'}
      </summary>
      <div class="note stack">
        <Found found={found} />
      </div>
    </details>
  );
}

/** What differs between two revisions, the old value beside the new one; other words of the same answers folded away. */
export function Changes({ before, after }: Compared) {
  const found = useComparison(before, after);
  return found === null ? <Comparing /> : <Found found={found} />;
}

function Found({ found }: { readonly found: Comparison }) {
  const groups = KINDS.map(({ title, of }) => ({ title, list: found.differences.filter(of) }));
  const rest = found.differences.filter((one) => !KINDS.some(({ of }) => of(one)));
  return (
    <>
      {groups.every(({ list }) => list.length === 0) && <p>No answer has changed.</p>}
      {groups.map(
        ({ title, list }) =>
          list.length > 0 && (
            <section class="stack" key={title}>
              <h2>
                {title} ({list.length})
              </h2>
              <List list={list} />
            </section>
          ),
      )}
      {rest.length > 0 && (
        <details>
          <summary class="button">
            {plural(rest.length, 'change')} that {rest.length === 1 ? 'leaves' : 'leave'} the answers as they were
          </summary>
          <List list={rest} />
        </details>
      )}
      {!found.whole && (
        <p class="soft small">The deck has more combinations of variants than were compared: there may be more.</p>
      )}
    </>
  );
}

function List(props: { readonly list: readonly Difference[] }) {
  return (
    <ul class="lines">
      {weightiestFirst(props.list).map((one) => (
        <li key={`${one.gone} ${one.path} ${one.what} ${one.variants}`}>
          <p>
            {one.critical && <span class="mark">critical</span>}{' '}
            <strong>{one.thing === '' ? 'The deck' : <Text text={one.thing} />}</strong>
            <span class="soft small">
              {one.what !== '' && ` · ${one.what}`}
              {one.variants !== '' && ` · ${one.variants}`}
            </span>
          </p>
          {one.old !== '' && (
            <p>
              <span class="soft small">Was </span>
              {one.now === '' ? <Text text={one.old} /> : <s>{<Text text={one.old} />}</s>}
            </p>
          )}
          {one.now !== '' && (
            <p>
              {one.old !== '' && <span class="soft small">Now </span>}
              <Text text={one.now} />
            </p>
          )}
          {one.because !== undefined && (
            <p class="soft small">
              Because of: <Text text={one.because} />
            </p>
          )}
        </li>
      ))}
    </ul>
  );
}
