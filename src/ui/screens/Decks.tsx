import { useEffect, useState } from 'preact/hooks';
import type { DemoDeck } from '../device.ts';
import { takeDemo, takeFile } from '../models/install.ts';
import type { Learner } from '../models/learner.ts';
import { InstructorsPlaces } from '../parts/Instructors.tsx';
import { NotHereYet } from '../parts/NotHereYet.tsx';
import { Lost } from '../parts/Notices.tsx';
import { Sheet, Tabs } from '../parts/Sheet.tsx';
import { go } from '../route.ts';
import { NATURE_WORDS } from '../words.ts';

/** Offered first: the others of this aeroplane take for granted what is in it. */
const BEGIN = 'merrow-takeoff.deck.json';

/** What is practised, what rests, and where more comes from. At the first start: what to begin with. */
export function Decks(props: { readonly learner: Learner }) {
  const { learner } = props;
  const [demos, setDemos] = useState<readonly DemoDeck[] | null>(null);
  useEffect(() => {
    learner.device.demoDecks().then(setDemos, () => setDemos([]));
  }, [learner]);
  const here = learner.decks.value;
  const active = here.filter((deck) => deck.active);
  const known = new Set(active.map(({ id }) => id));
  const latest = new Map(here.filter(({ id }) => !known.has(id)).map((deck) => [deck.id, deck]));
  const resting = [...latest.values()];
  const open = (take: () => Promise<void>) => {
    go({ at: 'install' });
    void take();
  };
  const first = here.length === 0;
  // What was lost comes back before anything new is begun.
  const isLost = learner.store.opened.status === 'lost';
  const more = (demos ?? [])
    .filter(({ id }) => !here.some((deck) => deck.id === id))
    .sort((a, b) => Number(b.file === BEGIN) - Number(a.file === BEGIN));
  return (
    <Sheet title={first ? 'What will you practise?' : 'Decks'} bar={first ? undefined : <Tabs at="decks" />}>
      <Lost learner={learner} />
      <NotHereYet learner={learner} />
      {active.length > 0 && (
        <ul class="lines">
          {active.map((deck) => (
            <li key={deck.ref}>
              <a class="deck-link" href={`#/deck/${encodeURIComponent(deck.id)}`}>
                {deck.title}
              </a>
              <p class="small soft">
                {NATURE_WORDS[deck.nature]} · version {deck.version}
              </p>
            </li>
          ))}
        </ul>
      )}
      {resting.length > 0 && (
        <>
          <h2>Set aside</h2>
          <ul class="lines">
            {resting.map((deck) => (
              <li key={deck.ref}>
                <a class="deck-link" href={`#/deck/${encodeURIComponent(deck.id)}`}>
                  {deck.title}
                </a>
              </li>
            ))}
          </ul>
        </>
      )}
      {more.length > 0 && (
        <>
          <h2>{first ? 'Begin with one of these' : 'Come with the app'}</h2>
          <ul class="lines boxed">
            {more.map((demo) => (
              <li key={demo.file}>
                <button
                  type="button"
                  class={`wide ${first && !isLost && demo === more[0] ? 'main' : ''}`}
                  onClick={() => open(() => takeDemo(learner, demo))}
                >
                  {demo.title}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
      <h2>{first ? 'Or bring your own' : 'Bring a deck'}</h2>
      <div class="stack">
        <label class="button">
          Open a deck file, saved copy or assignment
          <input
            type="file"
            class="hidden-visually"
            accept=".json,.txt,application/json,text/plain"
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              event.currentTarget.value = '';
              if (file !== undefined) open(() => takeFile(learner, file));
            }}
          />
        </label>
        <p class="small soft">
          A link from your instructor opens here by itself: it shows first where the deck comes from. A file can be
          dropped anywhere on the app. Install only what your operator lets you copy.
        </p>
      </div>
      <h2>For instructors</h2>
      <div class="stack">
        <InstructorsPlaces />
      </div>
    </Sheet>
  );
}
