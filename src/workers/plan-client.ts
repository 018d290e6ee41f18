import type { Advice, Outlook } from '../memory/outlook.ts';
import type { Plan } from '../memory/plan/types.ts';
import type { PlanDone, PlanTask } from './plan.ts';
import { connect, type Outside } from './remote.ts';

const start = (): Outside => new Worker(new URL('./plan.worker.ts', import.meta.url), { type: 'module', name: 'plan' });

/**
 * The planner in a worker: a plan takes a second and what is to be expected of it several, on a phone more.
 * @param startWorker for tests
 */
export const connectPlanner = (startWorker: () => Outside = start) => {
  const remote = connect<PlanTask, PlanDone>(startWorker, async () => (await import('./plan.ts')).workOut);
  type Options = Parameters<typeof remote.call>[1];
  return {
    plan: (input: Extract<PlanTask, { k: 'plan' }>['input'], options?: Options) =>
      remote.call({ k: 'plan', input }, options) as Promise<Plan | null>,
    outlook: (ask: Extract<PlanTask, { k: 'outlook' }>['ask'], options?: Options) =>
      remote.call({ k: 'outlook', ask }, options) as Promise<Outlook | null>,
    advice: (ask: Extract<PlanTask, { k: 'advice' }>['ask'], minutes: number, options?: Options) =>
      remote.call({ k: 'advice', ask, minutes }, options) as Promise<Advice | null>,
    dispose: () => remote.dispose(),
  };
};
