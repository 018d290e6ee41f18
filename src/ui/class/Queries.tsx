import { useEffect, useState } from 'preact/hooks';
import type { ClassQuery } from '../../class/told.ts';
import { olderFirst } from '../../deck/amend.ts';
import type { Json } from '../../lib/canonical-json.ts';
import { parseItemKey } from '../../model/item.ts';
import type { StoredDraft } from '../../model/ports.ts';
import type { Learner } from '../models/learner.ts';
import { go } from '../route.ts';
import type { ClassModel, ClassView } from './model.ts';
import { pageOfPlace, placeOfThing } from './place-of-thing.ts';
import { dayIn } from './words.ts';

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
              {query.person.name}, {dayIn(view.today, query.on)}; {query.deckTitle} {query.version}
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
  const [failed, setFailed] = useState('');
  const things = query.keys.flatMap((key) => parseItemKey(key)?.thing ?? []);
  for (const draft of drafts) {
    const place = placeOfThing(draft.value as Json, query.deck, things);
    if (place !== null) {
      const page = pageOfPlace(place);
      // Where the part that finds the field cannot be had, the page itself will do.
      const open = (event: MouseEvent) => {
        if (event.ctrlKey || event.metaKey || event.shiftKey) return;
        event.preventDefault();
        workshop().then(
          ({ openPlace }) => openPlace(draft.id, place),
          () => go({ at: 'workshop', draft: draft.id, page }),
        );
      };
      return (
        <a class="button screen-only" href={`#/workshop/${draft.id}/${page}`} onClick={open}>
          Open it in your draft
        </a>
      );
    }
  }
  const newest = learner.decks.value
    .filter(({ id }) => id === query.deck)
    .sort(olderFirst)
    .at(-1);
  if (newest === undefined) return <p class="small soft">This deck is not on this device.</p>;
  const begin = async () => {
    setFailed('');
    try {
      const { beginDraft, openPlace } = await workshop();
      const draft = await beginDraft(learner, newest);
      const place = placeOfThing(JSON.parse(newest.text) as Json, query.deck, things);
      if (place === null) go({ at: 'workshop', draft });
      else openPlace(draft, place);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <>
      <button type="button" class="screen-only" onClick={() => void begin()}>
        Open it in a new draft of version {newest.version}
      </button>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
    </>
  );
}

/** Loaded by whoever goes there alone. */
const workshop = () => import('../workshop/begin.ts');
