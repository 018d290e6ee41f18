import { type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Plan } from '../../memory/plan/types.ts';
import { COURSE_WORDS, type Course } from '../words.ts';
import { pause } from './in-pieces.ts';
import type { Learner } from './learner.ts';
import { type PlanAsk, planAsk, planKey, readyToAsk } from './plan-input.ts';
import { keepPlan, keptPlan, type PlanRecord } from './plan-record.ts';

/**
 * none: no check ahead, or too far off, or nothing to practise. working: more is to come; `record` may be there already.
 * failed: all goes on without a plan.
 */
export interface PlanNow {
  readonly state: 'none' | 'working' | 'ready' | 'failed';
  /** Share done, 0..1. */
  readonly done: number;
  /** Of today; null where it is not there yet. */
  readonly record: PlanRecord | null;
}

export interface PlanModel {
  now(course: Course): ReadonlySignal<PlanNow>;
  /**
   * Sees to it that there is a plan for today: from the store, else worked out. Where nothing has changed nothing happens.
   * @returns once the stored one was looked at; what is worked out comes later
   */
  look(course: Course): Promise<void>;
  /** For the drill: today's plan, or an earlier one for the same check and questions; null where there is none. */
  plan(course: Course): Plan | null;
}

interface OfCourse {
  readonly now: Signal<PlanNow>;
  /** Key that was looked for last. */
  wanted: string | null;
  /** The last one there was, of whatever day. */
  last: PlanRecord | null;
  stop: AbortController;
  looked: Promise<void>;
  /** What is being stored. */
  keeping: Promise<void>;
}

const NONE: PlanNow = { state: 'none', done: 0, record: null };
const STORED = (course: Course) => `plan/${course}`;

const models = new WeakMap<Learner, PlanModel>();

/** The one model of a learner. */
export const planModelOf = (learner: Learner): PlanModel => {
  const model = models.get(learner) ?? createPlanModel(learner);
  models.set(learner, model);
  return model;
};

export const createPlanModel = (learner: Learner): PlanModel => {
  const of = {} as Record<Course, OfCourse>;
  for (const course of Object.keys(COURSE_WORDS) as Course[])
    of[course] = {
      now: signal(NONE),
      wanted: null,
      last: null,
      stop: new AbortController(),
      looked: Promise.resolve(),
      keeping: Promise.resolve(),
    };

  const look = (course: Course): Promise<void> => {
    const one = of[course];
    const { key, same } = planKey(learner, course);
    if (one.wanted === key) return one.looked;
    one.wanted = key;
    one.stop.abort(new DOMException('Another plan is wanted.', 'AbortError'));
    one.stop = new AbortController();
    const { signal: stop } = one.stop;
    one.now.value = { state: 'working', done: 0, record: null };
    one.looked = kept(course).then((record) => {
      if (stop.aborted) return;
      one.last ??= record;
      void work(course, key, same, stop);
    });
    return one.looked;
  };

  const kept = async (course: Course): Promise<PlanRecord | null> => {
    if (of[course].last !== null) return of[course].last;
    return keptPlan(learner.store.device, STORED(course)).catch(() => null);
  };

  /** Whatever goes wrong with it, practice goes on without a plan. */
  const work = async (course: Course, key: string, same: string, stop: AbortSignal): Promise<void> => {
    const one = of[course];
    const tell = (state: PlanNow['state'], record: PlanRecord | null, done = 0) => {
      if (!stop.aborted) one.now.value = { state, done, record };
    };
    let record = one.last?.key === key ? one.last : null;
    /** Of which the tables are kept. */
    let tables = record?.plan ?? null;
    if (record !== null && record.outlook !== null && record.advice !== null) return tell('ready', record, 1);
    try {
      await readyToAsk(learner, course);
      const ask = stop.aborted ? null : planAsk(learner, course);
      if (ask === null) return tell('none', null);
      await solve(
        ask,
        record,
        stop,
        (next, state, done) => {
          if (stop.aborted) return;
          if (next !== record && next !== null) {
            record = next;
            one.last = next;
            // What cannot be kept is worked out again tomorrow.
            const isNew = tables !== next.plan;
            tables = next.plan;
            // One after the other: an older one must not be written last.
            one.keeping = one.keeping
              .then(pause)
              .then(() => keepPlan(learner.store.device, STORED(course), next, isNew))
              .catch(() => undefined);
          }
          tell(state, next, done);
        },
        { key, same, from: one.last },
      );
    } catch {
      tell('failed', record);
    }
  };

  const solve = async (
    ask: PlanAsk,
    begun: PlanRecord | null,
    stop: AbortSignal,
    tell: (record: PlanRecord | null, state: PlanNow['state'], done: number) => void,
    { key, same, from }: { readonly key: string; readonly same: string; readonly from: PlanRecord | null },
  ): Promise<void> => {
    const planner = await learner.device.planner();
    let record = begun;
    const part = (least: number, most: number) => ({
      signal: stop,
      onProgress: (done: number) => tell(record, 'working', least + (most - least) * done),
    });
    try {
      if (record === null) {
        const known = from?.same === same && from.plan.kind === 'planned' ? { from: from.plan } : {};
        const plan = await planner.plan({ ...ask.input, ...known }, part(0, 0.2));
        if (plan === null || plan.kind !== 'planned') return tell(null, 'none', 1);
        const { labels, groups, minutes, answers } = ask;
        record = { v: 1, key, same, plan, labels, groups, minutes, answers, outlook: null, advice: null };
        tell(record, 'working', 0.2);
        await pause();
      }
      const { plan } = record;
      if (record.outlook === null) {
        const { input, groupOf, groups } = ask;
        const outlook = await planner.outlook({ input, plan, groupOf, groups: groups.length }, part(0.2, 0.5));
        record = { ...record, outlook };
        tell(record, 'working', 0.5);
        await pause();
      }
      record = { ...record, advice: await planner.advice({ input: ask.input, plan }, ask.minutes, part(0.5, 1)) };
      tell(record, 'ready', 1);
    } finally {
      planner.dispose();
    }
  };

  return {
    now: (course) => of[course].now,
    look,
    plan: (course) => {
      const { last } = of[course];
      return last !== null && last.same === planKey(learner, course).same ? last.plan : null;
    },
  };
};
