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
  /** Day of the check of each item, `days` or before; absent: all on `days`. After it nothing is asked. */
  readonly ends?: readonly number[];
}

const endOf = ({ ends, days }: Tiny, i: number): number => ends?.[i] ?? days;

/** One item on its way: memory and the day of the last answer. */
export type Now = readonly [State, number] | null;

const begin = ({ items }: Tiny): Now[] => items.map((one) => one && [one[0], -one[1]]);

/** What an answer on a day can lead to, with chances. Grades 1..3: failed, hard, good. */
const outcomes = (tiny: Tiny, now: Now, day: number): (readonly [number, Now])[] => {
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

/** Remembers what it was told before: the same answers give the same objects, so that states can be told apart by them. */
const remembering = (tiny: Tiny) => {
  const known = new Map<Now, (readonly (readonly [number, Now])[])[]>();
  return (now: Now, day: number): readonly (readonly [number, Now])[] => {
    const days = known.get(now) ?? [];
    known.set(now, days);
    days[day] ??= outcomes(tiny, now, day);
    return days[day];
  };
};

export const costOf = (tiny: Tiny, now: Now, i: number): number =>
  (tiny.seconds[i] as number) + (now === null ? tiny.reading : 0);

/** Reward of an item on its check day. */
const endOfItem = (tiny: Tiny, now: Now, i: number): number =>
  tiny.reward(now === null ? 0 : recall(endOf(tiny, i) - now[1], now[0].s));

/** Sum of rewards. */
const end = (tiny: Tiny, all: readonly Now[]): number => all.reduce((sum, now, i) => sum + endOfItem(tiny, now, i), 0);

/** Expected sum of rewards if of each state what `ask` chooses is asked, and then `after` is done. */
const expected = (
  answers: (now: Now, day: number) => readonly (readonly [number, Now])[],
  all: readonly Now[],
  day: number,
  ask: readonly number[],
  after: (all: Now[]) => number,
) => {
  let states: (readonly [number, Now[]])[] = [[1, [...all]]];
  for (const i of ask)
    states = states.flatMap(([p, list]) =>
      answers(list[i] ?? null, day).map(([q, now]) => [p * q, list.map((one, j) => (j === i ? now : one))] as const),
    );
  return states.reduce((sum, [p, list]) => sum + p * after(list), 0);
};

/** Sets of items that can be asked on a day within its seconds, none that was asked on it already. */
const choices = (tiny: Tiny, all: readonly Now[], day: number): number[][] => {
  const sets: number[][] = [];
  for (let bits = 0; bits < 1 << all.length; bits++) {
    const set = [...all.keys()].filter((i) => bits & (1 << i));
    if (set.some((i) => day >= endOf(tiny, i))) continue;
    const cost = set.reduce((sum, i) => sum + costOf(tiny, all[i] ?? null, i), 0);
    if (cost <= tiny.budget && set.every((i) => all[i] == null || (all[i] as readonly [State, number])[1] < day))
      sets.push(set);
  }
  return sets;
};

/** The best that any policy can expect, by trying all of them; it may look at every answer. */
export const best = (tiny: Tiny): number => {
  const answers = remembering(tiny);
  const ids = new Map<Now, number>();
  const idOf = (now: Now): number => {
    const id = ids.get(now) ?? ids.size;
    ids.set(now, id);
    return id;
  };
  const ends = tiny.items.map(() => new Map<Now, number>());
  /** What one item earns from the last day on, asked on it or not. */
  const last = (now: Now, i: number, isAsked: boolean): number => {
    if (isAsked) return answers(now, tiny.days - 1).reduce((sum, [p, after]) => sum + p * last(after, i, false), 0);
    const known = ends[i]?.get(now) ?? endOfItem(tiny, now, i);
    ends[i]?.set(now, known);
    return known;
  };
  const known = Array.from({ length: tiny.days }, () => new Map<number, number>());
  const from = (all: readonly Now[], day: number): number => {
    const name = all.reduce((sum, now) => sum * 1e5 + idOf(now), 0);
    const before = known[day]?.get(name);
    if (before !== undefined) return before;
    const value = Math.max(
      ...choices(tiny, all, day).map((set) =>
        day === tiny.days - 1
          ? // Nothing follows: what is expected of a sum is the sum of what is expected.
            all.reduce((sum, now, i) => sum + last(now, i, set.includes(i)), 0)
          : expected(answers, all, day, set, (list) => from(list, day + 1)),
      ),
    );
    known[day]?.set(name, value);
    return value;
  };
  return from(begin(tiny), 0);
};

/** What one policy can expect: @param order items in the order in which it asks them, as far as the time goes */
export const follow = (
  tiny: Tiny,
  order: (all: readonly Now[], day: number) => readonly number[],
  all: readonly Now[] = begin(tiny),
  day = 0,
  answers = remembering(tiny),
): number => {
  if (day === tiny.days) return end(tiny, all);
  let left = tiny.budget;
  const set = order(all, day).filter((i) => {
    if (day >= endOf(tiny, i)) return false;
    const cost = costOf(tiny, all[i] ?? null, i);
    if (cost > left) return false;
    left -= cost;
    return true;
  });
  return expected(answers, all, day, set, (list) => follow(tiny, order, list, day + 1, answers));
};
