import { stepText } from '../../subjects/procedure/words.ts';
import type { Line, Proposal } from './propose.ts';
import type { Fields } from './types.ts';

const counted = (n: number, word: string): string => `${n} ${word}${n === 1 ? '' : 's'}`;

/** What a row was read as: action and callout. */
export const rowWords = ({ do: action, say }: Fields): string =>
  stepText({ id: '', ...(action !== undefined && { do: action }), ...(say !== undefined && { say }) });

/** What becomes of a row, in words. */
export const fateWords = ({ reading, fate, moved, changed }: Line): string => {
  if (fate === null) return reading.skip ?? 'It has no action and no callout.';
  const what = fate === 'new' ? 'New' : fate === 'same' ? 'The same' : `Changed: ${changed.join(', ')}`;
  return moved ? `${what} · moved` : what;
};

/** One sentence or two over all rows. @param isRevised there were steps before */
export const summary = ({ lines, gone }: Proposal, isRevised: boolean): string => {
  const count = (test: (line: Line) => boolean) => lines.filter(test).length;
  const taken = count(({ fate }) => fate !== null);
  const fates: readonly (readonly [number, string])[] = [
    [count(({ fate }) => fate === 'same'), 'the same'],
    [count(({ fate }) => fate === 'reworded'), 'changed'],
    [count(({ moved }) => moved), 'moved'],
    [count(({ fate }) => fate === 'new'), 'new'],
  ];
  const told = isRevised ? fates.filter(([n]) => n !== 0).map(([n, words]) => `${n} ${words}`) : [];
  return [
    `${counted(taken, 'step')} read${told.length > 0 ? `: ${told.join(', ')}` : ''}.`,
    ...(lines.length > taken ? [`${counted(lines.length - taken, 'row')} left out.`] : []),
    ...(gone.length > 0 ? [`${counted(gone.length, 'step')} of the procedure no longer in the list.`] : []),
  ].join(' ');
};
