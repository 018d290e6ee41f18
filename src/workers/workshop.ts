import type { Finding } from '../deck/findings.ts';
import { LiveChecker, type LiveRun } from '../deck/live.ts';
import { survey } from '../deck/survey/survey.ts';
import type { NoSurvey, Survey, SurveyTask } from '../deck/survey/types.ts';

/** What crosses into the worker. `text`: a draft as JSON; a text is cheaper to send than its objects. */
export type WorkshopTask =
  | { readonly k: 'check'; readonly text: string; readonly today: string }
  /** What `check` of the same draft left open. */
  | { readonly k: 'rest'; readonly text: string; readonly today: string }
  | { readonly k: 'survey'; readonly text: string; readonly task: SurveyTask };

export interface FirstFindings {
  readonly findings: readonly Finding[];
  /** Draws are still to be tried: ask for the rest. */
  readonly more: boolean;
}

/** null: a newer draft or task has taken its place. */
export type WorkshopDone = FirstFindings | readonly Finding[] | Survey | NoSurvey | null;

/** ms worked before messages are heard. */
const SLICE_MS = 10;

const turn = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/**
 * Works a generator off in slices.
 * @param waits for something else that goes first
 * @returns null as soon as it is no longer wanted
 */
async function inSlices<T>(
  steps: Generator<undefined, T>,
  wanted: () => boolean,
  waits: () => boolean = () => false,
): Promise<T | null> {
  for (;;) {
    const until = performance.now() + SLICE_MS;
    do {
      const { done, value } = steps.next();
      if (done) return value;
    } while (performance.now() < until);
    do await turn();
    while (waits() && wanted());
    if (!wanted()) return null;
  }
}

/**
 * The checker and the survey of one open draft, which remember what was found before. A newer call takes the place of
 * an older one of its kind at its next pause.
 */
export const createWorkshop = (): ((task: WorkshopTask) => Promise<WorkshopDone>) => {
  const live = new LiveChecker();
  let last: { readonly text: string; readonly today: string; readonly run: LiveRun } | null = null;
  let surveys = 0;
  /** Surveys under way: somebody looks at the page for them, so draws of the check wait. */
  let looking = 0;

  const check = (text: string, today: string): LiveRun => {
    const run = live.check(text, today);
    last = { text, today, run };
    return run;
  };
  const rest = async (text: string, today: string): Promise<readonly Finding[] | null> => {
    // A worker that was started anew knows of no check.
    const run = last?.text === text && last.today === today ? last.run : check(text, today);
    return run.rest
      ? inSlices(
          run.rest,
          () => last?.run === run,
          () => looking > 0,
        )
      : run.findings;
  };
  const look = async (text: string, task: SurveyTask): Promise<Survey | NoSurvey | null> => {
    surveys += 1;
    const mine = surveys;
    looking += 1;
    try {
      // One that was asked for in the meantime makes this one old.
      await turn();
      return surveys === mine ? await inSlices(survey(text, task), () => surveys === mine) : null;
    } finally {
      looking -= 1;
    }
  };
  return async (task) => {
    if (task.k === 'survey') return look(task.text, task.task);
    if (task.k === 'rest') return rest(task.text, task.today);
    const { findings, rest: open } = check(task.text, task.today);
    return { findings, more: open !== null };
  };
};
