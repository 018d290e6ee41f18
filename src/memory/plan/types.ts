/** Items as columns of one length, so that a worker is handed them cheaply; row = item, in authored order. */
export interface PlanItems {
  /** Stability, days; ignored where never met. */
  readonly s: ArrayLike<number>;
  /** Difficulty, 1..10; ignored where never met. */
  readonly d: ArrayLike<number>;
  /** Whole study days since the last answer; −1 = never met. */
  readonly gap: ArrayLike<number>;
  /** 1 = must never be wrong. */
  readonly critical: ArrayLike<number>;
  /** s that asking the item once takes, > 0: of a question about several items its share. */
  readonly seconds: ArrayLike<number>;
  /**
   * Study day of the check of each item, the last one or one before it; absent: all are checked on the last. After its
   * check an item is asked no more. One whose check is today or gone by counts as it is today: leave such ones out.
   */
  readonly checkDay?: ArrayLike<number>;
}

/** How verdicts fall. Each list of shares adds up to 1. */
export interface Shares {
  /** Of right answers after the first meeting. */
  readonly right: { readonly unsure: number; readonly sound: number };
  /** Of the first answer, which follows the reading. */
  readonly first: { readonly missed: number; readonly unsure: number; readonly sound: number };
}

export interface PlanInput {
  readonly items: PlanItems;
  /** Study day of today, the first that can be practised on. */
  readonly day: number;
  /** Study day of the check, of the last one if there are several. Nothing is practised on it. */
  readonly checkDay: number;
  /** Minutes a day; or one figure for each day from today on, the last one standing for all after it. 0 = closed. */
  readonly minutes: number | readonly number[];
  /** s that reading something new takes beside its first question; default `READING`. */
  readonly reading?: number;
  readonly shares?: Shares;
  /** w0..w20 of the memory model; the default ones where absent. */
  readonly weights?: readonly number[];
  /** Another plan, whose prices are a good beginning. */
  readonly from?: Pick<Plan, 'day' | 'prices' | 'budget'>;
}

/**
 * planned: as wanted. past: the check day is today or gone by, of all items. far: more than `FARTHEST` days off. empty: no items.
 * In all but the first there are no prices, and the figures say what becomes of recall without any practice.
 */
export type PlanKind = 'planned' | 'past' | 'far' | 'empty';

/** Items of one class differ only in their memory. */
export interface PlanClass {
  /** s of a question for each unit of weight. */
  readonly cost: number;
  /** Reward of recall chance R on the check day is R − bend (1 − R)². */
  readonly bend: number;
  /** Study day of the check. */
  readonly checkDay: number;
}

/** The plan for a check date. Can be cloned into another thread, and stored. */
export interface Plan {
  readonly kind: PlanKind;
  readonly day: number;
  readonly checkDay: number;
  readonly weights: readonly number[];
  readonly shares: Shares;
  readonly reading: number;
  /** s for each day from `day` to the one before the check. */
  readonly budget: readonly number[];
  /** Reward (about: recall, summed over items) that a second is worth on each day; Infinity on closed ones. */
  readonly prices: readonly number[];
  readonly classes: readonly PlanClass[];
  /** For each class the value of an item just after an answer, on each day before its check: day × nodes of the grid. */
  readonly values: readonly Float32Array[];
  /** For each class what asking on `day` gains over waiting (worth.ts). */
  readonly gains: readonly Float32Array[];
  /** Expected recall, of each item on its check day, if the plan is kept: mean over all, 0..1; never met counts as not known. Null without items. */
  readonly recall: number | null;
  /** The same of critical items; null where there are none. */
  readonly critical: number | null;
  /** Mean recall on the check day if nothing more is practised. */
  readonly idle: number | null;
  /** For each item: expected recall on the check day. */
  readonly itemRecall: Float32Array;
  /** For each item: expected number of times it is asked. */
  readonly itemAsks: Float32Array;
  /** Items, by row, that the minutes do not suffice for: never to be met, or left below their target. */
  readonly givenUp: readonly number[];
  /** Expected s used on each day. */
  readonly used: readonly number[];
  /** Expected mean recall at the beginning of each day, from `day` to `checkDay`; after its own check an item counts as on it. */
  readonly curve: readonly number[];
}
