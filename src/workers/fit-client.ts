import type { Fit } from '../memory/fit/fit-weights.ts';
import type { Store } from '../model/ports.ts';
import { type LogInput, linesOf } from './log-input.ts';
import { connect } from './remote.ts';

/**
 * Fits the weights of memory to the whole log in a worker of its own, which ends with it.
 * @throws StoreProblem; an AbortError when `stop` gives up
 */
export const fitAway = async (store: Store, facts: Omit<LogInput, 'lines'>, stop: AbortSignal): Promise<Fit> => {
  const lines = await linesOf(store);
  const remote = connect<LogInput, Fit>(
    () => new Worker(new URL('./fit.worker.ts', import.meta.url), { type: 'module', name: 'fit' }),
    async () => (await import('./fit.ts')).fitLines,
  );
  try {
    return await remote.call({ ...facts, lines }, { signal: stop });
  } finally {
    remote.dispose();
  }
};
