import { type AskSurvey, NO_RULE, NO_VALUE, NOT_ASKED } from '../../../deck/survey/types.ts';

/** "12 %"; "below 1 %" for a share that is small, but there. */
export const shareWords = (part: number, whole: number): string => {
  if (part === 0 || whole === 0) return '0 %';
  const share = (100 * part) / whole;
  if (share < 1) return 'below 1 %';
  return `${share > 99 && part < whole ? 99 : Math.round(share)} %`;
};

/** A, B, C …: stands for a rule in pictures and tables. */
export const letterOf = (rule: number): string => String.fromCharCode(65 + (rule % 26));

/** What comes of a draw for a question, in short. */
export const outcomeWords = (ask: AskSurvey, outcome: number): string => {
  if (outcome === NO_RULE) return 'no rule holds';
  if (outcome === NO_VALUE) return 'no value';
  if (outcome === NOT_ASKED) return 'not asked';
  const rule = ask.rules?.[outcome];
  return rule === undefined ? 'refused' : `${letterOf(outcome)}: ${rule.gives.join(' / ')}`;
};

export const count = (n: number): string => n.toLocaleString('en-GB').replaceAll(',', '\u00a0');
