import type { Past, PastInput } from '../drill/past.ts';
import type { Store } from '../model/ports.ts';
import { connect } from './remote.ts';

/** Reads the whole log, in a worker. @throws StoreProblem */
export const lookBackAway = async (store: Store, input: Omit<PastInput, 'lines'>): Promise<Past> => {
  const lines: string[] = [];
  await store.log.all((part) => void lines.push(...part));
  const remote = connect<PastInput, Past>(
    () => new Worker(new URL('./past.worker.ts', import.meta.url), { type: 'module', name: 'past' }),
    async () => (await import('../drill/past.ts')).lookBack,
  );
  try {
    return await remote.call({ ...input, lines });
  } finally {
    remote.dispose();
  }
};
