/** Reading a saved copy and working out the union of two logs, in a worker that ends with it. */
import { writeCopy } from '../exchange/saved-copy.ts';
import type { Union, UnionInput } from '../log/union.ts';
import type { Exchange, Progress } from '../model/ports.ts';
import { type Joined, type JoiningTask, join, type Read } from './joining.ts';
import { connect } from './remote.ts';

const away = async (task: JoiningTask, onProgress?: Progress): Promise<Read | Joined> => {
  const remote = connect<JoiningTask, Read | Joined>(
    () => new Worker(new URL('./check.worker.ts', import.meta.url), { type: 'module', name: 'joining' }),
    async () => join,
  );
  try {
    return await remote.call(task, onProgress && { onProgress });
  } finally {
    remote.dispose();
  }
};

/** A RangeError comes back from the worker by its name alone. */
const asRangeError = (error: unknown): never => {
  const { name, message } = error as Error;
  throw name === 'RangeError' ? new RangeError(message) : error;
};

const linesIn = (text: string): string[] => (text === '' ? [] : text.split('\n'));

export const exchangeAway: Exchange = {
  writeCopy,
  readCopy: async (text, onProgress) => {
    const { lines, ...rest } = (await away({ k: 'read', text }, onProgress).catch(asRangeError)) as Read;
    return { ...rest, lines: linesIn(lines) };
  },
};

export const unionAway = async (input: UnionInput, onProgress: Progress): Promise<Union> => {
  const { rest, ...union } = (await away({ k: 'union', input }, onProgress).catch(asRangeError)) as Joined;
  return { ...union, rest: linesIn(rest) };
};
