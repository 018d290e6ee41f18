import { useEffect, useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import type { StoredDeck } from '../../model/ports.ts';
import type { Learner } from '../models/learner.ts';
import { type SeenSignature, signersOf } from '../models/trust.ts';
import { Opens } from '../parts/Opens.tsx';
import { hasPaced, PacedSetting } from '../parts/PacedSetting.tsx';
import { Revisions } from '../parts/Revisions.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Signers } from '../parts/Signers.tsx';
import { SourceList } from '../parts/SourceList.tsx';
import { courseOf, dayWords, NATURE_WORDS } from '../words.ts';

/** One deck: what is in it to read, whose it is, and whether it is practised. */
export function DeckPage(props: { readonly learner: Learner; readonly deck: string }) {
  const { learner } = props;
  const [failed, setFailed] = useState(false);
  const all = learner.decks.value.filter(({ id }) => id === props.deck);
  const stored = all.find(({ active }) => active) ?? all.at(-1);
  const practised = learner.practised.value.find((one) => one.stored.id === props.deck);
  const back = (
    <header class="top">
      <a class="button plain" href="#/decks">
        Decks
      </a>
    </header>
  );
  if (stored === undefined)
    return (
      <Sheet title="No such deck" top={back}>
        <p>This deck is not on this device.</p>
      </Sheet>
    );
  const deck = practised?.deck;
  const put = (active: boolean) => {
    setFailed(false);
    learner.setActive(stored, active).catch(() => setFailed(true));
  };
  const today = isoOfDay(learner.today());
  const read = (thing: string) => `#/read/${encodeURIComponent(stored.id)}/${encodeURIComponent(thing)}`;
  const procedures =
    practised?.resolved.views.flatMap((view) => view.procedures.map(({ procedure }) => procedure)) ?? [];
  const unique = [...new Map(procedures.map((procedure) => [procedure.id, procedure])).values()];
  return (
    <Sheet title={stored.title} top={back}>
      <p>
        <span class="mark">{NATURE_WORDS[stored.nature]}</span>
      </p>
      {deck?.about !== undefined && <p>{deck.about}</p>}
      {deck?.reviewBy !== undefined && deck.reviewBy < today && (
        <p class="note warn">
          To be reviewed by {dayWords(deck.reviewBy)}: this day is past. Ask who made it for a current edition.
        </p>
      )}
      {failed && <p class="note bad">{learner.problem.value}</p>}
      {deck !== undefined && (
        <>
          {unique.length > 0 && (
            <>
              <h2>Procedures to read</h2>
              <ul class="lines">
                {unique.map((procedure) => (
                  <li key={procedure.id}>
                    <a class="deck-link" href={read(procedure.id)}>
                      {procedure.title}
                    </a>
                  </li>
                ))}
              </ul>
            </>
          )}
          <Opens learner={learner} course={courseOf(stored.nature)} deck={stored.id} />
          {(deck.paced ?? []).length > 0 && !hasPaced(learner, courseOf(stored.nature)) && (
            <PacedSetting learner={learner} course={courseOf(stored.nature)} on="deck page" />
          )}
          {hasPaced(learner, courseOf(stored.nature)) && (deck.paced ?? []).length > 0 && (
            <>
              <h2>Paced run: the take-off in time</h2>
              <ul class="lines">
                {deck.paced?.map(({ id, title }) => (
                  <li key={id}>
                    <a class="deck-link" href={`#/paced/${encodeURIComponent(stored.id)}/${encodeURIComponent(id)}`}>
                      {title}
                    </a>
                  </li>
                ))}
              </ul>
            </>
          )}
          {(deck.limits ?? []).length + (deck.scenarios ?? []).length > 0 && (
            <>
              <h2>Limits and scenarios to read</h2>
              <ul class="lines">
                {(deck.limits ?? []).length > 0 && (
                  <li>
                    <a class="deck-link" href={read('limits')}>
                      All limits
                    </a>
                  </li>
                )}
                {(deck.scenarios ?? []).length > 0 && (
                  <li>
                    <a class="deck-link" href={read('scenarios')}>
                      All scenarios
                    </a>
                  </li>
                )}
              </ul>
            </>
          )}
          {(deck.variants ?? []).length > 0 && (
            <a class="button" href={`#/variants/${encodeURIComponent(stored.id)}`}>
              Which variants you fly
            </a>
          )}
          <h2>Where it comes from</h2>
          <dl class="facts">
            <dt>Version</dt>
            <dd>{stored.version}</dd>
            <dt>Made by</dt>
            <dd>{deck.madeBy ?? 'not said'}</dd>
            <dt>Checked by</dt>
            <dd>{deck.checkedBy ?? 'no second person'}</dd>
            <dt>Content</dt>
            <dd>
              <code>{stored.contentId.slice(0, 16)}</code>
            </dd>
          </dl>
          <SourceList sources={deck.sources} />
        </>
      )}
      <Revisions learner={learner} deck={stored.id} />
      <SignedBy key={stored.contentId} learner={learner} stored={stored} />
      <a class="button" href={`#/print/${encodeURIComponent(stored.id)}`}>
        Print
      </a>
      <a class="button" href="#/assign">
        Assign it to trainees
      </a>
      {stored.active ? (
        <button type="button" onClick={() => put(false)}>
          Set this deck aside: ask nothing of it
        </button>
      ) : (
        <>
          <p>This deck is set aside: nothing of it is asked. What you know of it is kept.</p>
          <button type="button" class="main" onClick={() => put(true)}>
            Practise it
          </button>
        </>
      )}
    </Sheet>
  );
}

/** Its signers, as the signatures in it say now. */
function SignedBy(props: { readonly learner: Learner; readonly stored: StoredDeck }) {
  const { learner, stored } = props;
  const [signers, setSigners] = useState<readonly SeenSignature[] | null>(null);
  const [shipped, setShipped] = useState(false);
  useEffect(() => {
    signersOf(learner, stored).then(setSigners, () => setSigners([]));
    learner.device.demoDecks().then(
      (demos) => setShipped(demos.some(({ contentId }) => contentId === stored.contentId)),
      () => undefined,
    );
  }, [learner, stored]);
  if (signers === null) return null;
  if (signers.length > 0) return <Signers signatures={signers} />;
  return (
    <p class="small soft">
      {shipped ? 'It came with the app and is not signed.' : 'Not signed: nothing proves who made it.'}
    </p>
  );
}
