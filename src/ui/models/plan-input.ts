import { allOffers, itemsOf, offersAhead, readingOf, type World } from '../../drill/world.ts';
import { DEFAULT_MODEL } from '../../memory/fsrs.ts';
import { itemSeconds, planRows } from '../../memory/plan/input.ts';
import { FARTHEST } from '../../memory/plan/solve.ts';
import type { PlanInput } from '../../memory/plan/types.ts';
import type { Item, ItemKey } from '../../model/item.ts';
import type { Resolved } from '../../subjects/resolved.ts';
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

/** Decks of a course as a drill sees them: with what was amended, and what a later revision takes out before the check. */
export const decksAsked = (learner: Learner, course: Course): Pick<World, 'decks' | 'amended' | 'leaving'> => {
  const practised = decksOf(learner, course);
  return {
    decks: practised.map(({ resolved }) => resolved),
    amended: union(practised.map((one) => one.amended())),
    leaving: union(practised.map((one) => one.leaving())),
  };
};

const union = (all: readonly ReadonlySet<ItemKey>[]): ReadonlySet<ItemKey> =>
  all.length === 1 ? (all[0] ?? new Set()) : new Set(all.flatMap((one) => [...one]));

/** As they will be asked on the day of the check: what is planned for. */
const decksAtCheck = (learner: Learner, course: Course): readonly Resolved[] =>
  decksOf(learner, course).map((one) => one.atCheck()?.resolved ?? one.resolved);

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
  const decks = decksOf(learner, course).map((one) => [
    one.atCheck()?.ref ?? one.stored.ref,
    learner.flown(one.stored.id),
  ]);
  const own = weightsOf(learner)?.weights ?? null;
  const days = [learner.checkDay(course), ...ownCheckDays(learner, course)];
  const same = JSON.stringify([learner.device.build.version, decks, days, own]);
  return { same, key: `${learner.today()} ${learner.minutes(course)} ${same}` };
};

/** Makes the questions of a course ahead, with pauses: both the planner and a drill ask for all of them. */
export const readyToAsk = async (learner: Learner, course: Course): Promise<void> => {
  await pause();
  const decks = decksOf(learner, course).map(({ resolved }) => resolved);
  const ahead = decksAtCheck(learner, course).filter((one) => !decks.includes(one));
  await inPieces(offersAhead([...decks, ...ahead]), learner.device.elapsed);
  await pause();
};

/**
 * Planned for are the items that are asked on the check day. Where a revision comes into force before it, what it
 * changes counts as not met from now on, though it is asked only from then; what it takes out is no part of the plan,
 * and kept at its target until then.
 * @returns null where there is nothing to plan: no check ahead, one too far off, no questions
 */
export const planAsk = (learner: Learner, course: Course): PlanAsk | null => {
  const day = learner.today();
  const checkDay = learner.checkDay(course);
  if (checkDay === null || checkDay <= day || checkDay - day > FARTHEST) return null;
  const practised = decksOf(learner, course);
  const decks = decksAtCheck(learner, course);
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
  const reading = readingOf(
    keys.flatMap((key) => byKey.get(key) ?? []),
    memory,
  );
  const input = { items, day, checkDay, minutes, reading, ...weightsOf(learner) };
  return { input, labels, groupOf, groups, minutes, answers: memory.answers };
};
