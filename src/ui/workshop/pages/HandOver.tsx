import { useEffect, useMemo, useState } from 'preact/hooks';
import { readValue } from '../../../deck/read.ts';
import type { SignatureFound } from '../../../model/signing.ts';
import { openIncoming } from '../../arrivals.ts';
import type { Handing } from '../../device.ts';
import { NATURE_WORDS } from '../../words.ts';
import { LinkTo } from '../handing/LinkTo.tsx';
import { fileName, fileText, hindrance, proposalFor, revisionBefore } from '../handing/ready.ts';
import { Sign } from '../handing/Sign.tsx';
import type { PageProps } from '../PageOf.tsx';

/** The draft leaves the Workshop: with a version that says what changed, signed, as a file, a link, or for this device. */
export function HandOver({ learner, draft, live }: PageProps) {
  const value = draft.value.value;
  const deck = useMemo(() => readValue(value).deck, [value]);
  const before = revisionBefore(learner.decks.value, draft);
  const proposal = useMemo(() => (deck === undefined ? null : proposalFor(before, deck)), [deck, before]);
  const [handing, setHanding] = useState<Handing | null>(null);
  const [found, setFound] = useState<readonly SignatureFound[] | null>([]);
  const [said, setSaid] = useState('');
  useEffect(() => {
    learner.device.handing().then(setHanding, () => undefined);
  }, [learner]);
  useEffect(() => {
    setSaid('');
    if (deck?.signatures === undefined) return setFound([]);
    let left = false;
    setFound(null);
    learner.device
      .signing()
      .then(async ({ verify }) => {
        const all = await verify(deck);
        if (!left) setFound(all);
      })
      // Broken ones are no signatures: they are left out.
      .catch(() => left || setFound([]));
    return () => {
      left = true;
    };
  }, [learner, deck]);
  const why = hindrance(value, live.found.value, proposal);
  if (deck === undefined) return <p class="note bad">{why}</p>;
  const text = why === null && found !== null ? fileText(deck, found) : null;
  const name = fileName(deck);
  const share = async () => {
    if (handing === null || text === null) return;
    try {
      setSaid((await handing.share(name, text)) ? 'Handed over.' : '');
    } catch {
      setSaid('It could not be shared from here. Save the file and send that.');
    }
  };
  return (
    <>
      <p>
        <span class="mark">{NATURE_WORDS[deck.nature]}</span>
      </p>
      <section class="stack">
        <h2>Version {deck.version}</h2>
        {before !== null && (
          <p>
            {proposal === null || proposal.rise === 'none'
              ? `As it is here in version ${before.version}, nothing changed that a learner would notice.`
              : `It follows version ${before.version}.`}
          </p>
        )}
        {proposal !== null && proposal.problem !== null && (
          <>
            <p class="note warn">{proposal.problem}</p>
            <button type="button" class="main" onClick={() => draft.put('/version', proposal.version, 'Version set')}>
              Set version {proposal.version}
            </button>
          </>
        )}
      </section>
      {why !== null && why !== proposal?.problem && (
        <p class={`note ${live.found.value.checking ? '' : 'bad'}`} role="status">
          {why}
        </p>
      )}
      {found !== null && <Sign learner={learner} draft={draft} deck={deck} found={found} hindered={why !== null} />}
      <section class="stack rule">
        <h2>As a file</h2>
        <p class="small soft">
          <code>{name}</code>
        </p>
        <div class="row">
          <button
            type="button"
            class="main"
            disabled={text === null || handing === null}
            onClick={() => text !== null && handing?.download(name, text)}
          >
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
        <button
          type="button"
          disabled={text === null}
          onClick={() => text !== null && openIncoming(learner, { name, from: null, text })}
        >
          Practise it here
        </button>
        <p class="small soft">It comes in as any other deck: what is unchanged keeps its memory.</p>
      </section>
      <p class="note">Hand over only what your operator lets you copy.</p>
    </>
  );
}
