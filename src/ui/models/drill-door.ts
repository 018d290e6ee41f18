import { computed, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { Session } from '../../drill/types.ts';
import { studyDay } from '../../log/study-day.ts';
import type { Course } from '../words.ts';
import type { DrillModel } from './drill.ts';
import type { Learner } from './learner.ts';

/** The drill as the first screen needs it: whether one is under way. What drills is loaded when one is. */
export interface DrillDoor {
  readonly session: ReadonlySignal<Session | null>;
  /** The session, if it is not over. */
  readonly underWay: ReadonlySignal<Session | null>;
  /** @throws where its chunk cannot be had */
  open(): Promise<DrillModel>;
  start(course: Course): Promise<void>;
}

/** The stored session, for the model that `open` gives. */
export type SessionSignal = Signal<Session | null>;

export const createDrillDoor = async (learner: Learner): Promise<DrillDoor> => {
  const kept = (await learner.store.drill.get()) as Session | null;
  const session: SessionSignal = signal(kept?.v === 1 ? ofToday(kept, learner) : null);
  let model: Promise<DrillModel> | null = null;
  const open = (): Promise<DrillModel> => {
    model ??= import('./drill.ts')
      .then(({ createDrillModel }) => createDrillModel(learner, session))
      .catch((error) => {
        model = null;
        throw error;
      });
    return model;
  };
  return {
    session,
    underWay: computed(() => {
      const now = session.value;
      return now === null || now.now.kind === 'done' ? null : now;
    }),
    open,
    start: async (course) => (await open()).start(course),
  };
};

/** What was left open on another day is over: its minutes were that day's, and its answers are in the log. */
const ofToday = (kept: Session, { device, today }: Learner): Session =>
  studyDay(kept.started, device.off(kept.started)) < today() ? { ...kept, now: { kind: 'done', why: 'enough' } } : kept;
