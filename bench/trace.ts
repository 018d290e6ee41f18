import type { CDPSession } from 'playwright-core';

/** Of Chromium's trace: times are microseconds. `tdur`: on the thread, without what other programs took from it. */
interface Traced {
  readonly name: string;
  readonly cat: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
}

/** What the page's own thread did, and when the page set marks (User Timing), in the trace's microseconds. */
export interface Trace {
  readonly tasks: readonly Traced[];
  /** The last mark of that name. @throws where the page set none */
  at(mark: string): number;
}

const TASK = 'ThreadControllerImpl::RunTask';

/**
 * While `work` is under way.
 * @param mark a mark that the page has set when it is done: it tells which thread is the page's
 */
export const traceOf = async (devtools: CDPSession, work: () => Promise<unknown>, mark: string): Promise<Trace> => {
  const events: Traced[] = [];
  const collect = ({ value }: { value: unknown[] }) => void events.push(...(value as Traced[]));
  devtools.on('Tracing.dataCollected', collect);
  await devtools.send('Tracing.start', {
    transferMode: 'ReportEvents',
    traceConfig: { includedCategories: ['toplevel', 'blink.user_timing'], excludedCategories: ['*'] },
  });
  await work();
  const done = new Promise((resolve) => devtools.once('Tracing.tracingComplete', resolve));
  await devtools.send('Tracing.end');
  await done;
  devtools.off('Tracing.dataCollected', collect);
  const marked = (name: string): Traced => {
    const found = events.findLast((event) => event.name === name && /user_timing/.test(event.cat));
    if (found === undefined) throw new Error(`The trace has no mark ${name}.`);
    return found;
  };
  const { pid, tid } = marked(mark);
  const tasks = events.filter((event) => event.name === TASK && event.pid === pid && event.tid === tid);
  if (tasks.length === 0)
    throw new Error('The trace has no tasks of the page: has this Chromium another name for them?');
  return { tasks, at: (name) => marked(name).ts };
};
