import { isoOfDay } from '../../lib/date-words.ts';
import './plan.css';
import { computed, type ReadonlySignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import { forecast } from '../../memory/forecast.ts';
import { FARTHEST } from '../../memory/plan/solve.ts';
import { checkGroups, dayOfDate } from '../models/check-groups.ts';
import type { Learner, Practised } from '../models/learner.ts';
import { type PlanNow, planModelOf } from '../models/plan.ts';
import { groupTitle } from '../models/titles.ts';
import { Later, useTurn } from '../parts/Later.tsx';
import { Opens } from '../parts/Opens.tsx';
import { PlanAdvice } from '../parts/PlanAdvice.tsx';
import { PlanCalendar } from '../parts/PlanCalendar.tsx';
import { PlanCurve } from '../parts/PlanCurve.tsx';
import { PlanTable } from '../parts/PlanTable.tsx';
import { type Course, courseOf, dayWords, percent, plural } from '../words.ts';

/** What is to be expected on the day: with the plan and without, whether the minutes suffice, and the planned days. */
export function BriefForecast(props: { readonly learner: Learner; readonly course: Course }) {
  const { learner, course } = props;
  const plans = planModelOf(learner);
  const now = plans.now(course);
  // Drawn anew when a part of the plan is there, not at each step towards it.
  const [state, record] = useMemo(
    () => [computed(() => now.value.state), computed(() => now.value.record)] as const,
    [now],
  );
  useEffect(() => void plans.look(course));
  return <Outlook learner={learner} course={course} now={now} state={state.value} record={record.value} />;
}

function Outlook(props: {
  readonly learner: Learner;
  readonly course: Course;
  readonly now: ReadonlySignal<PlanNow>;
  readonly state: PlanNow['state'];
  readonly record: PlanNow['record'];
}) {
  const { learner, course, now, state, record } = props;
  const memory = learner.memory.value;
  const practised = learner.practised.value;
  const today = learner.today();
  const checkDay = learner.checkDay(course);
  const isAhead = checkDay !== null && checkDay > today;
  const decks = practised.filter(({ stored }) => courseOf(stored.nature) === course);
  const on = isAhead ? checkDay : today;
  const told = useMemo(() => {
    const items = practised
      .filter(({ stored }) => courseOf(stored.nature) === course)
      .flatMap(({ resolved, atCheck }) => [...((isAhead && atCheck()?.resolved) || resolved).items.values()]);
    return forecast(items, memory, on);
  }, [practised, course, memory, on, isAhead]);
  const isTurn = useTurn((record?.outlook ?? null) !== null);
  const outlook = isTurn ? (record?.outlook ?? null) : null;
  const since = record === null ? 0 : memory.answers - record.answers;
  const groups = isAhead ? checkGroups(learner, course).filter(({ date }) => dayOfDate(date) > today) : [];
  return (
    <>
      {groups.map(({ id, name, date }) => (
        <p key={id}>
          {name}: {plural(dayOfDate(date) - today, 'day')} <span class="soft small">· {dayWords(date)}</span>
        </p>
      ))}
      <Opens learner={learner} course={course} />
      <section class="stack">
        <h2>{!isAhead ? 'Today, from memory' : outlook === null ? 'On the day, if you stop now' : 'On the day'}</h2>
        {told === null ? (
          <p class="soft">
            No forecast yet: it needs 30 answers on two days. So far {plural(memory.answers, 'answer')} on{' '}
            {plural(memory.days.size, 'day')}.
          </p>
        ) : record !== null && outlook !== null ? (
          <PlanTable record={record} outlook={outlook} />
        ) : (
          <ForecastTable told={told} decks={decks} />
        )}
        {told !== null && (
          <p class="soft small">
            Places of steps, numbers and rules; not callouts, cues or crew. It is about these questions on this device,
            and predicts no check result.
            {outlook !== null &&
              since > 0 &&
              ` ${plural(since, 'answer')} given since it was worked out will count tomorrow.`}
          </p>
        )}
        {state === 'working' && <Working now={now} />}
        {isAhead && checkDay - today > FARTHEST && (
          <p class="soft">
            A plan of the days is made from{' '}
            {dayWords(isoOfDay(checkDay - FARTHEST), new Date(today * 86_400_000).getUTCFullYear())} on, {FARTHEST} days
            before the check. Until then you practise what fades first.
          </p>
        )}
      </section>
      {told !== null && record !== null && outlook !== null && (
        <Later>{() => <PlanCurve record={record} outlook={outlook} />}</Later>
      )}
      {record !== null && (
        <>
          <Later>{() => <PlanAdvice record={record} isGuess={told === null} />}</Later>
          <Later>{() => <PlanCalendar learner={learner} course={course} record={record} />}</Later>
        </>
      )}
    </>
  );
}

function Working(props: { readonly now: ReadonlySignal<PlanNow> }) {
  return (
    <div class="working" role="status">
      Working out the plan…
      <progress class="progress" aria-label="Share of the plan worked out" max={1} value={props.now.value.done} />
    </div>
  );
}

/** Without a plan. */
function ForecastTable(props: {
  readonly told: NonNullable<ReturnType<typeof forecast>>;
  readonly decks: readonly Practised[];
}) {
  const { all, critical, groups } = props.told;
  return (
    <table class="forecast">
      <caption class="hidden-visually">Predicted recall, for each procedure</caption>
      <tbody>
        <tr>
          <th scope="row">Everything met so far</th>
          <td class="number">{percent(all)}</td>
        </tr>
        {critical !== null && (
          <tr>
            <th scope="row">Of it, critical</th>
            <td class="number">{percent(critical)}</td>
          </tr>
        )}
        {groups.map(({ deck, group, kind, share }) => {
          const title = groupTitle(props.decks, { deck, group, groupKind: kind });
          return (
            <tr key={title}>
              <th scope="row">{title}</th>
              <td class="number">{share === null ? 'not met' : percent(share)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
