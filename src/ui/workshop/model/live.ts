import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Finding } from '../../../deck/findings.ts';
import type { NoSurvey, Survey, SurveyTask } from '../../../deck/survey/types.ts';
import type { WorkshopWorker } from '../../device.ts';
import type { Learner } from '../../models/learner.ts';
import { calendarDate } from '../calendar.ts';
import type { DraftModel } from './draft.ts';

/** What the checker says of the draft as it stands. */
export interface LiveFindings {
  readonly findings: readonly Finding[];
  /** What was typed last is still being looked at. */
  readonly checking: boolean;
  /** The checker itself could not be had: nothing is known of the draft. */
  readonly failed?: true;
}

export interface Live {
  readonly found: ReadonlySignal<LiveFindings>;
  /** @returns null where a later survey took its place. @throws where the worker cannot be had */
  survey(task: SurveyTask): Promise<Survey | NoSurvey | null>;
  dispose(): void;
}

/** Holds the draft to the checker, away from this thread, at each change; what was begun for an older one is given up. */
export const watchDraft = (learner: Learner, draft: DraftModel): Live => {
  const found = signal<LiveFindings>({ findings: [], checking: true });
  let opened: Promise<WorkshopWorker> | null = null;
  let disposed = false;
  const worker = (): Promise<WorkshopWorker> => {
    opened ??= learner.device.workshop().catch((error: unknown) => {
      opened = null;
      throw error;
    });
    return opened;
  };
  const stop = effect(() => {
    const text = JSON.stringify(draft.value.value);
    const today = calendarDate(learner.device);
    found.value = { ...found.peek(), checking: true };
    worker()
      .then((one) =>
        one.check(text, today, (findings, more) => {
          if (!disposed) found.value = { findings, checking: more };
        }),
      )
      .catch(() => {
        if (!disposed) found.value = { findings: [], checking: false, failed: true };
      });
  });
  return {
    found,
    survey: async (task) => (await worker()).survey(JSON.stringify(draft.value.peek()), task),
    dispose: () => {
      disposed = true;
      stop();
      void opened?.then((one) => one.dispose()).catch(() => undefined);
    },
  };
};
