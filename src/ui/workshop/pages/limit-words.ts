import { MOST_LETTERS } from '../../../draft/paste/limit-line.ts';
import { type LimitLines, MOST_AT_ONCE } from '../../../draft/paste/limit-lines.ts';
import { plural } from '../../words.ts';

/** What came of limits written a line each. */
export const takenWords = ({ limits, unread, long, waiting }: LimitLines): string => {
  const said: string[] = [];
  if (limits.length > 0) said.push(`${plural(limits.length, 'limit')} added.`);
  if (waiting > 0)
    said.push(`${plural(waiting, 'line')} not read yet: ${MOST_AT_ONCE} are added at a time. Press “Add them” again.`);
  if (unread > 0)
    said.push(`${plural(unread, 'line')} could not be read: a question, a colon, the value and its unit.`);
  if (long > 0) said.push(`${plural(long, 'line')} of more than ${MOST_LETTERS} letters: write one limit a line.`);
  return said.join(' ');
};
