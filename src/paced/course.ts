/** How a paced run goes: a pure reducer over small steps of time and the learner's taps. */
import type { Id, Paced, PacedMoment } from '../model/deck.ts';
import type { PacedGiven } from '../model/form-paced.ts';
import { KNOT } from '../subjects/paced/force.ts';
import { feetOf, knotsOf, type Motion, move, pathOf, STEP, shownFeet, shownKnots, standing } from './motion.ts';
import type { Timed } from './timeline.ts';

/** What does not change during a run. */
export interface Plan {
  readonly paced: Paced;
  readonly steps: readonly Timed[];
  /** Ids of the learner's steps, in the order in which a crew that does everything in time comes to them. */
  readonly expected: readonly Id[];
  /** kt at which an engine fails; null: none does. */
  readonly fails: number | null;
  /** kt */
  readonly v1: number | null;
  /** kt */
  readonly headwind: number;
}

type Times = Readonly<Record<Id, number>>;

export interface Course {
  readonly motion: Motion;
  /** s at which take-off thrust was set, and the nose began to rise. */
  readonly set: number | null;
  readonly rotated: number | null;
  readonly moments: Readonly<Partial<Record<PacedMoment, number>>>;
  /** Speed at which an engine failed, kt. */
  readonly failed: number | null;
  readonly cues: Times;
  /** By the learner. */
  readonly acts: PacedGiven['acts'];
  readonly done: Times;
  /** By the others. */
  readonly played: Times;
  /** The learner's that are no longer waited for. */
  readonly dropped: Times;
  /** s at which stop or go was asked; null: it was not, or it was answered. */
  readonly asked: number | null;
  readonly wasAsked: boolean;
  /** s since when a step's own choice stands where the steps are; null: they can be tapped, or stop or go is asked. */
  readonly choosing: number | null;
  readonly decision: 'stop' | 'go' | null;
  /** Of the last cue, action or call. */
  readonly last: number;
  /** stopped: a failure below V1. stalled: nothing more can come. */
  readonly ended: 'through' | 'stopped' | 'stalled' | null;
}

/** s that the other pilot takes for what was said or done. Invented: nobody answers at once. */
const REACTION = 0.6;
/** A speed or a height is seen coming, and called as it is reached. */
const reactionTo = ({ trigger: { at } }: Timed): number => (at === 'speed' || at === 'height' ? 0 : REACTION);
/** s beyond its tolerance during which a step may still be done, too late. */
const GRACE = 6;
/** s in which stop or go must be said. Invented. */
const DECIDE = 4;
/** ft: the screen of a take-off, from which it counts as climbing (CS-25.113). */
const SCREEN = 35;
/** s without anything, while nothing comes nearer. */
const STALL = 20;
const MOST = 900;

export const begin = (plan: Plan): Course => ({
  motion: standing({ headwind: plan.headwind * KNOT }),
  set: null,
  rotated: null,
  moments: { start: 0 },
  failed: null,
  cues: {},
  acts: [],
  done: {},
  played: {},
  dropped: {},
  asked: null,
  wasAsked: false,
  choosing: null,
  decision: null,
  last: 0,
  ended: null,
});

const isIn = (times: Times, id: Id): boolean => Object.hasOwn(times, id);
const settled = (c: Course, { id }: Timed): boolean => isIn(c.done, id) || isIn(c.played, id) || isIn(c.dropped, id);
/** Was the failure below V1? Then nothing comes but the call to stop. */
const isStopping = (plan: Plan, c: Course): boolean =>
  c.failed !== null && plan.v1 !== null && c.failed < plan.v1 && c.moments.failure !== undefined;
const atFailure = ({ trigger }: Timed): boolean => trigger.at === 'moment' && trigger.moment === 'failure';

/** Steps that may come, as far as is known. */
const holds = (c: Course, { holds: when }: Timed): boolean =>
  when === 'always' || (when === 'failed') === (c.failed !== null);

/** The learner's steps whose cue came and that are still to be done. */
export const due = (plan: Plan, c: Course): readonly Timed[] =>
  plan.steps.filter((one) => one.who === 'own' && isIn(c.cues, one.id) && !settled(c, one));

/** From when on steps that follow may count from it: when it was done, or given up as not done in time. */
function baseOf(plan: Plan, c: Course, id: Id): number | null {
  const at = c.done[id] ?? c.played[id];
  if (at !== undefined) return at;
  const step = plan.steps.find((one) => one.id === id);
  // What does not come in this run keeps nothing waiting.
  if (step === undefined || (!holds(c, step) && !isIn(c.cues, id))) return 0;
  const cue = c.cues[id];
  if (cue === undefined) return null;
  const over = c.dropped[id] ?? cue + step.late;
  return over <= c.motion.t ? over : null;
}

function hasCome(plan: Plan, c: Course, { trigger }: Timed): boolean {
  switch (trigger.at) {
    case 'speed':
      // The wind alone, at a standstill, is no speed that anything is done at.
      return c.set !== null && knotsOf(c.motion) >= trigger.knots;
    case 'height':
      return c.motion.off !== null && feetOf(c.motion) >= trigger.feet;
    case 'moment':
      return c.moments[trigger.moment] !== undefined;
    case 'after': {
      const bases = trigger.steps.map((id) => baseOf(plan, c, id));
      if (bases.includes(null)) return false;
      return Math.max(0, ...(bases as number[])) + trigger.seconds <= c.motion.t + 1e-9;
    }
  }
}

const enginesOf = ({ paced: { aeroplane } }: Plan, c: Course): number => {
  if (c.set === null) return 0;
  const share = aeroplane.spoolUp <= 0 ? 1 : Math.min(1, (c.motion.t - c.set) / aeroplane.spoolUp);
  return share * (aeroplane.engines - (c.failed === null ? 0 : 1));
};

/** When a step that moves the aeroplane takes effect: done, but not before its cue; not done, the run goes on without. */
const takesEffect = (plan: Plan, c: Course, id: Id | undefined, absent: number | null): number | null => {
  const step = plan.steps.find((one) => one.id === id);
  if (step === undefined) return absent;
  const cue = c.cues[step.id];
  return cue !== undefined && baseOf(plan, c, step.id) !== null ? c.motion.t : null;
};

/** One step of time on. */
function tick(plan: Plan, before: Course): Course {
  const { aeroplane, sets, rotates } = plan.paced;
  const motion = move(aeroplane, before.motion, {
    engines: enginesOf(plan, before),
    rotating: before.rotated !== null,
    headwind: plan.headwind * KNOT,
  });
  const { t } = motion;
  let c: Course = { ...before, motion };
  c = withMoments(plan, c);
  if (c.set === null) c = { ...c, set: takesEffect(plan, c, sets, t) };
  if (c.rotated === null) c = { ...c, rotated: takesEffect(plan, c, rotates, null) };

  const stopping = isStopping(plan, c);
  for (const step of plan.steps) {
    const cue = c.cues[step.id];
    if (cue === undefined) {
      // What was done too early has its cue all the same: by how much it was too early is told.
      if (!holds(c, step) || (stopping && !atFailure(step)) || !hasCome(plan, c, step)) continue;
      c = { ...c, cues: { ...c.cues, [step.id]: t }, last: t };
    } else if (settled(c, step)) continue;
    else if (step.who === 'other' ? t >= cue + reactionTo(step) : step.who === 'either' && t >= cue + step.late) {
      c = { ...c, played: { ...c.played, [step.id]: t }, last: t };
    } else if (step.who === 'own' && (c.asked ?? c.choosing) === null && t >= cue + step.late + GRACE) {
      c = { ...c, dropped: { ...c.dropped, [step.id]: t }, last: t };
    }
  }
  return withEnd(plan, c, before);
}

function withMoments(plan: Plan, c: Course): Course {
  const { motion } = c;
  const { t } = motion;
  let moments = c.moments;
  if (motion.off !== null && moments['lift-off'] === undefined) moments = { ...moments, 'lift-off': t };
  if (motion.off !== null && feetOf(motion) >= SCREEN && moments.climbing === undefined)
    moments = { ...moments, climbing: t };
  if (plan.fails === null || c.failed !== null || knotsOf(motion) < plan.fails)
    return moments === c.moments ? c : { ...c, moments };
  // Where the procedures say nothing of the failure itself, the learner is asked.
  const told = plan.steps.some(atFailure);
  return {
    ...c,
    moments: { ...moments, failure: t },
    failed: knotsOf(motion),
    asked: told ? null : t,
    wasAsked: !told,
    last: t,
  };
}

function withEnd(plan: Plan, c: Course, before: Course): Course {
  const { t } = c.motion;
  if (c.asked !== null && t >= c.asked + DECIDE) return after(plan, { ...excused(plan, c, c.asked), asked: null });
  if (c.asked !== null) return c;
  const waiting = plan.steps.filter((one) => !settled(c, one) || !isIn(c.cues, one.id));
  if (isStopping(plan, c))
    return waiting.some((one) => atFailure(one) && holds(c, one)) ? c : { ...c, ended: 'stopped' };
  const left = waiting.filter((one) => mayCome(plan, c, one));
  if (left.length === 0) return { ...c, ended: 'through' };
  if (t - c.last < STALL) return c;
  return t - c.last > MOST || !left.some((one) => comesNearer(plan, c, before, one)) ? { ...c, ended: 'stalled' } : c;
}

/** What an engine failure brings is waited for where one comes. */
const mayCome = (plan: Plan, c: Course, one: Timed): boolean =>
  holds(c, one) || (one.holds === 'failed' && plan.fails !== null && c.failed === null);

/** Is what the cue waits for on its way? */
function comesNearer(plan: Plan, c: Course, before: Course, one: Timed): boolean {
  if (isIn(c.cues, one.id)) return true;
  const { trigger } = one;
  const gains = (c.motion.air - before.motion.air) / STEP > 0.005;
  const climbs = c.motion.off !== null && pathOf(plan.paced.aeroplane, c.motion) > 0.2;
  switch (trigger.at) {
    case 'speed':
      return gains;
    case 'height':
      return climbs || (c.motion.off === null && gains && c.rotated !== null);
    case 'moment':
      return trigger.moment === 'failure' ? gains && plan.fails !== null : c.rotated !== null && (gains || climbs);
    case 'after':
      return trigger.steps.every((id) => baseOf(plan, c, id) !== null);
  }
}

/**
 * While a question stood where the steps stand, none of them could be tapped: what could still be done in time when it
 * came has its cue now, as its button has.
 * @param since s
 */
function excused(plan: Plan, c: Course, since: number): Course {
  const { t } = c.motion;
  const open = due(plan, c).filter(({ id, late }) => (c.cues[id] as number) + late >= since);
  return { ...c, cues: { ...c.cues, ...Object.fromEntries(open.map(({ id }) => [id, t])) }, last: t };
}

const after = (plan: Plan, c: Course): Course => (isStopping(plan, c) ? { ...c, ended: 'stopped' } : c);

/** @param ticks steps of `STEP` s; a run that has ended stays as it is */
export function advance(plan: Plan, course: Course, ticks: number): Course {
  let c = course;
  for (let i = 0; i < ticks && c.ended === null; i++) c = tick(plan, c);
  return c;
}

/** Untimed: on to the next step of the learner, or to the end. Nothing happens while one is due. */
export function toNextCue(plan: Plan, course: Course): Course {
  let c = course;
  while (c.ended === null && c.asked === null && due(plan, c).length === 0) c = tick(plan, c);
  return c;
}

/** The learner taps something at this moment. @param text of the button, where it is none of the learner's steps */
export function act(plan: Plan, c: Course, id: Id, text?: string): Course {
  const { t } = c.motion;
  if (c.ended !== null) return c;
  if (c.asked !== null && (id === 'stop' || id === 'go'))
    return after(plan, { ...excused(plan, c, c.asked), asked: null, decision: id, acts: [...c.acts, { id, at: t }] });
  const step = plan.steps.find((one) => one.id === id && one.who !== 'other');
  const acts = [...c.acts, { id, at: t, ...readOf(c), ...(step === undefined && text !== undefined && { text }) }];
  if (step === undefined || settled(c, step)) return { ...c, acts };
  return { ...c, acts, done: { ...c.done, [id]: t }, last: t };
}

/** As it is read: whole knots, feet in tens. */
const readOf = ({ motion }: Course): { readonly knots: number; readonly feet?: number } => ({
  knots: shownKnots(motion),
  ...(motion.off !== null && { feet: shownFeet(motion) }),
});

/** From now on the options of a step stand where the steps are. */
export const offer = (c: Course): Course => ({ ...c, choosing: c.motion.t });

/** The option of a step that the wind decides, once it was tapped; null: which is not known. */
export const choose = (plan: Plan, before: Course, id: Id, choice: Id | null): Course => {
  const c = before.choosing === null ? before : { ...excused(plan, before, before.choosing), choosing: null };
  const at = c.acts.findIndex((one) => one.id === id);
  const answer = choice === null ? { unknown: true as const } : { choice };
  return at < 0 ? c : { ...c, acts: c.acts.map((one, i) => (i === at ? { ...one, ...answer } : one)) };
};

/** Untimed: what is due is not known. */
export const giveUp = (plan: Plan, c: Course): Course => {
  const { t } = c.motion;
  if (c.asked !== null) return after(plan, { ...c, asked: null, last: t });
  return { ...c, dropped: { ...c.dropped, ...Object.fromEntries(due(plan, c).map(({ id }) => [id, t])) }, last: t };
};

/** What could still be done in time when the run ended has no cue: nobody left it out. */
const cuesOver = (plan: Plan, c: Course): Times => {
  const open = due(plan, c).filter(({ id, late }) => (c.cues[id] as number) + late > c.motion.t);
  return Object.fromEntries(Object.entries(c.cues).filter(([id]) => !open.some((one) => one.id === id)));
};

export const givenOfCourse = (plan: Plan, c: Course): PacedGiven => {
  const { acts, played, failed, moments, decision, wasAsked } = c;
  return {
    acts: acts.map((one) => ({ ...one, at: hundredths(one.at) })),
    cues: rounded(cuesOver(plan, c)),
    played: rounded(played),
    ...(failed !== null &&
      moments.failure !== undefined && {
        failed: { at: hundredths(moments.failure), speed: Math.round(failed * 10) / 10 },
      }),
    ...(wasAsked && { asked: true as const }),
    ...(decision !== null && { decision }),
  };
};

const hundredths = (s: number): number => Math.round(s * 100) / 100;
const rounded = (times: Times): Times =>
  Object.fromEntries(Object.entries(times).map(([id, at]) => [id, hundredths(at)]));

/** A crew that does everything the moment it is due. */
export function rehearsed(plan: Plan): Course {
  let c = begin(plan);
  while (c.ended === null) {
    if (c.asked !== null) c = act(plan, c, isStopping(plan, c) ? 'stop' : 'go');
    for (const { id } of due(plan, c)) c = act(plan, c, id);
    if (c.ended === null) c = tick(plan, c);
  }
  return c;
}
