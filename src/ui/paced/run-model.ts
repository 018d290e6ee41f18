import { batch, computed, type ReadonlySignal, signal } from '@preact/signals';
import type { PacedStart } from '../../drill/paced.ts';
import type { PacedGiven } from '../../model/form.ts';
import {
  act,
  advance,
  begin,
  type Course,
  choose,
  due,
  givenOfCourse,
  giveUp,
  offer,
  toNextCue,
} from '../../paced/course.ts';
import { firstHand, type Hand, nextHand } from '../../paced/hand.ts';
import { STEP, shownFeet, shownKnots } from '../../paced/motion.ts';
import type { Timed } from '../../paced/timeline.ts';
import { newsOf, stateWords } from './news.ts';
import type { Voice } from './voice.ts';

export interface Line {
  readonly id: number;
  /** '' for what is seen. */
  readonly who: string;
  readonly text: string;
}
export interface Pressable {
  readonly id: string;
  readonly text: string;
}

/** A run while it is played. Whoever shows it calls `frame`. */
export interface PacedRun {
  /** Whole numbers, so that nothing is drawn anew in between. kt, ft, m (in tens), s. */
  readonly knots: ReadonlySignal<number>;
  readonly feet: ReadonlySignal<number>;
  readonly metres: ReadonlySignal<number>;
  readonly seconds: ReadonlySignal<number>;
  readonly state: ReadonlySignal<string>;
  readonly lines: ReadonlySignal<readonly Line[]>;
  /** What stands at the thumb, and what of: steps, the options of one, stop or go. */
  readonly buttons: ReadonlySignal<readonly Pressable[]>;
  readonly asks: ReadonlySignal<'steps' | 'options' | 'decision'>;
  readonly paused: ReadonlySignal<boolean>;
  /** Not begun: the scene is read first. */
  readonly ready: ReadonlySignal<boolean>;
  readonly ended: ReadonlySignal<Course['ended']>;
  /** Untimed: something of the learner's is due. */
  readonly waits: ReadonlySignal<boolean>;
  press(button: number): void;
  /** Untimed: what is due is not known. */
  giveUp(): void;
  pause(): void;
  goOn(): void;
  begin(): void;
  /** Ends it here. */
  end(): void;
  /** @param ms monotonic */
  frame(ms: number): void;
  given(): PacedGiven;
  /** Visible ms. */
  spent(): number;
}

/** A frame that was held up counts no more than this, ms: nothing rushes past unseen. */
const LONGEST_FRAME = 250;
/** For so long what came to where a tap fell takes none, ms: a second one on the same spot was meant for what stood there. */
const BOUNCE = 350;
/** Lines that are kept. */
const MOST_LINES = 5;

export const createPacedRun = (
  { plan, shown, others }: PacedStart,
  labels: { crew(by: string): string; readonly failure: string },
  voice: () => Voice | null,
): PacedRun => {
  let course: Course = begin(plan);
  let hand: Hand = firstHand(plan, course, others, shown.seed);
  let before: number | null = null;
  let behind = 0;
  let spent = 0;
  let count = 0;
  /** Where the last step was tapped, and when by the frames; null: what stands there is what was tapped. */
  let fresh: { readonly at: number; readonly ms: number } | null = null;
  const untimed = shown.stretch === 0;
  const knots = signal(0);
  const feet = signal(0);
  const metres = signal(0);
  const seconds = signal(0);
  const state = signal(stateWords(plan, course));
  const lines = signal<readonly Line[]>([]);
  const dealt = signal<readonly Pressable[]>(hand.buttons);
  /** Step whose option is asked. */
  const choosing = signal<Timed | null>(null);
  const deciding = signal(false);
  const paused = signal(false);
  const ready = signal(true);
  const ended = signal<Course['ended']>(null);
  const stands = signal(false);

  const say = (who: string, text: string) => {
    count += 1;
    lines.value = [...lines.value, { id: count, who, text }].slice(-MOST_LINES);
  };
  /** Shows what became of it. */
  const show = (next: Course) =>
    batch(() => {
      for (const one of newsOf(plan, course, next, labels)) {
        say(one.who, one.text);
        if (one.spoken !== null) voice()?.say(one.spoken);
      }
      // Most frames change nothing but figures.
      const changed =
        next.cues !== course.cues ||
        next.done !== course.done ||
        next.dropped !== course.dropped ||
        next.failed !== course.failed;
      course = next;
      if (changed) {
        hand = nextHand(plan, course, others, hand);
        dealt.value = hand.buttons;
      }
      knots.value = shownKnots(course.motion);
      feet.value = shownFeet(course.motion);
      metres.value = Math.floor((course.motion.off?.ground ?? course.motion.ground) / 10) * 10;
      seconds.value = Math.floor(course.motion.t);
      state.value = stateWords(plan, course);
      deciding.value = course.asked !== null;
      stands.value = untimed && (course.asked !== null || due(plan, course).length > 0);
      ended.value = course.ended;
    });
  const settle = () => {
    if (untimed && choosing.peek() === null) show(toNextCue(plan, course));
  };
  const options = computed((): readonly Pressable[] => (choosing.value === null ? [] : (shown.wind?.choices ?? [])));
  const waits = computed(() => stands.value || (untimed && choosing.value !== null));
  const asks = computed(() => (deciding.value ? 'decision' : choosing.value === null ? 'steps' : 'options'));
  const DECISION: readonly Pressable[] = [
    { id: 'stop', text: 'Stop' },
    { id: 'go', text: 'Go on' },
  ];
  const buttons = computed(() =>
    asks.value === 'decision' ? DECISION : asks.value === 'options' ? options.value : dealt.value,
  );

  return {
    knots,
    feet,
    metres,
    seconds,
    state,
    lines,
    buttons,
    asks,
    paused,
    ready,
    ended,
    waits,
    press: (at) => {
      const button = buttons.peek()[at];
      if (button === undefined || ready.peek() || paused.peek() || ended.peek() !== null) return;
      if (asks.peek() === 'steps' && fresh !== null && fresh.at === at && (before ?? 0) - fresh.ms < BOUNCE) return;
      batch(() => {
        const asked = choosing.peek();
        if (asks.peek() === 'options' && asked !== null) {
          show(choose(plan, course, asked.id, button.id));
          say('You', button.text);
          choosing.value = null;
        } else {
          say('You', button.text);
          show(act(plan, course, button.id, button.text));
          const step = plan.steps.find(({ id, who }) => id === button.id && who !== 'other');
          if (step?.byWind && shown.wind !== undefined) {
            choosing.value = step;
            course = offer(course);
          }
        }
        settle();
      });
      const isNew = before !== null && buttons.peek()[at]?.id !== button.id;
      fresh = isNew ? { at, ms: before as number } : null;
    },
    giveUp: () => {
      batch(() => {
        const asked = choosing.peek();
        choosing.value = null;
        show(asked === null ? giveUp(plan, course) : choose(plan, course, asked.id, null));
        settle();
      });
    },
    pause: () => {
      paused.value = true;
      voice()?.stop();
    },
    goOn: () => {
      paused.value = false;
      before = null;
    },
    begin: () => {
      ready.value = false;
      before = null;
    },
    end: () => {
      voice()?.stop();
      show({ ...course, ended: course.ended ?? 'stalled' });
    },
    frame: (ms) => {
      const passed = before === null ? 0 : Math.min(LONGEST_FRAME, ms - before);
      before = ms;
      if (ready.peek() || paused.peek() || ended.peek() !== null) return;
      spent += passed;
      if (untimed) {
        if (course.motion.t === 0) settle();
        return;
      }
      behind += passed / 1000 / shown.stretch;
      const ticks = Math.floor(behind / STEP);
      behind -= ticks * STEP;
      if (ticks > 0) show(advance(plan, course, ticks));
    },
    given: () => givenOfCourse(plan, course),
    spent: () => spent,
  };
};
