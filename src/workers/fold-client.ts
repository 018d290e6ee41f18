import type { Store } from '../model/ports.ts';
import type { Folded, FoldInput } from './fold.ts';
import { linesOf } from './log-input.ts';
import { connect } from './remote.ts';

/**
 * Folds the whole log in a worker: 100,000 answers take a second, in which the page must stay alive.
 * @returns a checkpoint value, how many entries it holds, and what the answer `tell` did
 * @throws StoreProblem
 */
export const foldAway = async (
  store: Store,
  facts: Omit<FoldInput, 'lines'>,
): Promise<Folded & { readonly entries: number }> => {
  const lines = await linesOf(store);
  const remote = connect<FoldInput, Folded>(
    () => new Worker(new URL('./fold.worker.ts', import.meta.url), { type: 'module', name: 'fold' }),
    async () => (await import('./fold.ts')).foldLines,
  );
  try {
    return { ...(await remote.call({ ...facts, lines })), entries: lines.length };
  } finally {
    remote.dispose();
  }
};
