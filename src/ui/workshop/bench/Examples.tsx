import type { Survey } from '../../../deck/survey/types.ts';
import type { Drawn } from '../../../model/form.ts';
import type { BenchModel } from './bench-model.ts';
import { outcomeWords } from './words.ts';

const same = (a: Drawn, b: Drawn): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Draws as a learner would get them, with what is right. */
export function Examples({ bench, survey }: { readonly bench: BenchModel; readonly survey: Survey }) {
  const { seed, around } = bench.wish.value;
  if (survey.examples.length === 0)
    return <p class="note bad">No situation could be drawn: nothing meets all that is required.</p>;
  return (
    <section class="stack" aria-label="Examples">
      <h3>Examples</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what is wider than the page is scrolled by keys too */}
      <section class="scrolled" aria-label="Table of examples" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">Look around</th>
              {survey.axes.map(({ name, label }) => (
                <th key={name} scope="col">
                  {label}
                </th>
              ))}
              {survey.asks.map(({ id, words }) => (
                <th key={id} scope="col" class="answer">
                  {words}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {survey.examples.map(({ drawn, shown, answers }, i) => (
              <tr key={shown.join()}>
                <td>
                  <button
                    type="button"
                    aria-label={`Example ${i + 1}: look around it`}
                    aria-pressed={around !== null && same(around, drawn)}
                    onClick={() => bench.want({ around: around !== null && same(around, drawn) ? null : drawn })}
                  >
                    {i + 1}
                  </button>
                </td>
                {shown.map((words, k) => (
                  <td key={survey.axes[k]?.name}>{words}</td>
                ))}
                {survey.asks.map((ask, k) => {
                  const { outcome, words } = answers[k] ?? { outcome: 0, words: '' };
                  return (
                    <td key={ask.id} class="answer">
                      {ask.rules === null && words !== '' ? words : outcomeWords(ask, outcome)}
                    </td>
                  );
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
      <button type="button" onClick={() => bench.want({ seed: seed + 1 })}>
        Other examples
      </button>
    </section>
  );
}
