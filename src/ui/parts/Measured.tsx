import type { Comparison, Share } from '../../memory/calibration/reliability.ts';
import type { FormId } from '../../model/form.ts';
import { comparisonWords, sureWords } from './calibration-words.ts';

/** What was predicted against what came, and what Sure was worth. */
export function Measured(props: { readonly title: string; readonly predicted: Comparison; readonly sure: Share }) {
  const predicted = comparisonWords(props.predicted);
  const sure = sureWords(props.sure);
  if (predicted === null && sure === null) return null;
  return (
    <>
      <h3>{props.title}</h3>
      {predicted !== null && <p>{predicted}</p>}
      {sure !== null && <p>When you said Sure: {sure}</p>}
    </>
  );
}

const KINDS: Readonly<Record<string, string>> = {
  run: 'a sequence',
  next: 'the next step',
  limit: 'a number',
  scenario: 'a scenario',
};

/** "A sequence took you 31 s, a number 6 s." */
export const timeWords = (times: readonly { readonly form: FormId; readonly seconds: number }[]): string => {
  const said = times
    .map(({ form, seconds }, i) => `${KINDS[form] ?? form}${i === 0 ? ' took you' : ''} ${Math.round(seconds)} s`)
    .join(', ');
  return `${said.charAt(0).toUpperCase()}${said.slice(1)}: the middle of your answers.`;
};
