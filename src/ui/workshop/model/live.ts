import { effect, type ReadonlySignal, signal } from '@preact/signals';
import type { Finding } from '../../../deck/findings.ts';
import type { Learner } from '../../models/learner.ts';
import type { DraftModel } from './draft.ts';

/** What the checker says of the draft as it stands. */
export interface LiveFindings {
  readonly findings: readonly Finding[];
  /** What was typed last is still being looked at. */
  readonly checking: boolean;
}

export interface Live {
  readonly found: ReadonlySignal<LiveFindings>;
  dispose(): void;
}

/** Holds the draft to the checker, away from this thread, at each change; what was begun for an older one is given up. */
export const watchDraft = (learner: Learner, draft: DraftModel): Live => {
  const found = signal<LiveFindings>({ findings: [], checking: true });
  let running: AbortController | null = null;
  const stop = effect(() => {
    const value = draft.value.value;
    running?.abort();
    const mine = new AbortController();
    running = mine;
    found.value = { findings: found.peek().findings, checking: true };
    const today = new Date(learner.today() * 86_400_000).toISOString().slice(0, 10);
    learner.device.check(JSON.stringify(value), today, mine.signal).then(
      ({ findings }) => {
        if (!mine.signal.aborted) found.value = { findings, checking: false };
      },
      () => undefined,
    );
  });
  return {
    found,
    dispose: () => {
      stop();
      running?.abort();
    },
  };
};
