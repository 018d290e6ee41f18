import { next, recall, type State } from '../../../helpers/independent-fsrs.ts';

/** A problem small enough to try all there is. Days are counted from 0; the check is on day `days`. */
export interface Tiny {
  readonly days: number;
  /** s a day. */
  readonly budget: number;
  readonly seconds: readonly number[];
  /** Memory and days since the last answer; null = never met. */
  readonly items: readonly (readonly [State, number] | null)[];
  readonly reading: number;
  readonly right: { readonly unsure: number; readonly sound: number };
  readonly first: { readonly missed: number; readonly unsure: number; readonly sound: number };
  readonly reward: (recall: number) => number;
}

/** One item on its way: memory and the day of the last answer. */
export type Now = readonly [State, number] | null;

const begin = ({ items }: Tiny): Now[] => items.map((one) => one && [one[0], -one[1]]);

/** What an answer on a day can lead to, with chances. Grades 1..3: failed, hard, good. */
const answers = (tiny: Tiny, now: Now, day: number): (readonly [number, Now])[] => {
  if (now === null) {
    const { missed, unsure, sound } = tiny.first;
    return ([missed, unsure, sound] as const).map((p, i) => [p, [next(null, 0, (i + 1) as 1 | 2 | 3), day]] as const);
  }
  const [state, last] = now;
  const r = recall(day - last, state.s);
  const { unsure, sound } = tiny.right;
  return ([1 - r, r * unsure, r * sound] as const).map(
    (p, i) => [p, [next(state, day - last, (i + 1) as 1 | 2 | 3), day]] as const,
  );
};

export const costOf = (tiny: Tiny, now: Now, i: number): number =>
  (tiny.seconds[i] as number) + (now === null ? tiny.reading : 0);

/** Sum of rewards on the check day. */
const end = (tiny: Tiny, all: readonly Now[]): number =>
  all.reduce((sum, now) => sum + tiny.reward(now === null ? 0 : recall(tiny.days - now[1], now[0].s)), 0);

/** Expected sum of rewards if of each state what `ask` chooses is asked, and then `after` is done. */
const expected = (
  tiny: Tiny,
  all: readonly Now[],
  day: number,
  ask: readonly number[],
  after: (all: Now[]) => number,
) => {
  let states: (readonly [number, Now[]])[] = [[1, [...all]]];
  for (const i of ask)
    states = states.flatMap(([p, list]) =>
      answers(tiny, list[i] ?? null, day).map(
        ([q, now]) => [p * q, list.map((one, j) => (j === i ? now : one))] as const,
      ),
    );
  return states.reduce((sum, [p, list]) => sum + p * after(list), 0);
};

/** Sets of items that can be asked on a day within its seconds, none that was asked on it already. */
const choices = (tiny: Tiny, all: readonly Now[], day: number): number[][] => {
  const sets: number[][] = [];
  for (let bits = 0; bits < 1 << all.length; bits++) {
    const set = [...all.keys()].filter((i) => bits & (1 << i));
    const cost = set.reduce((sum, i) => sum + costOf(tiny, all[i] ?? null, i), 0);
    if (cost <= tiny.budget && set.every((i) => all[i] == null || (all[i] as readonly [State, number])[1] < day))
      sets.push(set);
  }
  return sets;
};

/** The best that any policy can expect, by trying all of them; it may look at every answer. */
export const best = (tiny: Tiny, all: readonly Now[] = begin(tiny), day = 0): number =>
  day === tiny.days
    ? end(tiny, all)
    : Math.max(
        ...choices(tiny, all, day).map((set) => expected(tiny, all, day, set, (list) => best(tiny, list, day + 1))),
      );

/** What one policy can expect: @param order items in the order in which it asks them, as far as the time goes */
export const follow = (
  tiny: Tiny,
  order: (all: readonly Now[], day: number) => readonly number[],
  all: readonly Now[] = begin(tiny),
  day = 0,
): number => {
  if (day === tiny.days) return end(tiny, all);
  let left = tiny.budget;
  const set = order(all, day).filter((i) => {
    const cost = costOf(tiny, all[i] ?? null, i);
    if (cost > left) return false;
    left -= cost;
    return true;
  });
  return expected(tiny, all, day, set, (list) => follow(tiny, order, list, day + 1));
};
