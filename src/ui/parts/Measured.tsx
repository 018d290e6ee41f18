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

/** Exhaustive: a new way to ask without its words does not compile. */
const KINDS: Readonly<Record<FormId, string>> = {
  run: 'a sequence',
  next: 'the next step',
  limit: 'a limit',
  scenario: 'a scenario',
  before: 'the step before',
  slip: 'a search for mistakes',
  cue: 'a cue',
  callout: 'a callout',
  list: 'a checklist',
  crew: 'a question of who does what',
  value: 'a limit in its step',
  rule: 'a rule in its step',
  difference: 'a difference of variants',
  paced: 'a run in time',
};

/** "A sequence took you 31 s, a limit 6 s: the middle of your answers." Of one answer there is no middle. */
export const timeWords = (
  times: readonly { readonly form: FormId; readonly seconds: number; readonly of: number }[],
): string => {
  const said = times
    .map(({ form, seconds }, i) => `${KINDS[form]}${i === 0 ? ' took you' : ''} ${Math.max(1, Math.round(seconds))} s`)
    .join(', ');
  const whole = `${said.charAt(0).toUpperCase()}${said.slice(1)}`;
  return times.every((one) => one.of === 1) ? `${whole}.` : `${whole}: the middle of your answers.`;
};
