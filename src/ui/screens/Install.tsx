import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Deck } from '../../model/deck.ts';
import type { StoredDeck } from '../../model/ports.ts';
import { accept, type Incoming, incoming, stopChecking, type Told } from '../models/install.ts';
import type { Learner } from '../models/learner.ts';
import { CopyIn } from '../parts/CopyIn.tsx';
import { lazy } from '../parts/lazy.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Provenance } from '../parts/Signers.tsx';
import { SourceList } from '../parts/SourceList.tsx';
import { go } from '../route.ts';
import { dayWords, NATURE_WORDS, plural } from '../words.ts';
import { contentWords } from './content-words.ts';

/** Only for a deck that takes another's place; what compares the two is larger than the rest of this screen. */
const ChangesInShort = lazy(() => import('../parts/Changes.tsx').then((module) => module.ChangesInShort), 'part');

const Assigned = lazy(() => import('../assign/Assigned.tsx').then((module) => module.Assigned));

/** Does the deck that came in change what is asked? Where the code for it cannot be had, the Brief tells later. */
const hasNews = async (learner: Learner, id: string): Promise<boolean> => {
  const { amendmentOf, isToTell } = await import('../models/amendment.ts');
  const amendment = amendmentOf(learner, id);
  return amendment !== null && isToTell(amendment);
};

const SHOWN = 60;
const SEVERITY_WORDS = { error: 'Must be mended', warning: 'Should be looked at', hint: 'Hint' } as const;

function Findings(props: { readonly findings: readonly Told[] }) {
  const { findings } = props;
  return (
    <>
      <ul class="lines">
        {findings.slice(0, SHOWN).map((finding) => (
          <li key={`${finding.where} ${finding.text}`}>
            <p class="small soft">
              {SEVERITY_WORDS[finding.severity]} · <code>{finding.where}</code>
            </p>
            <p>{finding.text}</p>
          </li>
        ))}
      </ul>
      {findings.length > SHOWN && <p>And {findings.length - SHOWN} more.</p>}
    </>
  );
}

/** Most decks are checked before this is read; one of some MB, or one made to stall, may take minutes. */
function Checking(props: { readonly name: string }) {
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => setSeconds((before) => before + 1), 1000);
    return () => clearInterval(timer);
  }, []);
  const stop = () => {
    stopChecking();
    go({ at: 'decks' }, 'instead');
  };
  return (
    <Sheet
      title="Checking the deck"
      bar={
        seconds === 0 ? undefined : (
          <div class="bar">
            <button type="button" class="wide" onClick={stop}>
              Stop checking
            </button>
          </div>
        )
      }
    >
      <p role="status">{props.name}</p>
      {seconds > 0 && (
        <p class="soft">
          A large deck takes a while. Nothing that you have changes meanwhile.{' '}
          <span aria-hidden="true">{seconds} s</span>
        </p>
      )}
    </Sheet>
  );
}

/** A deck on its way in: what was found, where it comes from, and the question whether to take it. */
export function Install(props: { readonly learner: Learner }) {
  const { learner } = props;
  const [busy, setBusy] = useState(false);
  const [agreed, setAgreed] = useState<readonly string[]>([]);
  const now = incoming.value;
  const back = (
    <div class="bar">
      <a class="button wide" href="#/decks">
        Back to the decks
      </a>
    </div>
  );
  switch (now.step) {
    case 'none':
      return (
        <Sheet title="Nothing to install" bar={back}>
          <p>Choose a deck first.</p>
        </Sheet>
      );
    case 'checking':
      return <Checking key={now.name} name={now.name} />;
    case 'assignment':
      return <Assigned key={now.text} learner={learner} name={now.name} text={now.text} />;
    case 'copy':
      return <CopyIn learner={learner} name={now.name} file={now.file} />;
    case 'report':
      return (
        <Sheet
          title="A progress report"
          bar={
            <div class="bar">
              <div class="row even">
                <a class="button" href="#/decks">
                  Not now
                </a>
                <a class="button main" href="#/class">
                  Open it in the class table
                </a>
              </div>
            </div>
          }
        >
          <p>{now.name}</p>
          <p>
            This is no deck: a trainee's app made it for an instructor. The class table tells who will forget what. The
            report stays on this device.
          </p>
        </Sheet>
      );
    case 'failed':
      return (
        <Sheet title="This did not work" bar={back}>
          <p class="note bad">{now.why}</p>
          <p>{now.name}</p>
        </Sheet>
      );
    case 'refused':
      return (
        <Sheet title="Not installed" bar={back}>
          <p class="note bad">
            {plural(now.findings.filter(({ severity }) => severity === 'error').length, 'fault')} in {now.name}. What
            you had installed is as it was.
          </p>
          <Findings findings={now.findings} />
          {now.own === true && (
            <a class="button" href="#/workshop">
              To the drafts in the Workshop
            </a>
          )}
        </Sheet>
      );
    case 'ask': {
      const { deck, before } = now;
      const install = async () => {
        setBusy(true);
        try {
          const stored = await accept(learner);
          if (stored === null) return;
          const flown = learner.flown(stored.id);
          const isNews = before !== null && (await hasNews(learner, stored.id).catch(() => false));
          if ((deck.variants ?? []).some(({ id }) => (flown[id] ?? []).length === 0))
            go({ at: 'variants', deck: stored.id }, 'instead');
          else if (isNews) go({ at: 'amendment', deck: stored.id }, 'instead');
          else next(learner);
        } catch {
          setBusy(false);
        }
      };
      const doubts = doubtsOf(now);
      const isAgreed = doubts.every((doubt) => agreed.includes(`${now.contentId} ${doubt}`));
      return (
        <Sheet
          title={deck.title}
          bar={
            <div class="bar">
              <div class="row even">
                <a class="button" href="#/decks">
                  Not now
                </a>
                {now.same ? (
                  <a class="button main" href={`#/deck/${encodeURIComponent(deck.id)}`}>
                    It is installed
                  </a>
                ) : (
                  <button type="button" class="main" disabled={busy || !isAgreed} onClick={() => void install()}>
                    {now.trust.signatures.some(({ met }) => met === 'new' || met === 'namesake')
                      ? `Trust and ${before === null ? 'install' : 'replace'}`
                      : before === null
                        ? 'Install'
                        : 'Replace'}
                  </button>
                )}
              </div>
            </div>
          }
        >
          <p>
            <span class="mark">{NATURE_WORDS[deck.nature]}</span>
          </p>
          {deck.about !== undefined && <p>{deck.about}</p>}
          <p>{contentWords(deck)}.</p>
          {before !== null && !now.same && (
            <p class={`note ${now.older ? 'warn' : ''}`}>
              Version {deck.version} takes the place of {before.version}
              {now.older && ', which is newer. Take the older one back only if your manual says so'}. What is unchanged
              keeps its memory.
            </p>
          )}
          {before !== null && !now.same && <Amends before={before} after={deck} />}
          <dl class="facts">
            <dt>Version</dt>
            <dd>{deck.version}</dd>
            <dt>Made by</dt>
            <dd>{deck.madeBy ?? 'not said'}</dd>
            <dt>Checked by</dt>
            <dd>{deck.checkedBy ?? 'no second person'}</dd>
            {now.from !== null && (
              <>
                <dt>From</dt>
                <dd>{now.from}</dd>
              </>
            )}
          </dl>
          <Provenance trust={now.trust} shipped={now.shipped} />
          <h2>Sources</h2>
          <SourceList sources={deck.sources} />
          {!now.same && doubts.length > 0 && (
            <fieldset>
              <legend class="hidden-visually">Before it takes the place of the one that is here</legend>
              {doubts.map((doubt) => (
                <label class="pick" key={doubt}>
                  <input
                    type="checkbox"
                    checked={agreed.includes(`${now.contentId} ${doubt}`)}
                    onChange={({ currentTarget: { checked } }) => {
                      const one = `${now.contentId} ${doubt}`;
                      setAgreed(checked ? [...agreed, one] : agreed.filter((other) => other !== one));
                    }}
                  />
                  {doubt}
                </label>
              ))}
            </fieldset>
          )}
          {now.findings.length > 0 && (
            <details>
              <summary class="button">What the checker noticed ({now.findings.length})</summary>
              <Findings findings={now.findings} />
            </details>
          )}
        </Sheet>
      );
    }
  }
}

/** Before it takes the place of another: from when, why, and what it changes. */
function Amends(props: { readonly before: StoredDeck; readonly after: Deck }) {
  const { before, after } = props;
  const deck = useMemo(() => JSON.parse(before.text) as Deck, [before]);
  return (
    <>
      {after.effective !== undefined && <p>In force from {dayWords(after.effective, 0)}.</p>}
      {after.until !== undefined && (
        <p>A bulletin: its last day is {dayWords(after.until, 0)}. After it the version before is asked again.</p>
      )}
      {after.amendment !== undefined && <p class="note">{after.amendment}</p>}
      <ChangesInShort before={deck} after={after} />
    </>
  );
}

/** What must be confirmed by itself, in the learner's own words. */
const doubtsOf = (now: Extract<Incoming, { step: 'ask' }>): string[] => [
  ...(now.trust.changed.length > 0 ? ['I have asked: this deck rightly comes from another signer'] : []),
  ...(now.older ? [`I want the older version ${now.deck.version} back`] : []),
];

/** After a deck came in: the check date if it was never asked, else the Brief. */
export const next = (learner: Learner): void => {
  const asked = learner.setting(`check-date/${learner.course.value}`) !== undefined;
  go({ at: asked ? 'brief' : 'date' }, 'instead');
};
