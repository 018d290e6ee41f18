import { readCopy } from '../exchange/saved-copy.ts';
import { type Union, type UnionInput, unionOf } from '../log/union.ts';
import type { Progress, ReadCopy } from '../model/ports.ts';

export type JoiningTask =
  | { readonly k: 'read'; readonly text: string }
  | { readonly k: 'union'; readonly input: UnionInput };

/** Lines as one text, with a line feed between them. */
export type Read = Omit<ReadCopy, 'lines'> & { readonly lines: string };

/** @throws RangeError where the text is no saved copy, or an incoming line no entry */
export const join = async (task: JoiningTask, onProgress?: Progress): Promise<Read | Union> => {
  if (task.k === 'union') return unionOf(task.input, onProgress);
  const copy = await readCopy(task.text, onProgress);
  return { ...copy, lines: copy.lines.join('\n') };
};
