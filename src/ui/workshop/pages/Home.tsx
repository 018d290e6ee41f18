import { useEffect, useState } from 'preact/hooks';
import { blankDeck } from '../../../draft/blank.ts';
import { valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { StoredDraft } from '../../../model/ports.ts';
import type { Learner } from '../../models/learner.ts';
import { InstructorsTop } from '../../parts/Instructors.tsx';
import { Sheet } from '../../parts/Sheet.tsx';
import { go } from '../../route.ts';
import { dayWords } from '../../words.ts';
import { beginDraft, keepNewDraft } from '../begin.ts';
import { calendarDate } from '../calendar.ts';
import { draftTitle } from '../titles.ts';

/** From which version a draft was begun, where that is on this device. */
const begunWords = (learner: Learner, base: string): string => {
  const from = learner.decks.value.find(({ ref }) => ref === base);
  return from === undefined ? '' : `; begun from version ${from.version}`;
};

/** All drafts, and how to begin one. */
export function Home(props: { readonly learner: Learner }) {
  const { learner } = props;
  const { store, device } = learner;
  const [drafts, setDrafts] = useState<readonly StoredDraft[] | null>(null);
  const [removing, setRemoving] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const say = (error: unknown) => setProblem(error instanceof Error ? error.message : String(error));
  const read = () => void store.drafts.list().then(setDrafts, say);
  useEffect(read, [store]);

  const opening = async (begun: Promise<string>, page?: string) => {
    setProblem(null);
    try {
      const draft = await begun;
      go({ at: 'workshop', draft, ...(page !== undefined && { page }) });
    } catch (error) {
      say(error);
    }
  };
  const begin = (value: Json, page?: string) => opening(keepNewDraft(learner, value, null), page);
  /** Local time of the device, as ISO 8601: "2026-11-25T10:00". */
  const local = (at: number): string => new Date(at + device.off(at) * 60_000).toISOString().slice(0, 16);
  const today = calendarDate(device);
  const openFile = async (file: File) => {
    if (file.size > 8_000_000)
      return setProblem(`${file.name} has ${Math.round(file.size / 1e6)} MB. A deck has at most 2 MB.`);
    try {
      const value = JSON.parse((await file.text()).replace(/^\ufeff/, '')) as Json;
      if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new SyntaxError('no object');
      await begin(value);
    } catch {
      setProblem(`${file.name} is no deck: it cannot be read as JSON. A list or table goes in under “From a list”.`);
    }
  };
  const decks = learner.decks.value.filter(
    ({ id, active }, i, all) => active || !all.slice(i + 1).some((other) => other.id === id),
  );
  return (
    <Sheet title="Workshop" top={<InstructorsTop at="workshop" back={['#/decks', 'Decks']} />}>
      <p class="soft">Where decks are written, checked, tried, revised and handed over. Drafts stay on this device.</p>
      {problem !== null && (
        <p class="note bad" role="alert">
          {problem}
        </p>
      )}
      {drafts !== null && drafts.length > 0 && (
        <ul class="lines">
          {drafts.map((draft) => (
            <li key={draft.id} class="stack">
              <div class="row spread">
                <a class="deck-link" href={`#/workshop/${draft.id}`}>
                  {draftTitle(draft.value as Json)}
                </a>
                <button
                  type="button"
                  class="plain end"
                  aria-expanded={removing === draft.id}
                  onClick={() => setRemoving(removing === draft.id ? null : draft.id)}
                >
                  Remove<span class="hidden-visually"> the draft {draftTitle(draft.value as Json)}</span>
                </button>
              </div>
              <p class="small soft">
                Version {String(valueAt(draft.value as Json, '/version') ?? '?')}, changed on{' '}
                {dayWords(calendarDate(device, draft.changed))} at {local(draft.changed).slice(11)}
                {draft.base !== null && begunWords(learner, draft.base)}
              </p>
              {removing === draft.id && (
                <div class="note warn stack">
                  <p>This draft goes for good. What you handed over or installed of it stays.</p>
                  <div class="row">
                    <button type="button" onClick={() => setRemoving(null)}>
                      Keep it
                    </button>
                    <button type="button" onClick={() => void store.drafts.remove(draft.id).then(read, say)}>
                      Remove it for good
                    </button>
                  </div>
                </div>
              )}
            </li>
          ))}
        </ul>
      )}
      <h2>Begin</h2>
      <div class="stack">
        <button type="button" class="main wide" onClick={() => void begin(blankDeck(today), 'head')}>
          A new deck
        </button>
        <button type="button" class="wide" onClick={() => void begin(blankDeck(today), 'paste')}>
          A new deck from a list or table
        </button>
        <label class="button">
          Open a deck file as a draft
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
      {decks.length > 0 && (
        <>
          <h2>Revise a deck that is here</h2>
          <ul class="lines">
            {decks.map((deck) => (
              <li key={deck.ref}>
                <button type="button" class="wide" onClick={() => void opening(beginDraft(learner, deck))}>
                  {deck.title}, version {deck.version}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </Sheet>
  );
}
