import type { Store } from '../model/ports.ts';
import type { FoldInput } from './fold.ts';
import { connect } from './remote.ts';

/**
 * Folds the whole log in a worker: 100,000 answers take a second, in which the page must stay alive.
 * @returns a checkpoint value, and how many entries it holds
 * @throws StoreProblem
 */
export const foldAway = async (
  store: Store,
  facts: Omit<FoldInput, 'lines'>,
): Promise<{ readonly value: unknown; readonly entries: number }> => {
  const lines: string[] = [];
  await store.log.all((part) => void lines.push(...part));
  const remote = connect<FoldInput, unknown>(
    () => new Worker(new URL('./fold.worker.ts', import.meta.url), { type: 'module', name: 'fold' }),
    async () => (await import('./fold.ts')).foldLines,
  );
  try {
    const { critical, decision, today } = facts;
    return { value: await remote.call({ lines, critical, decision, today }), entries: lines.length };
  } finally {
    remote.dispose();
  }
};
