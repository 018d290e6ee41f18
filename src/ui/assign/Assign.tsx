import { useEffect, useMemo, useRef, useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import type { Assigning } from '../device.ts';
import type { Learner } from '../models/learner.ts';
import { InstructorsTop } from '../parts/Instructors.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { dayWords } from '../words.ts';
import { type AssignmentDraft, assignable, blank, draftFrom, keepDrafts, readDrafts } from './drafts.ts';
import { Editor } from './Editor.tsx';

/** Where an instructor makes assignments, and amends those that were handed out. */
export function Assign(props: { readonly learner: Learner }) {
  const { learner } = props;
  const { store, device } = learner;
  const [port, setPort] = useState<Assigning | null>(null);
  const [drafts, setDrafts] = useState<readonly AssignmentDraft[]>([]);
  const [open, setOpen] = useState<string | null>(null);
  const [removing, setRemoving] = useState<string | null>(null);
  const [failed, setFailed] = useState('');
  /** One after the other: an older state must not be written last. */
  const keeping = useRef<Promise<void>>(Promise.resolve());
  const decks = useMemo(() => assignable(learner.decks.value), [learner.decks.value]);
  useEffect(() => {
    Promise.all([device.assigning(), readDrafts(store)]).then(
      ([loaded, kept]) => {
        setDrafts(kept);
        setPort(loaded);
      },
      () => setFailed('The part of the app that makes assignments could not be loaded. Go online, then try again.'),
    );
  }, [device, store]);
  const keep = (next: readonly AssignmentDraft[]): Promise<void> => {
    setDrafts(next);
    keeping.current = keeping.current
      .then(() => keepDrafts(store, next))
      .then(
        () => setFailed(''),
        (error) => setFailed(error instanceof Error ? error.message : 'This could not be stored.'),
      );
    return keeping.current;
  };
  const put = (draft: AssignmentDraft) => keep(drafts.map((one) => (one.id === draft.id ? draft : one)));
  const begin = (draft: AssignmentDraft) => {
    void keep([draft, ...drafts.filter(({ id }) => id !== draft.id)]);
    setOpen(draft.id);
  };
  const openFile = async (file: File) => {
    if (port === null) return;
    if (file.size > 1_000_000) return setFailed(`${file.name} is too large for an assignment: is it the right file?`);
    const { assignment, findings } = port.read(await file.text());
    if (assignment === undefined)
      return setFailed(
        findings
          .map(({ where, text }) => `${where}: ${text}`)
          .slice(0, 3)
          .join(' '),
      );
    const before = drafts.find(({ id }) => id === assignment.id);
    if (before?.handed != null && before.handed.n >= assignment.n)
      return setFailed(`Number ${before.handed.n} of “${assignment.title}” is here: it is not older than this file.`);
    begin(draftFrom(assignment));
  };
  const trouble = failed !== '' && (
    <p class="note bad" role="alert">
      {failed}
    </p>
  );
  const now = drafts.find(({ id }) => id === open);
  if (now !== undefined && port !== null)
    return (
      <Editor
        key={now.id}
        learner={learner}
        port={port}
        decks={decks}
        draft={now}
        trouble={trouble}
        onChange={put}
        onLeave={() => setOpen(null)}
      />
    );
  return (
    <Sheet title="Assign practice" top={<InstructorsTop at="assign" back={['#/decks', 'Decks']} />}>
      <p class="soft">
        An assignment says which decks, as which variants and by when. It is a small file or a link, without a server:
        who opens it is set up in one step. A later number of the same one amends it.
      </p>
      {trouble}
      {drafts.length > 0 && (
        <ul class="lines">
          {drafts.map(({ id, value, handed }) => {
            const title = value.title.trim() === '' ? 'Without a title' : value.title;
            return (
              <li key={id} class="stack">
                <button type="button" class="wide" onClick={() => setOpen(id)}>
                  {title}
                </button>
                <div class="row spread">
                  <p class="small soft">
                    {handed === null
                      ? 'Not handed out yet.'
                      : `Number ${handed.n}, handed out on ${dayWords(handed.made, 0)}.`}
                  </p>
                  <button
                    type="button"
                    class="plain"
                    aria-expanded={removing === id}
                    onClick={() => setRemoving(removing === id ? null : id)}
                  >
                    Remove<span class="hidden-visually"> {title}</span>
                  </button>
                </div>
                {removing === id && (
                  <div class="note warn stack">
                    <p>It goes for good from this device, and can be amended only from its file. Trainees keep it.</p>
                    <div class="row">
                      <button type="button" onClick={() => setRemoving(null)}>
                        Keep it
                      </button>
                      <button type="button" onClick={() => void keep(drafts.filter((one) => one.id !== id))}>
                        Remove it for good
                      </button>
                    </div>
                  </div>
                )}
              </li>
            );
          })}
        </ul>
      )}
      {decks.length === 0 ? (
        <>
          <p class="note">No deck is on this device. Bring the decks first that you want to assign.</p>
          <a class="button main" href="#/decks">
            Bring a deck
          </a>
        </>
      ) : (
        <div class="stack">
          <button
            type="button"
            class="main wide"
            disabled={port === null}
            onClick={() => port !== null && begin(blank(port.newId()))}
          >
            A new assignment
          </button>
          <label class="button">
            Go on from an assignment file
            <input
              type="file"
              class="hidden-visually"
              accept=".json,.txt,application/json,text/plain"
              onChange={(event) => {
                const file = event.currentTarget.files?.[0];
                event.currentTarget.value = '';
                if (file !== undefined) void openFile(file);
              }}
            />
          </label>
        </div>
      )}
      <p class="small soft">
        Today is {dayWords(isoOfDay(learner.today()))}. Assignments are kept on this device alone.
      </p>
    </Sheet>
  );
}
