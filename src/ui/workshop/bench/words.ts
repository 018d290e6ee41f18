import { type AskSurvey, NO_RULE, NO_VALUE, NOT_ASKED, type NoSurvey } from '../../../deck/survey/types.ts';

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

const PARTS: Readonly<Record<string, string>> = {
  situation: 'The situation',
  draw: 'A drawn value',
  let: 'A value that is worked out',
  require: 'A line under “Drawn so that”',
  asks: 'A question',
};

/** Why nothing is shown of what is drawn. @param path of the scenario */
export const reasonWords = (found: NoSurvey, path: string): string => {
  if (found.problem === 'nowhere') return 'No variant of the deck holds this scenario, so nothing is drawn.';
  const own = found.at.startsWith(`${path}/`);
  const part = own ? PARTS[found.at.slice(path.length + 1).split('/')[0] ?? ''] : undefined;
  const what = part ?? (own ? 'Something of this scenario' : 'Something of the deck that is drawn or asked here too');
  const state = found.problem === 'shape' ? 'is not filled in yet' : 'must be mended first';
  return `${what} ${state}. Then examples and rules stand here.`;
};
