import { type Confusion, confusionsOf } from '../../drill/confusions.ts';
import type { Past, PastWanted } from '../../drill/past.ts';
import type { Session } from '../../drill/types.ts';
import type { Learner } from './learner.ts';
import { fittedInUse } from './own-memory.ts';

/** Study days that are looked back on, today among them. */
export const LOOKED_BACK = 28;

/** Reads the whole log, which takes a moment: for screens that are asked for, never at the start. */
export const lookBackOf = async (learner: Learner, wanted: Omit<PastWanted, 'fitted' | 'since'>): Promise<Past> => {
  return learner.device.lookBack(learner.store, {
    ...learner.facts(),
    fitted: await fittedInUse(learner),
    since: learner.today() - LOOKED_BACK + 1,
    ...wanted,
  });
};

export interface DrillPast {
  readonly confusions: readonly Confusion[];
  /** Of the last 28 days. */
  readonly predicted: Past['predicted'];
  readonly sure: Past['sure'];
}

/** What the log tells of a drill and the weeks before it. @throws StoreProblem */
export const drillPastOf = async (learner: Learner, { id }: Session): Promise<DrillPast> => {
  const { answers, predicted, sure } = await lookBackOf(learner, { drill: id });
  const decks = learner.practised.value.map(({ resolved }) => resolved);
  return { confusions: confusionsOf(answers, decks), predicted, sure };
};
