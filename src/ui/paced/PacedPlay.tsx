import type { ReadonlySignal } from '@preact/signals';
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { PacedStart } from '../../drill/paced.ts';
import { crewLabel } from '../../forms/run/extras.ts';
import { DEFAULT_CREW } from '../../model/deck.ts';
import type { PacedGiven, PacedShown } from '../../model/form.ts';
import { dayValueWords } from '../../subjects/limit/words.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import type { Learner } from '../models/learner.ts';
import { Text } from '../parts/Text.tsx';
import { useFit } from './fit.ts';
import { UNTIMED } from './PacedBegin.tsx';
import { createPacedRun, type PacedRun } from './run-model.ts';
import type { Voice } from './voice.ts';

/** How long the last call is left to be read, ms. */
const LINGER = 1200;

/** The run itself. Nothing on it moves but figures that count; all that is tapped lies at the thumb. */
export function PacedPlay(props: {
  readonly learner: Learner;
  readonly resolved: Resolved;
  readonly start: PacedStart;
  readonly voice: Voice | null;
  readonly invented: boolean;
  readonly onLeave: () => void;
  readonly onEnd: (given: PacedGiven, ms: number) => void;
}) {
  const { learner, resolved, start, voice, invented } = props;
  const { shown } = start;
  const run = useMemo(() => {
    const condition = resolved.deck.conditions?.find(({ id }) => id === start.plan.paced.failure?.condition);
    const failure = condition !== undefined && 'yes' in condition ? condition.yes : 'An engine has failed';
    return createPacedRun(start, { crew: (by) => crewLabel(resolved, by), failure }, () => voice);
  }, [start, resolved, voice]);
  useRunning(learner, run, voice);
  const ready = run.ready.value;
  const seat = shown.seat === '' ? '' : crewLabel(resolved, shown.seat);
  const ended = run.ended.value;
  const { onEnd } = props;
  useEffect(() => {
    if (ended === null) return;
    const timer = setTimeout(() => onEnd(run.given(), run.spent()), LINGER);
    return () => clearTimeout(timer);
  }, [ended]);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    document.title = `${shown.title} · Recency`;
    heading.current?.focus({ preventScroll: true });
    scrollTo(0, 0);
  }, [shown.title]);
  return (
    <>
      <header class="top">
        <button type="button" class="plain" onClick={props.onLeave}>
          Leave
        </button>
        {invented && <span class="mark">Invented</span>}
        {ready ? <span /> : <PauseButton run={run} />}
      </header>
      <main class="sheet paced">
        <h1 class={ready ? '' : 'hidden-visually'} tabIndex={-1} ref={heading}>
          {shown.title}
        </h1>
        {ready ? (
          <Scene shown={shown} posts={postsOf(resolved, start)} />
        ) : (
          <>
            <p class="small paced-card">{cardOf(resolved, start)}</p>
            <div class="paced-figures">
              <Figure name="Speed" unit="kt" value={run.knots} />
              <Figure name="Height" unit="ft" value={run.feet} />
            </div>
            <p class="paced-state">{run.state}</p>
            <Runway metres={run.metres} seconds={run.seconds} />
            <Lines run={run} />
            <Aloud run={run} />
          </>
        )}
      </main>
      <footer class={ready ? 'foot' : 'foot paced-thumb'}>
        {ready ? (
          <div class="bar">
            <button type="button" class="main wide" onClick={() => run.begin()}>
              {seat === '' ? 'Begin the run' : `Begin the run as ${seat}`}
            </button>
          </div>
        ) : (
          <Foot run={run} untimed={shown.stretch === 0} seat={seat} />
        )}
      </footer>
    </>
  );
}

/** What is known before it begins. */
function Scene(props: { readonly shown: PacedShown; readonly posts: readonly string[] }) {
  const { shown, posts } = props;
  const pace =
    shown.stretch === 0 ? `Untimed. ${UNTIMED}` : shown.stretch === 1 ? '' : `${shown.stretch} times as slow as it is.`;
  return (
    <>
      {shown.scene.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {pace !== '' && <p class="soft">{pace}</p>}
      <p class="soft">
        Six buttons stand at the foot; not all of their steps are yours, and not all are due.
        <span class="with-keys"> Keys 1 to 6 do the same.</span>
      </p>
      {posts.length > 0 && (
        <p class="soft">
          <Text text={posts.join(', ')} />: named by post, and played for you in either seat.
        </p>
      )}
    </>
  );
}

/** Who is named beside PF and PM. */
const postsOf = (resolved: Resolved, { plan }: PacedStart): string[] => {
  const ids = plan.steps.flatMap(({ who, run: { step } }) => (who === 'other' ? (step.by ?? []) : []));
  return [...new Set(ids)]
    .filter((by) => !DEFAULT_CREW.some(({ id }) => id === by))
    .map((by) => crewLabel(resolved, by));
};

/** As on the card before the pilots: the speeds of the day, and the wind. */
const cardOf = ({ deck }: Resolved, { shown, plan }: PacedStart): string => {
  const needed = new Set(
    plan.steps.flatMap(({ run: { step } }) => [step.cue?.day, step.from?.day, plan.paced.failure?.speed]),
  );
  const words = `${plan.paced.starts ?? ''}`;
  const days = (deck.day ?? []).filter(
    ({ id }) => Object.hasOwn(shown.drawn, id) && (needed.has(id) || words.includes(`{${id}}`)),
  );
  return [
    ...days.map(({ id }) => dayValueWords(deck, id, shown.drawn)),
    ...(shown.wind === undefined ? [] : [shown.wind.situation]),
  ].join(' · ');
};

/** Frames while it is seen; out of sight it stands still. */
const useRunning = (learner: Learner, run: PacedRun, voice: Voice | null) =>
  useEffect(() => {
    const { device } = learner;
    let asked = 0;
    const next = () => {
      asked = requestAnimationFrame(next);
      run.frame(device.elapsed());
    };
    const onChange = () => {
      if (document.visibilityState === 'hidden') run.pause();
    };
    onChange();
    asked = requestAnimationFrame(next);
    document.addEventListener('visibilitychange', onChange);
    device.updates.setBusy(true);
    const letSleep = device.wakeLock();
    return () => {
      cancelAnimationFrame(asked);
      document.removeEventListener('visibilitychange', onChange);
      device.updates.setBusy(false);
      letSleep();
      voice?.stop();
    };
  }, [learner, run, voice]);

/** Signals in the text itself: a frame draws one number anew, and no component. */
function Figure(props: { readonly name: string; readonly unit: string; readonly value: ReadonlySignal<number> }) {
  return (
    <p class="paced-figure">
      <span class="small soft">{props.name}</span>
      <span class="number">
        <strong>{props.value}</strong> <span class="small">{props.unit}</span>
      </span>
    </p>
  );
}

/** m that the line is long. */
const LINE = 3000;

function Runway(props: { readonly metres: ReadonlySignal<number>; readonly seconds: ReadonlySignal<number> }) {
  return (
    <div class="paced-runway">
      <RunwayLine metres={props.metres} />
      <p class="small spread row">
        <span>
          Runway used <span class="number">{props.metres}</span> m
        </span>
        <span class="number soft">{props.seconds} s</span>
      </p>
    </div>
  );
}

function RunwayLine(props: { readonly metres: ReadonlySignal<number> }) {
  const used = Math.min(LINE, props.metres.value);
  return (
    <svg viewBox="0 0 300 12" aria-hidden="true" preserveAspectRatio="none">
      <line class="whole" x1="0" x2="300" y1="6" y2="6" />
      <line class="used" x1="0" x2={(300 * used) / LINE} y1="6" y2="6" />
    </svg>
  );
}

/**
 * What was seen, called and done last, the newest at the bottom; its room is kept. In the document the newest is the
 * first: what no longer fits whole goes out of sight.
 */
function Lines(props: { readonly run: PacedRun }) {
  return (
    <div class="paced-lines">
      <ol aria-label="What was called and done" aria-live="polite">
        {[...props.run.lines.value].reverse().map(({ id, who, text }) => (
          <li key={id} class={who === 'You' ? 'own' : ''}>
            <span class="who">{who === '' ? 'You see' : who}: </span>
            <bdi>{text}</bdi>
          </li>
        ))}
      </ol>
    </div>
  );
}

/** Speed and height for those who hear the screen: every 20 kt and every 200 ft, and wherever an untimed run waits. */
function Aloud(props: { readonly run: PacedRun }) {
  const { run } = props;
  return (
    <p class="hidden-visually" aria-live="polite">
      <AloudText run={run} />
    </p>
  );
}

function AloudText(props: { readonly run: PacedRun }) {
  const { run } = props;
  const waits = run.waits.value;
  const knots = waits ? run.knots.peek() : Math.floor(run.knots.value / 20) * 20;
  const feet = waits ? run.feet.peek() : Math.floor(run.feet.value / 200) * 200;
  return <>{feet > 0 ? `${knots} knots, ${feet} feet` : `${knots} knots`}</>;
}

function PauseButton(props: { readonly run: PacedRun }) {
  const { run } = props;
  return (
    <button type="button" class="plain" onClick={() => (run.paused.value ? run.goOn() : run.pause())}>
      {run.paused.value ? 'Go on' : 'Pause'}
    </button>
  );
}

interface FootProps {
  readonly run: PacedRun;
  readonly untimed: boolean;
  readonly seat: string;
}
function Foot(props: FootProps) {
  return props.run.paused.value ? <Paused run={props.run} /> : <Thumb {...props} />;
}

function Paused(props: { readonly run: PacedRun }) {
  const { run } = props;
  return (
    <div class="bar">
      <p role="status">Paused: the run stands still.</p>
      <button type="button" class="main wide" onClick={() => run.goOn()}>
        Go on
      </button>
      <button type="button" class="wide" onClick={() => run.end()}>
        End the run here
      </button>
    </div>
  );
}

function Thumb(props: FootProps) {
  const { run, untimed, seat } = props;
  const group = useRef<HTMLFieldSetElement>(null);
  // Number keys work while the focus is here: it is from the start.
  useEffect(() => group.current?.focus({ preventScroll: true }), []);
  useFit(group);
  const asks = run.asks.value;
  const buttons = run.buttons.value;
  const over = run.ended.value !== null;
  return (
    <fieldset
      class="bar"
      aria-label={
        asks === 'decision'
          ? 'Stop or go on?'
          : asks === 'options'
            ? 'How?'
            : `Your steps${seat === '' ? '' : `, as ${seat}`}`
      }
      tabIndex={-1}
      ref={group}
      onKeyDown={(event) => {
        const at = Number(event.key) - 1;
        if (!/^[1-6]$/.test(event.key) || event.ctrlKey || event.altKey || event.metaKey || at >= buttons.length)
          return;
        event.preventDefault();
        run.press(at);
      }}
    >
      <p class={`small soft paced-asks${asks === 'steps' && !over ? ' is-known' : ''}`}>
        {asks === 'decision'
          ? 'What does the crew do: stop, or go on?'
          : asks === 'options'
            ? 'How?'
            : over
              ? 'The run has ended.'
              : `You${seat === '' ? '' : ` are ${seat}`}. Each step at its cue.`}
      </p>
      <div class="paced-buttons">
        {buttons.map(({ text }, i) => (
          <button
            type="button"
            key={i}
            aria-disabled={over}
            aria-keyshortcuts={String(i + 1)}
            onClick={() => run.press(i)}
          >
            <span class="paced-key number soft" aria-hidden="true">
              {i + 1}
            </span>
            <span dir="auto">{text}</span>
          </button>
        ))}
      </div>
      {untimed && (
        <button type="button" class="wide" disabled={!run.waits.value} onClick={() => run.giveUp()}>
          I do not know
        </button>
      )}
    </fieldset>
  );
}
