import type { AskSurvey, Boundary, Survey } from '../../../deck/survey/types.ts';
import { focusField } from '../findings/focus.ts';
import { Swatch } from './patterns.tsx';
import { letterOf, outcomeWords, shareWords } from './words.ts';

/** Which rule decides how often, and where another one takes over. */
export function Rules({ ask, survey }: { readonly ask: AskSurvey; readonly survey: Survey }) {
  const whole = survey.met;
  const odd = [
    { words: 'no rule holds', n: ask.noRule },
    { words: 'a value cannot be computed', n: ask.noValue },
    { words: 'the question is not asked', n: ask.notAsked },
  ].filter(({ n }) => n > 0);
  return (
    <section class="stack" aria-label="What decides">
      <h3>{ask.rules === null ? 'Answers' : 'Which rule decides'}</h3>
      {ask.range !== null && (
        <p>
          From {ask.range[0]} to {ask.range[1]}.
        </p>
      )}
      <ul class="lines">
        {ask.rules?.map((rule, k) => (
          <li key={rule.path}>
            <button type="button" class="plain rule-link" onClick={() => focusField(rule.path)}>
              <Swatch rule={k} />
              <span>
                {letterOf(k)}, {rule.count === 0 ? <strong>never reached</strong> : shareWords(rule.count, whole)}:{' '}
                {rule.words === '' ? 'in all other cases' : rule.words} → {rule.gives.join(' / ')}
              </span>
            </button>
          </li>
        ))}
        {odd.map(({ words, n }) => (
          <li key={words} class="note warn">
            {shareWords(n, whole)}: {words}
          </li>
        ))}
      </ul>
      <Boundaries ask={ask} survey={survey} />
    </section>
  );
}

/** Enough to see where it turns; more of one value say that it goes to and fro. */
const MOST = 12;

function Boundaries({ ask, survey }: { readonly ask: AskSurvey; readonly survey: Survey }) {
  const { axes, base, boundaries } = survey;
  if (base === null || boundaries.length === 0) return null;
  const number = survey.examples.findIndex(({ drawn }) => JSON.stringify(drawn) === JSON.stringify(base)) + 1;
  const side = (outcome: number): string => outcomeWords(ask, outcome);
  const line = ({ axis, below, above, from, to }: Boundary): string =>
    `${axes[axis]?.label ?? ''} ${below} → ${side(from)}; ${above} → ${side(to)}`;
  /** The earlier of the two decides where the other one begins. */
  const ruleOf = ({ from, to }: Boundary): string => {
    const [first = 0] = [from, to].filter((rule) => rule >= 0).sort((a, b) => a - b);
    return ask.rules?.[first]?.path ?? ask.path;
  };
  return (
    <details class="folded" open>
      <summary>
        Where the rule changes
        {number > 0 ? `, all else as in example ${number}` : ', all else as in the chosen example'}
      </summary>
      <ul class="lines">
        {boundaries.slice(0, MOST).map((one) => (
          <li key={`${one.axis} ${one.below}`}>
            <button type="button" class="plain rule-link" onClick={() => focusField(ruleOf(one))}>
              {line(one)}
            </button>
          </li>
        ))}
      </ul>
      {boundaries.length > MOST && <p class="small soft">and {boundaries.length - MOST} more</p>}
    </details>
  );
}
