import { ADVISED } from '../../memory/outlook.ts';
import type { PlanRecord } from '../models/plan-record.ts';
import { percent as broken, plural } from '../words.ts';
import { FirstFew } from './FirstFew.tsx';
import { Fold } from './Later.tsx';

/** So many are named. */
const NAMED = 5;

/** In one piece, within a sentence. */
const percent = (share: number): string => broken(share).replace(' ', '\u00a0');

/**
 * Do the minutes suffice, and what would?
 * @param props.isGuess nothing is known of this learner yet
 */
export function PlanAdvice(props: { readonly record: PlanRecord; readonly isGuess: boolean }) {
  const { plan, minutes, advice } = props.record;
  const { recall } = plan;
  if (recall === null || advice === null) return null;
  const { enough } = advice;
  const suffice = recall >= ADVISED;
  const target = percent(ADVISED);
  return (
    <section class="stack">
      <h2>
        {suffice
          ? 'The minutes suffice'
          : plan.givenUp.length === 0
            ? `The minutes do not reach ${target}`
            : 'The minutes do not suffice for all of it'}
      </h2>
      <p>
        {props.isGuess && 'By first estimates, the same for everyone, '}
        {plural(minutes, 'minute')} a day: about {percent(recall)} on the day.{' '}
        {!suffice &&
          (enough === null
            ? `In the days that are left no number of minutes would reach ${target}.`
            : `${plural(enough, 'minute')} a day would reach ${target}.`)}
      </p>
    </section>
  );
}

/** What the plan leaves out because time is short, and what other minutes would bring. */
export function PlanMinutes(props: { readonly record: PlanRecord }) {
  const { plan, labels, minutes, advice } = props.record;
  if (plan.recall === null || advice === null) return null;
  const { others } = advice;
  const more = others.find((one) => one.minutes === minutes + 5);
  const out = plan.givenUp.map((row) => labels[row] ?? '');
  const fewer = more === undefined ? 0 : out.length - more.givenUp;
  return (
    <>
      {out.length > 0 && (
        <Fold
          title="Left out for want of time"
          said={`${plural(out.length, 'item')}${fewer > 0 ? `; with five minutes more a day ${fewer === out.length ? 'none' : `${fewer} fewer`}` : ''}`}
        >
          {() => (
            <>
              <p>
                Time is short, so the plan leaves out what would cost more minutes than it brings, and the rest is
                there. Nothing is lost: with more minutes it is asked again.
                {more !== undefined && ` Five minutes more a day: about ${percent(more.recall)} on the day.`}
              </p>
              <FirstFew all={[...new Set(out)]} most={NAMED} more={(rest) => `${rest} more`}>
                {(names) => (
                  <ul class="lines">
                    {names.map((name) => (
                      <li key={name}>{name}</li>
                    ))}
                  </ul>
                )}
              </FirstFew>
            </>
          )}
        </Fold>
      )}
      <Fold title="Other minutes" said="what each would bring on the day, and leave out">
        {() => (
          <table class="forecast">
            <caption class="hidden-visually">Recall expected on the day, for other minutes a day</caption>
            <thead>
              <tr>
                <th scope="col">Minutes a day</th>
                <th scope="col">on the day, about</th>
                <th scope="col">items left out</th>
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
      </Fold>
    </>
  );
}
