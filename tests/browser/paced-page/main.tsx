/** The paced run on a page of its own, drawn from the demonstration decks. */
import '../../../src/ui/base.css';
import '../../../src/ui/screens.css';
import '../../../src/ui/paced/paced.css';
import { render } from 'preact';
import abnormal from '../../../decks/merrow-abnormal.deck.json';
import takeOff from '../../../decks/merrow-takeoff.deck.json';
import { resolve } from '../../../src/deck/resolve.ts';
import type { PacedWish } from '../../../src/drill/paced.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { PacedGiven } from '../../../src/model/form.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { PacedPlay } from '../../../src/ui/paced/PacedPlay.tsx';
import { startOf } from '../../unit/paced/runs.ts';

const DECKS = { 'merrow-takeoff': takeOff, 'merrow-abnormal': abnormal } as unknown as Record<string, Deck>;

const learner = {
  device: {
    elapsed: () => performance.now(),
    updates: { setBusy: () => undefined },
    wakeLock: () => () => undefined,
  },
} as never as Learner;

let given: PacedGiven | null = null;
let count = 0;

const shown = {
  /** The run of that deck, before it is begun; every step was read. */
  play: (deck: string, flown: Readonly<Record<string, readonly string[]>>, wish: Partial<PacedWish>) => {
    const authored = DECKS[deck];
    if (authored === undefined) throw new Error(`no deck ${deck}`);
    const resolved = resolve(authored, 'a'.repeat(64), flown);
    given = null;
    count += 1;
    render(
      <div class="app" key={count}>
        <PacedPlay
          learner={learner}
          resolved={resolved}
          start={startOf(resolved, wish)}
          voice={null}
          invented
          onLeave={() => undefined}
          onEnd={(one) => {
            given = one;
          }}
        />
      </div>,
      document.getElementById('app') as HTMLElement,
    );
  },
  /** What the run that ended was; null: it goes on. */
  given: () => given,
};
export type PacedPage = typeof shown;
Object.assign(window, { pacedPage: shown });
