import { useEffect, useState } from 'preact/hooks';
import { type PacedChoice, type PacedStart, startPaced } from '../../drill/paced.ts';
import { walkOf } from '../../drill/walk.ts';
import type { Learner } from '../models/learner.ts';
import type { Practised } from '../models/revisions.ts';
import { Unsaved } from '../parts/Notices.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Walk } from '../parts/Walk.tsx';
import { SHORT_CAUTION } from '../words.ts';
import { BackToDeck } from './PacedScreen.tsx';
import { localVoice, type Voice } from './voice.ts';

/** Under which the device keeps what was chosen last. */
const KEPT = 'paced-wish';
interface Kept {
  readonly seat: string | null;
  readonly stretch: number;
  readonly speak: boolean;
}
const FIRST: Kept = { seat: null, stretch: 1, speak: true };

const STRETCHES: readonly (readonly [value: number, label: string])[] = [
  [1, 'As it is'],
  [1.5, '1½ times as slow'],
  [2, '2 times as slow'],
  [3, '3 times as slow'],
  [5, '5 times as slow'],
  [10, '10 times as slow'],
  [0, 'Untimed: it stops at each of your steps'],
];

/** It stops only where something is due: that one can be too early all the same is said before. */
export const UNTIMED = 'It stops where something of yours is due. A step tapped before its turn counts as too early.';

/** What it is, in which seat, how fast; what was not read is read first. */
export function PacedBegin(props: {
  readonly learner: Learner;
  readonly found: Practised;
  readonly choice: PacedChoice;
  readonly onStart: (start: PacedStart, voice: Voice | null) => void;
}) {
  const { learner, found, choice } = props;
  const { paced, seats, views, unread } = choice;
  const [kept, setKept] = useState<Kept>(FIRST);
  const [variant, setVariant] = useState('');
  const [voice, setVoice] = useState<Voice | null>(null);
  const [refused, setRefused] = useState(false);
  const [reading, setReading] = useState<string | null>(null);
  useEffect(() => {
    void learner.store.device.get(KEPT).then(
      (value) => setKept(keptIn(value)),
      () => undefined,
    );
    void localVoice(found.deck.language).then((one) => setVoice(() => one));
  }, [learner, found.deck.language]);
  const put = (change: Partial<Kept>) => {
    const next = { ...kept, ...change };
    setKept(next);
    void learner.store.device.put(KEPT, next).catch(() => undefined);
  };
  const invented = found.stored.nature === 'fictional';
  if (reading !== null)
    return <ReadFirst learner={learner} found={found} procedure={reading} onBack={() => setReading(null)} />;
  const begin = () => {
    const seat = seats.some(({ id }) => id === kept.seat) ? kept.seat : null;
    const wish = { paced: paced.id, seat, stretch: kept.stretch, seed: learner.device.seed() };
    const start = startPaced(found.resolved, learner.memory.value, { ...wish, ...(variant !== '' && { variant }) });
    setRefused(start === null);
    if (start !== null) props.onStart(start, kept.speak ? voice : null);
  };
  return (
    <Sheet
      title={paced.title}
      top={<BackToDeck deck={found.stored.id} invented={invented} />}
      bar={
        unread.length === 0 && (
          <div class="bar">
            <button type="button" class="main wide" onClick={begin}>
              Begin
            </button>
          </div>
        )
      }
    >
      <p>
        Tap each of your own steps when its cue has come. The program flies the rest. The verdicts come at the end, and
        every step counts.
      </p>
      <Unsaved learner={learner} />
      {refused && (
        <p class="note warn">Nothing of it that you have read can be drawn. Read its procedures in this variant.</p>
      )}
      {unread.length > 0 ? (
        <section class="stack">
          <h2>Read these first</h2>
          <p>What was never read is not played.</p>
          <ul class="lines">
            {unread.map(({ id, title }) => (
              <li key={id} class="after">
                <span>{title}</span>
                <button type="button" class="plain" onClick={() => setReading(id)}>
                  Read it<span class="hidden-visually">: {title}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      ) : (
        <>
          {seats.length > 1 && (
            <fieldset>
              <legend>
                <h2>Your seat</h2>
              </legend>
              {[...seats, { id: null, label: 'Any, by lot' }].map(({ id, label }) => (
                <label class="pick" key={label}>
                  <input type="radio" name="seat" checked={kept.seat === id} onChange={() => put({ seat: id })} />
                  {label}
                </label>
              ))}
            </fieldset>
          )}
          <label class="field">
            How fast
            <select
              value={String(kept.stretch)}
              onChange={(event) => put({ stretch: Number(event.currentTarget.value) })}
            >
              {STRETCHES.map(([value, label]) => (
                <option key={value} value={String(value)}>
                  {label}
                </option>
              ))}
            </select>
          </label>
          {kept.stretch === 0 && <p class="small soft">{UNTIMED}</p>}
          {views.length > 1 && (
            <label class="field">
              Variant
              <select value={variant} onChange={(event) => setVariant(event.currentTarget.value)}>
                <option value="">Any, by lot</option>
                {views.map(({ id, label }) => (
                  <option key={id} value={id}>
                    {label}
                  </option>
                ))}
              </select>
            </label>
          )}
          {voice === null ? (
            <p class="small soft">This device has no voice of its own for the calls: they are shown.</p>
          ) : (
            <label class="pick">
              <input
                type="checkbox"
                checked={kept.speak}
                onChange={(event) => put({ speak: event.currentTarget.checked })}
              />
              Speak the other pilot's calls
            </label>
          )}
        </>
      )}
      <p class="small soft">
        {SHORT_CAUTION} The aeroplane is a simple reckoning{invented ? ' with invented numbers' : ''}: no simulator.
      </p>
    </Sheet>
  );
}

const keptIn = (value: unknown): Kept => {
  if (typeof value !== 'object' || value === null) return FIRST;
  const { seat, stretch, speak } = value as Partial<Record<keyof Kept, unknown>>;
  return {
    seat: typeof seat === 'string' ? seat : null,
    stretch: STRETCHES.some(([one]) => one === stretch) ? (stretch as number) : 1,
    speak: speak !== false,
  };
};

function ReadFirst(props: {
  readonly learner: Learner;
  readonly found: Practised;
  readonly procedure: string;
  readonly onBack: () => void;
}) {
  const { learner, found, procedure } = props;
  const [busy, setBusy] = useState(false);
  const view = found.resolved.views.find((one) => one.procedures.some((p) => p.procedure.id === procedure));
  const situation = view?.procedures.find((p) => p.procedure.id === procedure)?.situations[0]?.id ?? '';
  const walk = walkOf(found.resolved, {
    variant: view?.id ?? '',
    group: procedure,
    groupKind: 'procedure',
    situation,
  });
  const read = async () => {
    setBusy(true);
    const about = walk?.lines.map(({ id }) => id) ?? [];
    // `learner.problem` says where it could not be stored.
    await learner.append({ k: 'read', deck: found.resolved.ref, about }).then(props.onBack, () => undefined);
    setBusy(false);
  };
  return (
    <Sheet
      title={walk?.title ?? ''}
      top={
        <header class="top">
          <button type="button" class="plain" onClick={props.onBack}>
            Back
          </button>
          {found.stored.nature === 'fictional' && <span class="mark">Invented</span>}
        </header>
      }
      bar={
        <div class="bar">
          <button type="button" class="main wide" disabled={busy} onClick={() => void read()}>
            I have read this
          </button>
        </div>
      }
    >
      <Unsaved learner={learner} />
      {walk !== null && <Walk walk={walk} />}
    </Sheet>
  );
}
