import type { Finding } from '../../../deck/findings.ts';
import { messageOf } from '../../../deck/messages.ts';

/** The checker speaks of a file; who fills in a form sees neither quotation marks nor keys. */
export const formWords = (finding: Finding): string => {
  const { code, args } = finding;
  if (code === 'wrong-type' && args.wanted === 'number' && args.found === 'string') return 'A number is needed here.';
  if (code === 'missing-key') return 'This is needed: fill it in.';
  if (code === 'too-few' && args.least === 1) return 'This must not stay empty.';
  return messageOf(finding);
};
