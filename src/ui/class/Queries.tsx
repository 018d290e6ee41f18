import { useEffect, useRef, useState } from 'preact/hooks';
import type { ClassQuery } from '../../class/told.ts';
import { olderFirst } from '../../deck/amend.ts';
import { valueAt } from '../../draft/change.ts';
import type { Json } from '../../lib/canonical-json.ts';
import type { IsoDate } from '../../model/deck.ts';
import { parseItemKey } from '../../model/item.ts';
import type { StoredDraft } from '../../model/ports.ts';
import type { Learner } from '../models/learner.ts';
import { go } from '../route.ts';
import type { Asked } from '../workshop/asked.ts';
import type { ClassModel, ClassView } from './model.ts';
import { pageOfPlace, placeOfThing } from './place-of-thing.ts';
import { dayIn } from './words.ts';

const HEADING = 'class-queries';

/** How many wait for an answer, near the head of a long page, with the way to them. */
export function QueryCount({ view }: { readonly view: ClassView }) {
  const open = view.queries.filter(({ answered }) => answered === null).length;
  if (open === 0) return null;
  return (
    <button
      type="button"
      class="plain screen-only query-count"
      onClick={() => {
        const heading = document.getElementById(HEADING);
        heading?.focus();
        heading?.scrollIntoView();
      }}
    >
      {open === 1 ? '1 query' : `${open} queries`} to answer
    </button>
  );
}

/** What trainees queried, with the way to where it is put right; what was answered is folded away. */
export function Queries(props: { readonly learner: Learner; readonly model: ClassModel; readonly view: ClassView }) {
  const { learner, model, view } = props;
  const [drafts, setDrafts] = useState<readonly StoredDraft[]>([]);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    learner.store.drafts.list().then(setDrafts, () => undefined);
  }, [learner]);
  if (view.queries.length === 0) return null;
  const open = view.queries.filter(({ answered }) => answered === null);
  const answered = view.queries.filter((query) => query.answered !== null);
  // The line goes to the other list: the cursor would be lost with it.
  const put = (query: ClassQuery, isAnswered: boolean) =>
    void model.putAnswered(query, isAnswered).then(() => heading.current?.focus());
  return (
    <section class="stack">
      <h2 id={HEADING} tabIndex={-1} ref={heading}>
        Queries
      </h2>
      {open.length === 0 && <p>All are answered.</p>}
      <ul class="lines">
        {open.map((query, i) => (
          <li key={`${query.person.id} ${query.id} ${i}`} class="stack">
            <Said query={query} today={view.today} />
            <div class="row screen-only">
              <LinkOf learner={learner} query={query} drafts={drafts} />
              <button type="button" onClick={() => put(query, true)}>
                Answered<span class="hidden-visually">: {query.labels.join('; ')}</span>
              </button>
            </div>
            <p class="small soft screen-only">
              “Answered” is noted here alone: tell the trainee yourself, or amend the deck, which reaches them with its
              next version.
            </p>
          </li>
        ))}
      </ul>
      {answered.length > 0 && (
        <details class="screen-only">
          <summary class="button plain">Answered ({answered.length})</summary>
          <ul class="lines">
            {answered.map((query, i) => (
              <li key={`${query.person.id} ${query.id} ${i}`} class="stack">
                <Said query={query} today={view.today} />
                <p class="small soft">
                  Answered on {dayIn(view.today, query.answered ?? view.today)}, as noted on this device.
                </p>
                <div class="row">
                  <button type="button" onClick={() => put(query, false)}>
                    Open it again<span class="hidden-visually">: {query.labels.join('; ')}</span>
                  </button>
                </div>
              </li>
            ))}
          </ul>
        </details>
      )}
    </section>
  );
}

function Said({ query, today }: { readonly query: ClassQuery; readonly today: IsoDate }) {
  return (
    <>
      <p dir="auto">
        <strong>{query.labels.join('; ')}</strong>
        {query.right.length > 0 && <span class="small soft"> · right here: {query.right.join('; ')}</span>}
      </p>
      {query.note === '' ? (
        <p class="soft">Nothing was written.</p>
      ) : (
        <blockquote class="note" dir="auto">
          {query.note}
        </blockquote>
      )}
      <p class="small soft">
        {query.person.name}, {dayIn(today, query.on)}; {[...query.where, query.deckTitle].join(', ')} {query.version}
      </p>
    </>
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
          ({ openPlace }) => openPlace(draft.id, place, askedAt(draft.value as Json, draft.id, place, query)),
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
      const value = JSON.parse(newest.text) as Json;
      const place = placeOfThing(value, query.deck, things);
      if (place === null) go({ at: 'workshop', draft });
      else openPlace(draft, place, askedAt(value, draft, place, query));
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

/** What is shown at the place that is opened. */
const askedAt = (value: Json, draft: string, place: string, { person, on, note }: ClassQuery): Asked => ({
  draft,
  thing: String(valueAt(value, `${place}/id`) ?? ''),
  who: person.name,
  on,
  note,
});

/** Loaded by whoever goes there alone. */
const workshop = () => import('../workshop/begin.ts');
