import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import type { Deck } from '../../../model/deck.ts';
import type { SignatureFound } from '../../../model/signing.ts';
import { openIncoming } from '../../arrivals.ts';
import type { Handing } from '../../device.ts';
import type { Learner } from '../../models/learner.ts';
import { lastSigners, listed, type SeenSignature } from '../../models/trust.ts';
import { NATURE_WORDS } from '../../words.ts';
import { calendarDate } from '../calendar.ts';
import { Effective } from '../handing/Effective.tsx';
import { LinkTo } from '../handing/LinkTo.tsx';
import { Missed } from '../handing/Missed.tsx';
import { Note } from '../handing/Note.tsx';
import {
  fileName,
  fileText,
  hindrance,
  proposalFor,
  refusedFor,
  revisionBefore,
  signaturesHinder,
} from '../handing/ready.ts';
import { Sign } from '../handing/Sign.tsx';
import { Version } from '../handing/Version.tsx';
import type { PageProps } from '../PageOf.tsx';
import { isPutAbove, isSame, lacksNoteAlone, missedBy, rememberHanded } from '../revisions.ts';

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
  const isBare = useMemo(() => before !== null && lacksNoteAlone(before, value), [value, before]);
  const proposal = useMemo(
    () => (deck === undefined || isBare ? null : proposalFor(before, deck)),
    [deck, before, isBare],
  );
  const old = useMemo(() => (before === null ? null : (JSON.parse(before.text) as Deck)), [before]);
  const signers = useSigners(learner, deck?.id);
  const signatures = useRef<HTMLHeadingElement>(null);
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
  const why =
    hindrance(value, live.found.value, proposal, unticked) ??
    (isBare ? 'Nothing has changed yet: as another version there is nothing to hand over.' : null);
  if (deck === undefined) return <p class="note bad">{why}</p>;
  const text =
    why === null && verified.deck === deck && verified.found !== null && unchecked === null
      ? fileText(deck, verified.found)
      : null;
  const name = fileName(deck);
  const same = before !== null && isSame(before, value);
  // The same content is taken in as what is there, with its signatures.
  const isKnown = same || unchecked !== null || verified.deck !== deck;
  const refused = isKnown ? [] : refusedFor(verified.found ?? [], signers);
  const isRefusedHere = refused.length > 0 && signers.length > 0;
  /** Before it is out of hand, so that what comes back is known. */
  const remember = async (handed: string, here?: true) => {
    const contentId = await learner.device.contentId(handed);
    const ref = `${deck.id}@${contentId.slice(0, 16)}`;
    rememberHanded(draft, { ref, version: deck.version, ...(here && { here }) });
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
    await remember(text, true);
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
          {missed === null && before !== null && isBare && (
            <>
              <p>
                Nothing has changed yet since version {before.version}. Its note for the learner was left out, for
                yours.
              </p>
              <button type="button" onClick={() => draft.put('/amendment', old?.amendment, 'Note put back')}>
                Put the old note back, to hand it over as it was
              </button>
            </>
          )}
          {missed === null && before !== null && !isBare && proposal?.problem == null && (
            <p>
              {same
                ? `Nothing has changed yet: it is version ${before.version}, as it is here.`
                : proposal === null || proposal.rise === 'none'
                  ? `As it is here in version ${before.version}, nothing changed that a learner would notice.`
                  : `It follows version ${before.version}.`}
            </p>
          )}
        </Version>
        {proposal?.answers === true && (
          <Effective draft={draft} before={proposal.before} today={calendarDate(learner.device)} />
        )}
        {old !== null && <Note draft={draft} before={old} changed={proposal !== null && proposal.rise !== 'none'} />}
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
        refused={refused}
        heading={signatures}
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
        {isRefusedHere && (
          <div class="note warn stack">
            <p>
              This device holds a version signed by {listed(signers.map((one) => one.name))}, and takes no unsigned one
              in its place: sign this one first.
            </p>
            <button type="button" onClick={() => signatures.current?.focus()}>
              To the signatures
            </button>
          </div>
        )}
        <button type="button" disabled={text === null || isRefusedHere} onClick={() => void practise()}>
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

/** Who signed the last signed version of the deck on this device. */
const useSigners = (learner: Learner, id: string | undefined): readonly SeenSignature[] => {
  const [signers, setSigners] = useState<readonly SeenSignature[]>([]);
  const decks = learner.decks.value;
  useEffect(() => {
    const all = decks.filter((one) => one.id === id);
    const last = all.find(({ active }) => active) ?? all.at(-1);
    let left = false;
    // Where they cannot be told, taking it in says so.
    lastSigners(learner, [...all.filter((one) => one !== last), ...(last === undefined ? [] : [last])]).then(
      (found) => left || setSigners(found),
      () => undefined,
    );
    return () => {
      left = true;
    };
  }, [learner, id, decks]);
  return signers;
};
