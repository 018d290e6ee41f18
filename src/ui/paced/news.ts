import type { Course, Plan } from '../../paced/course.ts';
import { pathOf } from '../../paced/motion.ts';

export interface News {
  /** '' for what is seen. */
  readonly who: string;
  readonly text: string;
  /** What a voice says of it; null: nothing. */
  readonly spoken: string | null;
}

/** What came about between two moments: what is seen, and what the others did and said. */
export const newsOf = (
  plan: Plan,
  before: Course,
  now: Course,
  labels: { crew(by: string): string; readonly failure: string },
): readonly News[] => {
  if (before.cues === now.cues && before.played === now.played && before.failed === now.failed) return [];
  const out: { readonly at: number; readonly news: News }[] = [];
  const seen = (at: number, text: string) => out.push({ at, news: { who: '', text, spoken: null } });
  if (before.failed === null && now.failed !== null) seen(now.moments.failure ?? 0, labels.failure);
  for (const step of plan.steps) {
    const { id, sign, who, cue, text, said, run } = step;
    const came = now.cues[id];
    if (came !== undefined && before.cues[id] === undefined && sign === 'told' && who === 'own' && cue !== null)
      seen(came, cue);
    const played = now.played[id];
    if (played !== undefined && before.played[id] === undefined)
      out.push({ at: played, news: { who: labels.crew(run.step.by ?? ''), text, spoken: said } });
  }
  return out.sort((a, b) => a.at - b.at).map(({ news }) => news);
};

/** What thrust and aeroplane do, in plain words. */
export const stateWords = (plan: Plan, { motion, set, rotated, failed }: Course): string => {
  const { aeroplane } = plan.paced;
  // The scene says whether it stands or rolls onto the runway.
  if (set === null) return 'Not yet at take-off thrust';
  const thrust =
    failed !== null
      ? 'One engine has failed'
      : plan.paced.sets !== undefined && motion.t < set + aeroplane.spoolUp
        ? 'Thrust coming up'
        : 'Take-off thrust';
  const moves =
    motion.off !== null
      ? pathOf(aeroplane, motion) > 0
        ? 'climbing'
        : 'in the air'
      : rotated !== null
        ? 'nose coming up'
        : motion.ground > 0
          ? 'rolling'
          : 'standing';
  return `${thrust}, ${moves}`;
};
