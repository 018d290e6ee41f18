import { type Advice, adviceOf, type Outlook, type OutlookAsk, outlookOf } from '../memory/outlook.ts';
import { solvePlan } from '../memory/plan/solve.ts';
import type { Plan, PlanInput } from '../memory/plan/types.ts';

/** What crosses into the worker: three tasks, so that each is shown as soon as it is there. */
export type PlanTask =
  | { readonly k: 'plan'; readonly input: PlanInput }
  | { readonly k: 'outlook'; readonly ask: OutlookAsk }
  | { readonly k: 'advice'; readonly ask: Pick<OutlookAsk, 'input' | 'plan'>; readonly minutes: number };

export type PlanDone = Plan | Outlook | Advice | null;

/** @throws RangeError where the input makes no sense */
export const workOut = (task: PlanTask, onProgress: (share: number) => void): PlanDone => {
  switch (task.k) {
    case 'plan':
      return solvePlan(task.input, onProgress);
    case 'outlook':
      return outlookOf(task.ask, onProgress);
    case 'advice':
      return adviceOf(task.ask, task.minutes, onProgress);
  }
};
