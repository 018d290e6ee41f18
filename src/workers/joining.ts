import { readCopy } from '../exchange/saved-copy.ts';
import { type Union, type UnionInput, unionOf } from '../log/union.ts';
import type { Progress, ReadCopy } from '../model/ports.ts';

export type JoiningTask =
  | { readonly k: 'read'; readonly text: string }
  | { readonly k: 'union'; readonly input: UnionInput };

/** Lines as one text, with a line feed between them: handed over at once, where many texts take the page a long time. */
export type Read = Omit<ReadCopy, 'lines'> & { readonly lines: string };
export type Joined = Omit<Union, 'rest'> & { readonly rest: string };

/** @throws RangeError where the text is no saved copy, or an incoming line no entry */
export const join = async (task: JoiningTask, onProgress?: Progress): Promise<Read | Joined> => {
  if (task.k === 'union') {
    const union = unionOf(task.input, onProgress);
    return { ...union, rest: union.rest.join('\n') };
  }
  const copy = await readCopy(task.text, onProgress);
  return { ...copy, lines: copy.lines.join('\n') };
};
