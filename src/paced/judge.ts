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
 * Where nothing but the step before tells the moment, early is what comes before that one.
 */
export function judge(steps: readonly Timed[], given: PacedGiven): readonly Judged[] {
  const doneAt = doneTimes(steps, given);
  const cueOf = (id: Id): number | null => {
    const cue = Object.hasOwn(given.cues, id) ? given.cues[id] : undefined;
    return typeof cue === 'number' ? cue : null;
  };
  /** Was it done by then, or did it never come up? */
  const isBehind = (id: Id, at: number): boolean =>
    (doneAt(id) ?? Number.POSITIVE_INFINITY) <= at + SLACK || cueOf(id) === null;
  const lateOf = new Map(steps.map(({ id, late }) => [id, late]));
  const isLate = (id: Id): boolean =>
    (doneAt(id) ?? 0) > (cueOf(id) ?? 0) + (lateOf.get(id) ?? Number.POSITIVE_INFINITY) + SLACK;
  /** Before its own cue a step waits for all that goes before; from then on for what of it is the learner's and was due. */
  const isKept = (id: Id, at: number, cueAt: number): boolean =>
    // What was left out, or done too late, is told there.
    isBehind(id, at) ||
    doneAt(id) === null ||
    (at >= cueAt - SLACK && isLate(id)) ||
    (at >= cueAt - SLACK && (Object.hasOwn(given.played, id) || (cueOf(id) ?? 0) > cueAt));

  return steps
    .flatMap((step): Judged[] => {
      const cueAt = cueOf(step.id);
      if (cueAt === null) return [];
      const at = doneAt(step.id);
      const inOrder = at !== null && step.before.every((id) => isKept(id, at, cueAt));
      return [{ step, cueAt, doneAt: at, inOrder, timing: timingOf(step, cueAt, at) }];
    })
    .sort((a, b) => a.cueAt - b.cueAt);

  function timingOf(step: Timed, cue: number, at: number | null): PacedTiming {
    const own = step.who === 'own' || (step.who === 'either' && !Object.hasOwn(given.played, step.id));
    if (!own) return 'played';
    if (at === null) return 'missing';
    if (at > cue + step.late + SLACK) return 'late';
    const { trigger, sign } = step;
    const bases = trigger.at === 'after' ? trigger.steps : [];
    // An answer comes after what it answers, however little before.
    if (sign === 'heard' && !bases.every((id) => isBehind(id, at))) return 'early';
    if (at >= cue - step.early - SLACK) return 'in-time';
    const follows = sign === 'order' || sign === 'heard';
    return follows && [...bases, ...step.before].every((id) => isBehind(id, at)) ? 'in-time' : 'early';
  }
}

/** What was tapped though it was not the learner's, or not a second time. */
export const extrasOf = (
  steps: readonly Timed[],
  given: PacedGiven,
): readonly { readonly id: Id; readonly text: string; readonly at: number }[] => {
  const seen = new Set<Id>();
  return given.acts.flatMap(({ id, at, text }) => {
    if (id === 'stop' || id === 'go') return [];
    const step = steps.find((one) => one.id === id && one.who !== 'other');
    const isFirst = !seen.has(id);
    seen.add(id);
    if (step !== undefined && isFirst) return [];
    return [{ id, at, text: text ?? step?.text ?? id }];
  });
};
