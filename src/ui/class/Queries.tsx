import { useEffect, useState } from 'preact/hooks';
import type { ClassQuery } from '../../class/told.ts';
import type { Json } from '../../lib/canonical-json.ts';
import { parseItemKey } from '../../model/item.ts';
import type { StoredDraft } from '../../model/ports.ts';
import type { Learner } from '../models/learner.ts';
import type { ClassModel, ClassView } from './model.ts';
import { pageOfThing } from './page-of-thing.ts';

/** What trainees object to, with the way to where it is put right. */
export function Queries(props: { readonly learner: Learner; readonly model: ClassModel; readonly view: ClassView }) {
  const { learner, view } = props;
  const [drafts, setDrafts] = useState<readonly StoredDraft[]>([]);
  useEffect(() => {
    learner.store.drafts.list().then(setDrafts, () => undefined);
  }, [learner]);
  if (view.queries.length === 0) return null;
  return (
    <section class="stack">
      <h2>Objections to questions</h2>
      <ul class="lines">
        {view.queries.map((query, i) => (
          <li key={i} class="stack">
            <p dir="auto">
              <strong>{query.labels.join('; ')}</strong>
            </p>
            {query.note === '' ? (
              <p class="soft">Nothing was written.</p>
            ) : (
              <blockquote class="note" dir="auto">
                {query.note}
              </blockquote>
            )}
            <p class="small soft">
              {query.person.name}, {query.on}; {query.deckTitle} {query.version}
            </p>
            <LinkOf learner={learner} query={query} drafts={drafts} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function LinkOf(props: {
  readonly learner: Learner;
  readonly query: ClassQuery;
  readonly drafts: readonly StoredDraft[];
}) {
  const { learner, query, drafts } = props;
  const things = query.keys.flatMap((key) => parseItemKey(key)?.thing ?? []);
  for (const draft of drafts) {
    const page = pageOfThing(draft.value as Json, query.deck, things);
    if (page !== null)
      return (
        <a class="button screen-only" href={`#/workshop/${draft.id}/${page}`}>
          Open it in your draft
        </a>
      );
  }
  if (learner.decks.value.some(({ id }) => id === query.deck))
    return (
      <a class="button screen-only" href={`#/deck/${encodeURIComponent(query.deck)}`}>
        To the deck
      </a>
    );
  return <p class="small soft">This deck is not on this device.</p>;
}
