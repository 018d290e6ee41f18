import { allOffers, itemsOf, offersAhead } from '../../drill/world.ts';
import { DEFAULT_MODEL } from '../../memory/fsrs.ts';
import { itemSeconds, planRows } from '../../memory/plan/input.ts';
import { FARTHEST } from '../../memory/plan/solve.ts';
import type { PlanInput } from '../../memory/plan/types.ts';
import type { Item } from '../../model/item.ts';
import { type Course, courseOf, shortDay } from '../words.ts';
import { ownCheckDays, thingOf } from './check-groups.ts';
import { inPieces, pause } from './in-pieces.ts';
import type { Learner, Practised } from './learner.ts';
import { groupTitle } from './titles.ts';

/** What is asked of the planner. */
export interface PlanAsk {
  readonly input: PlanInput;
  readonly labels: readonly string[];
  readonly groupOf: Int32Array;
  readonly groups: readonly string[];
  readonly minutes: number;
  readonly answers: number;
}

const decksOf = (learner: Learner, course: Course): readonly Practised[] =>
  learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === course);

/** The learner's own weights of memory, where they are in use. */
const weightsOf = (learner: Learner): Pick<PlanInput, 'weights'> | null => {
  const { model } = learner.memory.value;
  return model === DEFAULT_MODEL ? null : { weights: model.weights };
};

/**
 * All that a plan depends on, but for the answers: one is made in the morning, and holds for the day.
 * `same`: without the day and the minutes.
 */
export const planKey = (learner: Learner, course: Course): { readonly key: string; readonly same: string } => {
  const decks = decksOf(learner, course).map(({ stored }) => [stored.ref, learner.flown(stored.id)]);
  const own = weightsOf(learner)?.weights ?? null;
  const days = [learner.checkDay(course), ...ownCheckDays(learner, course)];
  const same = JSON.stringify([learner.device.build.version, decks, days, own]);
  return { same, key: `${learner.today()} ${learner.minutes(course)} ${same}` };
};

/** Makes the questions of a course ahead, with pauses: both the planner and a drill ask for all of them. */
export const readyToAsk = async (learner: Learner, course: Course): Promise<void> => {
  await pause();
  const decks = decksOf(learner, course).map(({ resolved }) => resolved);
  await inPieces(offersAhead(decks), learner.device.elapsed);
  await pause();
};

/** @returns null where there is nothing to plan: no check ahead, one too far off, no questions */
export const planAsk = (learner: Learner, course: Course): PlanAsk | null => {
  const day = learner.today();
  const checkDay = learner.checkDay(course);
  if (checkDay === null || checkDay <= day || checkDay - day > FARTHEST) return null;
  const practised = decksOf(learner, course);
  const decks = practised.map(({ resolved }) => resolved);
  const memory = learner.memory.value;
  const seconds = itemSeconds(allOffers({ decks, memory }).map(({ offer }) => offer));
  const all = itemsOf(decks);
  const own = ownCheckDays(learner, course);
  const checkDayOf = (item: Item): number => own.get(thingOf(item) ?? '') ?? checkDay;
  const { keys, items } = planRows(all, memory, seconds, day, own.size === 0 ? undefined : checkDayOf);
  if (keys.length === 0) return null;
  const byKey = new Map(all.map((item) => [item.key, item]));
  const groups: string[] = [];
  const labels: string[] = [];
  const groupOf = Int32Array.from(keys, (key) => {
    const item = byKey.get(key);
    if (item === undefined) return -1;
    labels.push(item.label);
    const plain = groupTitle(practised, item);
    const title = checkDayOf(item) === checkDay ? plain : `${plain} · ${shortDay(checkDayOf(item))}`;
    const known = groups.indexOf(title);
    return known >= 0 ? known : groups.push(title) - 1;
  });
  const minutes = learner.minutes(course);
  const input = { items, day, checkDay, minutes, ...weightsOf(learner) };
  return { input, labels, groupOf, groups, minutes, answers: memory.answers };
};
