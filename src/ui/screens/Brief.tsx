import { useEffect, useMemo } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import { briefOf } from '../models/brief.ts';
import type { DrillDoor } from '../models/drill-door.ts';
import type { Learner } from '../models/learner.ts';
import { lazy } from '../parts/lazy.tsx';
import { OwnWays } from '../parts/OwnWays.tsx';
import { Sheet, Tabs } from '../parts/Sheet.tsx';
import { Stepper } from '../parts/Stepper.tsx';
import { go } from '../route.ts';
import { COURSE_WORDS, dayWords, SHORT_CAUTION } from '../words.ts';

/** ms, until all of the first screen stands. */
const SETTLED = 1500;

const Notices = lazy(() => import('../parts/Notices.tsx').then((module) => module.Notices), 'part');
const BriefForecast = lazy(() => import('./brief-forecast.tsx').then((module) => module.BriefForecast), 'part');

/** How far off the check is, what today's minutes are for, and one button that starts. */
export function Brief(props: { readonly learner: Learner; readonly drill: DrillDoor }) {
  const { learner, drill } = props;
  const course = learner.course.value;
  const memory = learner.memory.value;
  const decks = learner.practised.value;
  const today = learner.today();
  const brief = useMemo(() => briefOf(learner, course), [learner, course, memory, decks, today]);
  const checkDay = learner.checkDay(course);
  const minutes = learner.minutes(course);
  const open = drill.underWay.value;
  const year = new Date(today * 86_400_000).getUTCFullYear();
  useEffect(() => {
    const load = () => import('../drill-ahead.ts').then((module) => module.loadDrillAhead());
    // Offline, and not kept yet: it is asked for again when it is needed.
    const timer = setTimeout(() => void load().catch(() => undefined), SETTLED);
    return () => clearTimeout(timer);
  }, []);
  const start = async () => {
    if (open === null) await drill.start(course);
    go({ at: 'drill' });
  };
  return (
    <Sheet
      title={learner.clock.suspicion.value === null ? dayWords(isoOfDay(today)) : 'Which day is it?'}
      bar={
        <>
          <div class="bar">
            <button
              type="button"
              class="main wide start"
              disabled={!learner.writing.value}
              onClick={() => void start()}
            >
              {open !== null
                ? 'Go on with your drill'
                : `Start${drill.session.value?.day === today ? ' once more' : ''}: ${minutes} minutes`}
            </button>
          </div>
          <Tabs at="brief" />
        </>
      }
    >
      <Notices learner={learner} />
      {learner.courses.value.length > 1 && (
        <fieldset>
          <legend class="hidden-visually">What to practise</legend>
          {learner.courses.value.map((one) => (
            <label class="pick" key={one}>
              <input type="radio" name="course" checked={one === course} onChange={() => learner.setCourse(one)} />
              {COURSE_WORDS[one]}
            </label>
          ))}
        </fieldset>
      )}
      {course === 'fictional' && (
        <p>
          <span class="mark">Invented aeroplane, invented numbers</span>
        </p>
      )}

      <section class="stack">
        {checkDay === null ? (
          <p>No check date yet.</p>
        ) : checkDay < today ? (
          <p>Your check was on {dayWords(isoOfDay(checkDay), year)}. From here on you practise to keep it.</p>
        ) : (
          <p class="days-left">
            <strong class="number">{checkDay - today}</strong>
            <span>
              {checkDay - today === 1 ? 'day' : 'days'} to your check
              <br />
              <span class="soft small">{dayWords(isoOfDay(checkDay), year)}</span>
            </span>
          </p>
        )}
        {checkDay === null && (
          <a class="button" href="#/date">
            Set the check date
          </a>
        )}
        {checkDay !== null && checkDay <= today && (
          <a class="button" href="#/missed">
            Note what was missed there
          </a>
        )}
        {open === null && (
          <Stepper
            label="Each day"
            unit="min"
            value={minutes}
            least={5}
            most={60}
            step={5}
            onChange={(next) => void learner.set(`minutes/${course}`, next).catch(() => undefined)}
          />
        )}
      </section>

      <OwnWays today={today} checkDay={checkDay} />

      {brief.begins.length > 0 && (
        <section class="stack">
          <h2>Today begins with</h2>
          <ul class="lines">
            {brief.begins.map(({ title, why }) => (
              <li key={title}>
                {title}
                <span class="soft small"> · {why}</span>
              </li>
            ))}
          </ul>
        </section>
      )}

      <BriefForecast learner={learner} course={course} open={brief.open} last={drill.session.value} />
      <p class="soft small">{SHORT_CAUTION}</p>
    </Sheet>
  );
}
