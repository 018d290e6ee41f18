import { useEffect, useState } from 'preact/hooks';
import type { Assignment, ReadAssignment } from '../../model/assignment.ts';
import type { Assigning, Fetched } from '../device.ts';
import { incoming } from '../models/install.ts';
import type { Learner } from '../models/learner.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { Signers } from '../parts/Signers.tsx';
import { go } from '../route.ts';
import { next } from '../screens/Install.tsx';
import { dayWords } from '../words.ts';
import { type DeckLine, deckLines } from './decks.ts';
import { coursesOf, heldFor, type Line, linesOf, type Standing, standingOf } from './lines.ts';
import { type Choices, isLacking, isOn, isTaken, knownDecks, setUp, toFetch } from './set-up.ts';

const NOT_LOADED = 'The part of the app that reads assignments could not be loaded. Go online, then open it again.';

/** An assignment that came in: read, or told why not. */
export function Assigned(props: { readonly learner: Learner; readonly name: string; readonly text: string }) {
  const { learner, name, text } = props;
  const [came, setCame] = useState<{
    readonly port: Assigning;
    readonly read: ReadAssignment;
    readonly fetched: Fetched | null;
  } | null>(null);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    learner.device.assigning().then(
      (port) => setCame({ port, read: port.read(text), fetched: port.takeFetched(text) }),
      () => setFailed(true),
    );
  }, [learner, text]);
  if (failed)
    return (
      <Sheet title="This did not work" bar={<Back />}>
        <p class="note bad">{NOT_LOADED}</p>
      </Sheet>
    );
  if (came === null) return <main class="sheet" aria-busy="true" />;
  const { assignment, findings } = came.read;
  if (assignment === undefined)
    return (
      <Sheet title="Not set up" bar={<Back />}>
        <p class="note bad">{name} cannot be used. What you had set is as it was.</p>
        <ul class="lines">
          {findings.map(({ where, text: words }) => (
            <li key={`${where} ${words}`}>
              <p class="small soft">
                <code>{where}</code>
              </p>
              <p>{words}</p>
            </li>
          ))}
        </ul>
      </Sheet>
    );
  return <Offer learner={learner} port={came.port} assignment={assignment} text={text} fetched={came.fetched} />;
}

function Back() {
  return (
    <div class="bar">
      <a class="button wide" href="#/decks">
        Back to the decks
      </a>
    </div>
  );
}

/** What it would set, line by line, and the one question. */
function Offer(props: {
  readonly learner: Learner;
  readonly port: Assigning;
  readonly assignment: Assignment;
  readonly text: string;
  readonly fetched: Fetched | null;
}) {
  const { learner, port, assignment, text, fetched } = props;
  // As it stood when it was opened: what is being set must not change the page under the finger.
  const [standing] = useState<Standing>(() => standingOf(learner, assignment));
  const [decks, setDecks] = useState<readonly DeckLine[] | null>(null);
  const [lines, setLines] = useState<readonly Line[]>([]);
  const [choices, setChoices] = useState<Choices>(fetched?.choices ?? {});
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState('');
  const [over, setOver] = useState(false);
  const year = new Date(learner.today() * 86_400_000).getUTCFullYear();
  const isOpen = standing.is === 'new' || standing.is === 'amends';

  const apply = async (wanted: readonly Line[], at: readonly DeckLine[]) => {
    setBusy(true);
    setFailed('');
    try {
      const addresses = toFetch(choices, at);
      if (addresses.length > 0) return port.fetchDecks({ text, addresses, choices });
      await setUp(learner, assignment, wanted, at, choices, isOpen);
      if (at.some((line) => isLacking(choices, line))) setOver(true);
      else leave(learner);
    } catch (error) {
      setFailed(learner.problem.value ?? (error instanceof Error ? error.message : 'This could not be stored.'));
    }
    setBusy(false);
  };
  useEffect(() => {
    let left = false;
    void deckLines(learner, assignment, fetched).then((found) => {
      if (left) return;
      const wanted = isOpen ? linesOf(learner, assignment, knownDecks(learner, assignment, found), year) : [];
      setLines(wanted);
      setDecks(found);
      // It was agreed to before the decks were fetched: where nothing new is to be looked at, it is not asked again.
      if (fetched !== null && found.every(({ doubtful }) => !doubtful)) void apply(wanted, found);
    });
    return () => {
      left = true;
    };
  }, []);

  if (standing.is === 'older')
    return (
      <Sheet title={assignment.title} bar={<Back />}>
        <p class="note warn">
          This is number {assignment.n} of this assignment. You are set up by a later one, number {standing.held.n},
          made on {dayWords(standing.held.made, year)}. Nothing changes.
        </p>
      </Sheet>
    );
  if (standing.is === 'other-same')
    return (
      <Sheet title={assignment.title} bar={<Back />}>
        <p class="note bad">
          You are set up by another assignment of the same number, {assignment.n}, made on{' '}
          {dayWords(standing.held.made, year)}. Nothing changes. Ask your instructor which of the two holds.
        </p>
      </Sheet>
    );
  if (decks === null) return <main class="sheet" aria-busy="true" />;
  if (over) return <Over learner={learner} missing={decks.filter((line) => isLacking(choices, line))} />;
  const hosts = [...new Set(toFetch(choices, decks).map((address) => new URL(address).host))];
  const isToDo = isOpen || decks.some(({ on }) => on !== null);
  const strangers = decks.some((line) => isTaken(choices, line) && newSigners(line).length > 0);
  const again = decks.flatMap(({ where }) => (where.is === 'refused' ? (where.retry ?? []) : []));
  const fetchAgain = () => {
    try {
      port.fetchDecks({ text, addresses: again, choices });
    } catch {
      setFailed('This browser lets the page store nothing. Ask for the file of the deck instead.');
    }
  };
  const toggle = (key: string, on: boolean) => setChoices({ ...choices, [key]: on });
  return (
    <Sheet
      title={assignment.title}
      bar={
        isToDo ? (
          <div class="bar">
            <div class="row even">
              <button type="button" disabled={busy} onClick={() => leave(learner, 'not now')}>
                Not now
              </button>
              <button
                type="button"
                class="main"
                disabled={busy || !learner.writing.value}
                onClick={() => void apply(lines, decks)}
              >
                {strangers ? 'Trust and set up' : isOpen ? 'Set up' : 'Take the decks'}
              </button>
            </div>
          </div>
        ) : (
          <Back />
        )
      }
    >
      {coursesOf(assignment).includes('fictional') && (
        <p>
          <span class="mark">Invented aeroplane</span>
        </p>
      )}
      <p>
        {standing.is === 'same'
          ? `You are set up by this assignment, made on ${dayWords(assignment.made, year)}. Nothing of it changes.`
          : standing.is === 'amends'
            ? `It amends the assignment that you are set up by. Number ${assignment.n}, made on ${dayWords(assignment.made, year)}.`
            : `An assignment from your instructor, made on ${dayWords(assignment.made, year)}. Nothing changes before you set it up.`}
      </p>
      {assignment.note !== undefined && isOpen && <Note text={assignment.note} />}
      {isOpen && <InPlaceOf learner={learner} assignment={assignment} />}
      {!learner.writing.value && (
        <p class="note bad">Recency is open in another tab, which writes. Close it, or go on there.</p>
      )}
      {fetched !== null && <p role="status">The decks were fetched. Look at what is marked below, then set it up.</p>}
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
      <section class="stack">
        <h2>Decks</h2>
        <div>
          {decks.map((line) => (
            <DeckChoice
              key={line.assigned.id}
              line={line}
              on={isTaken(choices, line)}
              onToggle={(on) => toggle(line.assigned.id, on)}
            />
          ))}
        </div>
        {again.length > 0 && (
          <button type="button" disabled={busy} onClick={fetchAgain}>
            Fetch again
          </button>
        )}
        {hosts.length > 0 && (
          <p class="small soft">
            Setting up fetches from {hosts.join(' and ')}, which then sees your network address. Install only what your
            operator lets you copy.
          </p>
        )}
      </section>
      {lines.length > 0 && (
        <section class="stack">
          <h2>What it sets</h2>
          <div>
            {lines
              .filter(({ changes }) => changes)
              .map((line) => (
                <SetChoice
                  key={line.key}
                  line={line}
                  on={isOn(choices, line)}
                  onToggle={(on) => toggle(line.key, on)}
                />
              ))}
          </div>
          {lines.some(({ changes }) => !changes) && (
            <ul class="lines">
              {lines
                .filter(({ changes }) => !changes)
                .map(({ key, title, to }) => (
                  <li key={key}>
                    {title}
                    <br />
                    <span class="small soft">{to}, as it is</span>
                  </li>
                ))}
            </ul>
          )}
        </section>
      )}
    </Sheet>
  );
}

/** To where practice goes on. */
const leave = (learner: Learner, how?: 'not now'): void => {
  incoming.value = { step: 'none' };
  if (how === undefined && learner.practised.value.length > 0) next(learner);
  else go({ at: learner.practised.value.length > 0 ? 'brief' : 'decks' }, 'instead');
};

function Note(props: { readonly text: string }) {
  return (
    <div class="note stack">
      {props.text.split('\n').map((line, i) => (
        <p key={`${i} ${line}`}>{line}</p>
      ))}
    </div>
  );
}

/** Another assignment holds so far. */
function InPlaceOf(props: { readonly learner: Learner; readonly assignment: Assignment }) {
  const { learner, assignment } = props;
  const others = coursesOf(assignment).flatMap((course) => {
    const held = heldFor(learner, course);
    return held !== null && held.id !== assignment.id ? [held.title] : [];
  });
  return (
    <>
      {[...new Set(others)].map((title) => (
        <p class="note" key={title}>
          It takes the place of the assignment “{title}”.
        </p>
      ))}
    </>
  );
}

const newSigners = ({ where }: DeckLine) =>
  where.is === 'came' ? where.judged.trust.signatures.filter(({ met }) => met === 'new' || met === 'namesake') : [];

function DeckChoice(props: {
  readonly line: DeckLine;
  readonly on: boolean;
  readonly onToggle: (on: boolean) => void;
}) {
  const { line, on, onToggle } = props;
  const { assigned, where, says } = line;
  const words = (
    <span>
      {assigned.title}
      <br />
      <span class="small soft">{says}</span>
    </span>
  );
  const signers = newSigners(line);
  const changed = where.is === 'came' ? where.judged.trust.changed : [];
  return (
    <>
      {line.on === null ? (
        <p class={where.is === 'here' ? '' : 'note warn'}>{words}</p>
      ) : (
        <label class="pick">
          <input type="checkbox" checked={on} onChange={(event) => onToggle(event.currentTarget.checked)} />
          {words}
        </label>
      )}
      {changed.length > 0 && (
        <p class="note bad">
          Another signer. The deck on this device is signed by {changed.map(({ name }) => name).join(', ')}, this one is
          not. Tick it only once you have asked.
        </p>
      )}
      {signers.length > 0 && <Signers signatures={signers} />}
    </>
  );
}

function SetChoice(props: { readonly line: Line; readonly on: boolean; readonly onToggle: (on: boolean) => void }) {
  const { line, on, onToggle } = props;
  const { title, from, to, own } = line;
  return (
    <label class="pick">
      <input type="checkbox" checked={on} onChange={(event) => onToggle(event.currentTarget.checked)} />
      <span>
        {title}
        <br />
        <span class="small">
          <span class="soft">{from}</span> → {to}
        </span>
        {own && (
          <>
            <br />
            <span class="small soft">You changed this yourself: kept, unless you tick it.</span>
          </>
        )}
      </span>
    </label>
  );
}

/** Set up, but for decks that somebody must still bring. */
function Over(props: { readonly learner: Learner; readonly missing: readonly DeckLine[] }) {
  const { learner, missing } = props;
  return (
    <Sheet
      title="Set up, but for a deck"
      bar={
        <div class="bar">
          <button type="button" class="main wide" onClick={() => leave(learner)}>
            Go on
          </button>
        </div>
      }
    >
      <p>All else is set. Ask your instructor for the file of what is missing, and open it under Decks:</p>
      <ul class="lines">
        {missing.map(({ assigned: { id, title: name, version } }) => (
          <li key={id}>
            {name} <span class="soft small">· version {version}</span>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}
