import { useEffect, useMemo, useState } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import type { Deck } from '../../../model/deck.ts';
import type { SignatureFound } from '../../../model/signing.ts';
import { openIncoming } from '../../arrivals.ts';
import type { Handing } from '../../device.ts';
import { NATURE_WORDS } from '../../words.ts';
import { calendarDate } from '../calendar.ts';
import { Effective } from '../handing/Effective.tsx';
import { LinkTo } from '../handing/LinkTo.tsx';
import { Missed } from '../handing/Missed.tsx';
import { fileName, fileText, hindrance, proposalFor, revisionBefore, signaturesHinder } from '../handing/ready.ts';
import { Sign } from '../handing/Sign.tsx';
import { Version } from '../handing/Version.tsx';
import type { PageProps } from '../PageOf.tsx';
import { isPutAbove, missedBy, rememberHanded } from '../revisions.ts';

/** Of which deck which signatures were found. */
interface Verified {
  readonly deck: Deck | undefined;
  /** Null: what checks them could not be loaded, or failed. */
  readonly found: readonly SignatureFound[] | null;
}

/** The draft leaves the Workshop: with a version that says what changed, signed, as a file, a link, or for this device. */
export function HandOver({ learner, draft, live }: PageProps) {
  const value = draft.value.value;
  const deck = useMemo(() => readValue(value).deck, [value]);
  const before = revisionBefore(learner.decks.value, draft);
  const proposal = useMemo(() => (deck === undefined ? null : proposalFor(before, deck)), [deck, before]);
  const missed = missedBy(learner.decks.value, draft);
  const unticked = missed !== null && !isPutAbove(draft, missed) ? missed : null;
  const [handing, setHanding] = useState<Handing | null>(null);
  const [verified, setVerified] = useState<Verified>({ deck: undefined, found: [] });
  const [said, setSaid] = useState('');
  useEffect(() => {
    learner.device.handing().then(setHanding, () => undefined);
  }, [learner]);
  useEffect(() => {
    setSaid('');
    if (deck?.signatures === undefined) return setVerified({ deck, found: [] });
    let left = false;
    void learner.device
      .signing()
      .then(({ verify }) => verify(deck))
      // Broken ones are no signatures: they are left out.
      .catch((error) => (error instanceof Error && error.name === 'SignatureProblem' ? [] : null))
      .then((found) => left || setVerified({ deck, found }));
    return () => {
      left = true;
    };
  }, [learner, deck]);
  const unchecked = signaturesHinder(verified.found);
  const why = hindrance(value, live.found.value, proposal, unticked);
  if (deck === undefined) return <p class="note bad">{why}</p>;
  const text =
    why === null && verified.deck === deck && verified.found !== null && unchecked === null
      ? fileText(deck, verified.found)
      : null;
  const name = fileName(deck);
  /** Before it is out of hand, so that what comes back is known. */
  const remember = async (handed: string) => {
    const contentId = await learner.device.contentId(handed);
    rememberHanded(draft, { ref: `${deck.id}@${contentId.slice(0, 16)}`, version: deck.version });
  };
  const save = async () => {
    if (handing === null || text === null) return;
    handing.download(name, text);
    setSaid(`Saved as ${name}.`);
    await remember(text);
  };
  const share = async () => {
    if (handing === null || text === null) return;
    try {
      const isShared = await handing.share(name, text);
      setSaid(isShared ? 'Handed over.' : '');
      if (isShared) await remember(text);
    } catch {
      setSaid('It could not be shared from here. Save the file and send that.');
    }
  };
  const practise = async () => {
    if (text === null) return;
    await remember(text);
    await draft.settled();
    openIncoming(learner, { name, from: null, text });
  };
  return (
    <>
      <p>
        <span class="mark">{NATURE_WORDS[deck.nature]}</span>
      </p>
      <section class="stack">
        <Version
          draft={draft}
          own={deck.version}
          problem={unticked === null && proposal !== null ? proposal.problem : null}
          version={proposal?.version ?? ''}
        >
          {missed !== null && <Missed learner={learner} draft={draft} missed={missed} />}
          {missed === null && before !== null && (
            <p>
              {proposal === null || proposal.rise === 'none'
                ? `As it is here in version ${before.version}, nothing changed that a learner would notice.`
                : `It follows version ${before.version}.`}
            </p>
          )}
        </Version>
        {proposal?.answers === true && (
          <Effective draft={draft} before={proposal.before} today={calendarDate(learner.device)} />
        )}
      </section>
      {why !== null && why !== proposal?.problem && (
        <p class={`note ${live.found.value.checking ? '' : 'bad'}`} role="status">
          {why}
        </p>
      )}
      <Sign
        learner={learner}
        draft={draft}
        deck={deck}
        found={verified.found ?? []}
        unchecked={unchecked}
        hindered={why !== null || unchecked !== null}
      />
      <section class="stack rule">
        <h2>As a file</h2>
        <p class="small soft">
          <code>{name}</code>
        </p>
        <div class="row">
          <button type="button" class="main" disabled={text === null || handing === null} onClick={() => void save()}>
            Save the file
          </button>
          {handing?.canShare() === true && (
            <button type="button" disabled={text === null} onClick={() => void share()}>
              Share it
            </button>
          )}
        </div>
        <p role="status">{said}</p>
      </section>
      {handing !== null && <LinkTo learner={learner} draft={draft} handing={handing} />}
      <section class="stack rule">
        <h2>For yourself</h2>
        <button type="button" disabled={text === null} onClick={() => void practise()}>
          Practise it here
        </button>
        <p class="small soft">It comes in as any other deck: what is unchanged keeps its memory.</p>
      </section>
      <section class="stack rule">
        <h2>With dates and minutes</h2>
        <a class="button" href="#/assign">
          Assign practice
        </a>
        <p class="small soft">
          An assignment says which decks, as which variants and by when; trainees are set up by it in one step. The deck
          must be practised here first.
        </p>
      </section>
      <p class="note">Hand over only what your operator lets you copy.</p>
    </>
  );
}
