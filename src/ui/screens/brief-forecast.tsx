import { isoOfDay } from '../../lib/date-words.ts';
import './plan.css';
import { computed, type ReadonlySignal } from '@preact/signals';
import { useEffect, useMemo } from 'preact/hooks';
import type { Session } from '../../drill/types.ts';
import { forecast } from '../../memory/forecast.ts';
import { FARTHEST } from '../../memory/plan/solve.ts';
import type { Item } from '../../model/item.ts';
import { checkGroups, dayOfDate } from '../models/check-groups.ts';
import type { Learner, Practised } from '../models/learner.ts';
import { type PlanNow, planModelOf } from '../models/plan.ts';
import { groupTitle } from '../models/titles.ts';
import { isUsedUp } from '../models/used-up.ts';
import { Fold, Later, useTurn } from '../parts/Later.tsx';
import { Opens } from '../parts/Opens.tsx';
import { PlanAdvice, PlanMinutes } from '../parts/PlanAdvice.tsx';
import { PlanCalendar } from '../parts/PlanCalendar.tsx';
import { PlanCurve } from '../parts/PlanCurve.tsx';
import { PlanParts, PlanTable } from '../parts/PlanTable.tsx';
import { type Course, courseOf, dayWords, percent, plural } from '../words.ts';

/** What is to be expected on the day: with the plan and without, whether the minutes suffice, and the planned days. */
export function BriefForecast(props: {
  readonly learner: Learner;
  readonly course: Course;
  /** Sure but wrong, critical, and not yet right on two days: what it is. */
  readonly open: readonly Item[];
  /** The drill that was last. */
  readonly last: Session | null;
}) {
  const { learner, course, open, last } = props;
  const plans = planModelOf(learner);
  const now = plans.now(course);
  // Drawn anew when a part of the plan is there, not at each step towards it.
  const [state, record] = useMemo(
    () => [computed(() => now.value.state), computed(() => now.value.record)] as const,
    [now],
  );
  useEffect(() => void plans.look(course));
  return (
    <>
      {isUsedUp(last, course, learner) && <p>Today's minutes are used. You may go on, or come back tomorrow.</p>}
      <Outlook learner={learner} course={course} open={open} now={now} state={state.value} record={record.value} />
    </>
  );
}

function Outlook(props: {
  readonly learner: Learner;
  readonly course: Course;
  readonly open: readonly Item[];
  readonly now: ReadonlySignal<PlanNow>;
  readonly state: PlanNow['state'];
  readonly record: PlanNow['record'];
}) {
  const { learner, course, open, now, state, record } = props;
  const memory = learner.memory.value;
  const practised = learner.practised.value;
  const today = learner.today();
  const checkDay = learner.checkDay(course);
  const isAhead = checkDay !== null && checkDay > today;
  /** "Who: “Gear up”" is asked in several procedures. */
  const distinct = (item: Item): string =>
    open.some(({ key, label }) => key !== item.key && label === item.label)
      ? `${groupTitle(decks, item)}: ${item.label}`
      : item.label;
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
  const isPlanned = told !== null && record !== null && outlook !== null;
  return (
    <>
      {open.length > 0 && (
        <div class="folds">
          <Fold title="Sure, but wrong" said={`${plural(open.length, 'critical item')} not yet right on two days`}>
            {() => (
              <>
                <p class="small soft">Critical ones alone. What else was sure but wrong comes back as missed.</p>
                <ul class="lines">
                  {open.map((item) => (
                    <li key={item.key}>{distinct(item)}</li>
                  ))}
                </ul>
              </>
            )}
          </Fold>
        </div>
      )}
      {groups.map(({ id, name, date }) => (
        <p key={id}>
          {name}: {plural(dayOfDate(date) - today, 'day')} <span class="soft small">· {dayWords(date)}</span>
        </p>
      ))}
      <section class="stack">
        <h2>
          {told === null
            ? 'Your own forecast'
            : !isAhead
              ? 'Today, from memory'
              : outlook === null
                ? 'On the day, if you stop now'
                : 'On the day'}
        </h2>
        {told === null ? (
          <p class="soft">
            It needs 30 questions answered on two days. So far {memory.answers} on {plural(memory.days.size, 'day')}.
          </p>
        ) : isPlanned ? (
          <PlanTable outlook={outlook} />
        ) : (
          <ForecastTable rows={wholeOf(told)} caption="Predicted recall" />
        )}
        {told !== null && (
          <p class="soft small">
            About these questions on this device; it predicts no check result.
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
      {record !== null && <Later>{() => <PlanAdvice record={record} isGuess={told === null} />}</Later>}
      <div class="folds">
        {told !== null &&
          (isPlanned ? <PlanParts record={record} outlook={outlook} /> : <Parts told={told} decks={decks} />)}
        {isPlanned && <PlanCurve record={record} outlook={outlook} />}
        {record !== null && <PlanMinutes record={record} />}
        <Opens learner={learner} course={course} />
        {record !== null && <PlanCalendar learner={learner} course={course} record={record} />}
      </div>
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

type Told = NonNullable<ReturnType<typeof forecast>>;
type Row = readonly [title: string, said: string];

const wholeOf = ({ all, critical }: Told): readonly Row[] => [
  ['Everything met so far', percent(all)],
  ...(critical === null ? [] : ([['Of it, critical', percent(critical)]] as const)),
];

/** Each procedure, without a plan. */
function Parts(props: { readonly told: Told; readonly decks: readonly Practised[] }) {
  const { groups } = props.told;
  const titleOf = ({ deck, group, kind }: Told['groups'][number]) =>
    groupTitle(props.decks, { deck, group, groupKind: kind });
  const met = groups.filter(({ share }) => share !== null).sort((a, b) => (a.share ?? 0) - (b.share ?? 0));
  const [lowest] = met;
  return (
    <Fold
      title="Part by part"
      said={`${met.length} of ${plural(groups.length, 'part')} met${
        lowest === undefined ? '' : `, the lowest: ${titleOf(lowest)}, ${percent(lowest.share ?? 0)}`
      }`}
    >
      {() => (
        <>
          <ForecastTable
            rows={groups.map((one) => [titleOf(one), one.share === null ? 'not met' : percent(one.share)])}
            caption="Predicted recall, for each procedure"
          />
          <p class="soft small">Counted are places of steps, numbers and rules; not callouts, cues or crew.</p>
        </>
      )}
    </Fold>
  );
}

/** Without a plan. */
function ForecastTable(props: { readonly rows: readonly Row[]; readonly caption: string }) {
  return (
    <table class="forecast">
      <caption class="hidden-visually">{props.caption}</caption>
      <tbody>
        {props.rows.map(([title, said]) => (
          <tr key={title}>
            <th scope="row">{title}</th>
            <td class="number">{said}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
