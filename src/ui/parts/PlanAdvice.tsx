import { ADVISED } from '../../memory/outlook.ts';
import type { PlanRecord } from '../models/plan-record.ts';
import { percent as broken, plural } from '../words.ts';
import { Folded } from './Later.tsx';

/** So many are named. */
const NAMED = 5;

/** In one piece, within a sentence. */
const percent = (share: number): string => broken(share).replace(' ', '\u00a0');

/**
 * Do the minutes suffice, what would, and what is given up where they do not?
 * @param props.isGuess nothing is known of this learner yet
 */
export function PlanAdvice(props: { readonly record: PlanRecord; readonly isGuess: boolean }) {
  const { plan, labels, minutes, advice } = props.record;
  const { recall } = plan;
  if (recall === null || advice === null) return null;
  const { enough, others } = advice;
  const suffice = recall >= ADVISED;
  const more = others.find((one) => one.minutes === minutes + 5);
  const saved = more === undefined ? 0 : plan.givenUp.length - more.givenUp;
  const lost = plan.givenUp.map((row) => labels[row] ?? '');
  const names = [...new Set(lost)].slice(0, NAMED);
  const unnamed = lost.filter((name) => !names.includes(name)).length;
  const target = percent(ADVISED);
  return (
    <section class="stack">
      <h2>{suffice ? 'The minutes suffice' : 'The minutes do not suffice for all of it'}</h2>
      {props.isGuess && (
        <p class="soft small">By first estimates, the same for everyone: your own answers will tell.</p>
      )}
      <p>
        {plural(minutes, 'minute')} a day: about {percent(recall)} on the day.{' '}
        {!suffice &&
          (enough === null
            ? `In the days that are left no number of minutes would reach ${target}.`
            : `${plural(enough, 'minute')} a day would reach ${target}.`)}
      </p>
      {names.length > 0 && (
        <>
          <p>Given up, so that the rest is there:</p>
          <ul class="lines">
            {names.map((name) => (
              <li key={name}>{name}</li>
            ))}
            {unnamed > 0 && <li>and {unnamed} more</li>}
          </ul>
        </>
      )}
      {!suffice && more !== undefined && (
        <p>
          Five minutes more a day: about {percent(more.recall)}
          {saved > 0 && `, and ${plural(saved, 'question')} fewer given up`}.
        </p>
      )}
      <Folded summary="Other minutes">
        {() => (
          <table class="forecast">
            <caption class="hidden-visually">Recall expected on the day, for other minutes a day</caption>
            <thead>
              <tr>
                <th scope="col">Minutes a day</th>
                <th scope="col">on the day, about</th>
                <th scope="col">given up</th>
              </tr>
            </thead>
            <tbody>
              {others.map((one) => (
                <tr key={one.minutes}>
                  <th scope="row">{one.minutes === minutes ? `${one.minutes}, as now` : one.minutes}</th>
                  <td class="number">{percent(one.recall)}</td>
                  <td class="number">{one.givenUp}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Folded>
    </section>
  );
}
