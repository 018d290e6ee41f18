import type { Finding } from '../deck/findings.ts';
import type { NoSurvey, Survey, SurveyTask } from '../deck/survey/types.ts';
import { connect, type Outside } from './remote.ts';
import type { FirstFindings, WorkshopDone, WorkshopTask } from './workshop.ts';

const start = (): Outside =>
  new Worker(new URL('./workshop.worker.ts', import.meta.url), { type: 'module', name: 'workshop' });

/**
 * The checker and the survey of an open draft, in a worker that stays while the draft is open.
 * @param startWorker for tests
 */
export const connectWorkshop = (startWorker: () => Outside = start) => {
  let here: Promise<(task: WorkshopTask) => Promise<WorkshopDone>> | null = null;
  const remote = connect<WorkshopTask, WorkshopDone>(startWorker, () => {
    here ??= import('./workshop.ts').then(({ createWorkshop }) => createWorkshop());
    return here;
  });
  /** The draft that was changed last; null once all is said of it. */
  let newest: object | null = null;
  let before: Promise<unknown> = Promise.resolve();
  return {
    /**
     * Where keys come faster than checks, only the newest draft waits for the one that is being looked at.
     * @param tell of what is found, at once and, where draws are still to be tried, again; not of an older draft
     */
    check: async (
      text: string,
      today: string,
      tell: (findings: readonly Finding[], more: boolean) => void,
    ): Promise<void> => {
      const mine = {};
      newest = mine;
      await before;
      if (newest !== mine) return;
      const asked = remote.call({ k: 'check', text, today }) as Promise<FirstFindings>;
      before = asked.catch(() => undefined);
      const first = await asked;
      if (newest !== mine) return;
      tell(first.findings, first.more);
      if (!first.more) return;
      const all = (await remote.call({ k: 'rest', text, today })) as readonly Finding[] | null;
      if (newest === mine && all !== null) tell(all, false);
    },
    /** @returns null where a later survey took its place */
    survey: (text: string, task: SurveyTask) =>
      remote.call({ k: 'survey', text, task }) as Promise<Survey | NoSurvey | null>,
    dispose: () => remote.dispose(),
  };
};
