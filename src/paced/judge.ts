import type { Id } from '../model/deck.ts';
import type { PacedGiven, PacedTiming } from '../model/form-paced.ts';
import type { Timed } from './timeline.ts';

export interface Judged {
  readonly step: Timed;
  /** s of the run */
  readonly cueAt: number;
  readonly doneAt: number | null;
  readonly timing: PacedTiming;
  /** Was all done before it that must be? */
  readonly inOrder: boolean;
  /** What was not. */
  readonly behind: readonly Id[];
}

/** Times are kept in hundredths of a second: half of one is nobody's fault. */
const SLACK = 0.005;

/** When each step was done, by whoever had to do it; null where it was not. What the learner did of another's is extra. */
function doneTimes(steps: readonly Timed[], { acts, played }: PacedGiven): (id: Id) => number | null {
  const times = new Map<Id, number>();
  for (const { id, who } of steps) {
    const own = who === 'other' ? undefined : acts.find((one) => one.id === id)?.at;
    const at = own ?? (Object.hasOwn(played, id) ? played[id] : undefined);
    if (typeof at === 'number') times.set(id, at);
  }
  return (id) => times.get(id) ?? null;
}

/**
 * Each step whose cue came, in the order of the cues: in time within the author's tolerance, too early, too late, missing.
 * Where nothing but the step before tells the moment, early is what comes before that one. What the program plays costs
 * the learner nothing: within its tolerance a step waits only for the learner's own.
 */
export function judge(steps: readonly Timed[], given: PacedGiven): readonly Judged[] {
  const doneAt = doneTimes(steps, given);
  const cueOf = (id: Id): number | null => {
    const cue = Object.hasOwn(given.cues, id) ? given.cues[id] : undefined;
    return typeof cue === 'number' ? cue : null;
  };
  const isPlayed = (id: Id): boolean => Object.hasOwn(given.played, id);
  /** Was it done by then, or did it never come up? */
  const isBehind = (id: Id, at: number): boolean =>
    (doneAt(id) ?? Number.POSITIVE_INFINITY) <= at + SLACK || cueOf(id) === null;
  const lateOf = new Map(steps.map(({ id, late }) => [id, late]));
  const isLate = (id: Id): boolean =>
    (doneAt(id) ?? 0) > (cueOf(id) ?? 0) + (lateOf.get(id) ?? Number.POSITIVE_INFINITY) + SLACK;
  const isKept = (id: Id, { trigger }: Timed, at: number, cueAt: number, isEarly: boolean): boolean => {
    // What was left out is told there.
    if (isBehind(id, at) || doneAt(id) === null) return true;
    const cue = cueOf(id) ?? 0;
    // Too early it was before what gives its cue, and before what of the others had not come; that they are slow is
    // nobody's fault.
    const isBase = trigger.at === 'after' && trigger.steps.includes(id);
    if (isPlayed(id)) return !isEarly || (!isBase && cue <= at + SLACK);
    // What was done too late is told there; what comes later was not yet the learner's to do.
    return !isEarly && (isLate(id) || cue > cueAt);
  };

  return steps
    .flatMap((step): Judged[] => {
      const cueAt = cueOf(step.id);
      if (cueAt === null) return [];
      const at = doneAt(step.id);
      const timing = timingOf(step, cueAt, at);
      const behind = at === null ? [] : step.before.filter((id) => !isKept(id, step, at, cueAt, timing === 'early'));
      return [{ step, cueAt, doneAt: at, behind, inOrder: at !== null && behind.length === 0, timing }];
    })
    .sort((a, b) => a.cueAt - b.cueAt);

  function timingOf(step: Timed, cue: number, at: number | null): PacedTiming {
    const own = step.who === 'own' || (step.who === 'either' && !isPlayed(step.id));
    if (!own) return 'played';
    if (at === null) return 'missing';
    if (at > cue + step.late + SLACK) return isStillBy(step) ? 'in-time' : 'late';
    const { trigger, sign } = step;
    const bases = trigger.at === 'after' ? trigger.steps : [];
    // An answer comes after what it answers, however little before; where that was left out, its own cue is what counts.
    // At its cue it is not too early, though that one was done only later: what was late is told there.
    if (sign === 'heard' && at < cue - SLACK && !bases.every((id) => doneAt(id) === null || isBehind(id, at)))
      return 'early';
    if (at >= cue - step.early - SLACK) return 'in-time';
    const follows = sign === 'order' || sign === 'heard';
    const isNext = bases.every((id) => isBehind(id, at)) && step.before.every((id) => isBehind(id, at) || isPlayed(id));
    return follows && isNext ? 'in-time' : 'early';
  }

  /** "By 55 kt" holds up to 55 kt, however slowly they come. */
  function isStillBy({ id, figure }: Timed): boolean {
    const act = given.acts.find((one) => one.id === id);
    const read = figure?.unit === 'kt' ? act?.knots : act?.feet;
    return figure?.sense === 'by' && read !== undefined && read <= figure.value;
  }
}

/** Of the last thing that is known of a run, s. */
const lastOf = ({ acts, cues, played, failed }: PacedGiven): number =>
  Math.max(0, failed?.at ?? 0, ...acts.map(({ at }) => at), ...Object.values(cues), ...Object.values(played));

/**
 * What was tapped though it was not the learner's, or not a second time, or so early that its cue did not come before the
 * run ended: only what was within its tolerance then, or followed what it follows, may have been meant.
 */
export const extrasOf = (
  steps: readonly Timed[],
  given: PacedGiven,
): readonly { readonly id: Id; readonly text: string; readonly at: number }[] => {
  const seen = new Set<Id>();
  const last = lastOf(given);
  const doneAt = doneTimes(steps, given);
  const mayBeMeant = ({ id, early, trigger }: Timed, at: number): boolean =>
    Object.hasOwn(given.cues, id) ||
    at >= last - early - SLACK ||
    (trigger.at === 'after' && trigger.steps.every((base) => (doneAt(base) ?? Number.POSITIVE_INFINITY) <= at + SLACK));
  return given.acts.flatMap(({ id, at, text }) => {
    if (id === 'stop' || id === 'go') return [];
    const step = steps.find((one) => one.id === id && one.who !== 'other');
    const isFirst = !seen.has(id);
    seen.add(id);
    if (step !== undefined && isFirst && mayBeMeant(step, at)) return [];
    return [{ id, at, text: text ?? step?.text ?? id }];
  });
};
