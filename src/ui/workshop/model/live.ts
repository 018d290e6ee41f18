import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Finding } from '../../../deck/findings.ts';
import type { NoSurvey, Survey, SurveyTask } from '../../../deck/survey/types.ts';
import type { WorkshopWorker } from '../../device.ts';
import type { Learner } from '../../models/learner.ts';
import type { DraftModel } from './draft.ts';

/** What the checker says of the draft as it stands. */
export interface LiveFindings {
  readonly findings: readonly Finding[];
  /** What was typed last is still being looked at: at first all of it, then what scenarios draw. */
  readonly checking: boolean;
  /** Why nothing is checked, if so. */
  readonly problem?: string;
}

export interface Live {
  readonly found: ReadonlySignal<LiveFindings>;
  /**
   * What a scenario of the draft, as it stands, draws.
   * @returns null where a later survey took its place. @throws where the worker cannot be had
   */
  survey(task: SurveyTask): Promise<Survey | NoSurvey | null>;
  dispose(): void;
}

/** Holds the draft to the checker, away from this thread, at each change. */
export const watchDraft = (learner: Pick<Learner, 'device' | 'today'>, draft: Pick<DraftModel, 'value'>): Live => {
  const found = signal<LiveFindings>({ findings: [], checking: true });
  const starting: Promise<WorkshopWorker> = learner.device.workshop();
  let gone = false;
  const check = async (text: string, wanted: () => boolean): Promise<void> => {
    const today = new Date(learner.today() * 86_400_000).toISOString().slice(0, 10);
    try {
      await (await starting).check(text, today, (findings, more) => {
        if (wanted()) found.value = { findings, checking: more };
      });
    } catch (error) {
      const problem = error instanceof Error ? error.message : String(error);
      if (wanted()) found.value = { findings: [], checking: false, problem };
    }
  };
  const stop = effect(() => {
    const value = draft.value.value;
    found.value = { ...found.peek(), checking: true };
    void check(JSON.stringify(value), () => !gone && draft.value.peek() === value);
  });
  return {
    found,
    survey: async (task) => (await starting).survey(JSON.stringify(draft.value.peek()), task),
    dispose: () => {
      gone = true;
      stop();
      starting.then(
        (worker) => worker.dispose(),
        () => undefined,
      );
    },
  };
};
