import './bench.css';
import { useEffect, useMemo } from 'preact/hooks';
import type { AskSurvey, NoSurvey, Survey } from '../../../deck/survey/types.ts';
import { focusField } from '../findings/focus.ts';
import type { DraftModel } from '../model/draft.ts';
import type { Live } from '../model/live.ts';
import { type BenchModel, createBench } from './bench-model.ts';
import { Examples } from './Examples.tsx';
import { PictureOf } from './PictureOf.tsx';
import { Rules } from './Rules.tsx';
import { count, reasonWords, shareWords } from './words.ts';

/** What a scenario of the draft draws and what comes of it: examples, shares of rules, boundaries, what is refused. */
export function ScenarioBench(props: {
  readonly draft: DraftModel;
  readonly live: Live;
  /** Its place in the deck. */
  readonly scenario: number;
}) {
  const { draft, live, scenario } = props;
  const bench = useMemo(() => createBench(draft, live, scenario), [draft, live, scenario]);
  useEffect(() => () => bench.dispose(), [bench]);
  const found = bench.found.value;
  return (
    <section class="stack bench" aria-label="What is drawn" aria-busy={bench.busy.value}>
      <h2>What is drawn</h2>
      {bench.failed.value && (
        <p class="note bad">This could not be worked out. What is typed is kept; load the app again.</p>
      )}
      {found !== null &&
        ('problem' in found ? (
          <Not found={found} path={`/scenarios/${scenario}`} />
        ) : (
          <Found bench={bench} survey={found} />
        ))}
    </section>
  );
}

function Not({ found, path }: { readonly found: NoSurvey; readonly path: string }) {
  const goTo = 'at' in found && found.at !== '' ? found.at : null;
  return (
    <p class="note">
      {reasonWords(found, path)}{' '}
      {goTo !== null && (
        <button type="button" onClick={() => focusField(goTo)}>
          Go there
        </button>
      )}
    </p>
  );
}

function Found({ bench, survey }: { readonly bench: BenchModel; readonly survey: Survey }) {
  const wish = bench.wish.value;
  // What is shown is of one survey, also while another is being made.
  const ask = survey.asks[survey.ask] as AskSurvey;
  return (
    <>
      {survey.variants.length > 1 && (
        <label class="field">
          As flown with
          <select
            value={String(Math.min(wish.variant, survey.variants.length - 1))}
            onChange={(event) => bench.want({ variant: Number(event.currentTarget.value), around: null })}
          >
            {survey.variants.map((words, i) => (
              <option key={words} value={String(i)}>
                {words}
              </option>
            ))}
          </select>
        </label>
      )}
      <p>
        {survey.exact ? `All ${count(survey.tried)} combinations` : `${count(survey.tried)} draws of very many`} were
        tried; {shareWords(survey.met, survey.tried)} can be asked.
        {survey.broken > 0 && ` In ${shareWords(survey.broken, survey.tried)} a value cannot be computed.`}
      </p>
      <Refused survey={survey} />
      <Examples bench={bench} survey={survey} />
      {survey.asks.length > 1 && (
        <label class="field">
          Question
          <select
            value={String(Math.min(wish.ask, survey.asks.length - 1))}
            onChange={(event) => bench.want({ ask: Number(event.currentTarget.value), x: null, y: null, around: null })}
          >
            {survey.asks.map(({ id, words }, i) => (
              <option key={id} value={String(i)}>
                {words}
              </option>
            ))}
          </select>
        </label>
      )}
      <Rules ask={ask} survey={survey} />
      {survey.picture !== null && <PictureOf bench={bench} survey={survey} picture={survey.picture} ask={ask} />}
    </>
  );
}

function Refused({ survey }: { readonly survey: Survey }) {
  if (survey.refusals.length === 0) return null;
  return (
    <details class="folded">
      <summary>Not asked: {shareWords(survey.tried - survey.met - survey.broken, survey.tried)} of the draws</summary>
      <ul class="lines">
        {survey.refusals.map(({ path, words, count: n }) => (
          <li key={`${path} ${words}`}>
            <button type="button" class="plain" onClick={() => focusField(path)}>
              {shareWords(n, survey.tried)} fail: {words}
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}
