import { useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import type { DrillDoor } from '../models/drill-door.ts';
import type { Learner } from '../models/learner.ts';
import { CheckGroups } from '../parts/CheckGroups.tsx';
import { OnlyHandOut } from '../parts/OnlyHandOut.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Stepper } from '../parts/Stepper.tsx';
import { go } from '../route.ts';

/** When the check is, and how many minutes a day there are. */
export function CheckDate(props: { readonly learner: Learner; readonly drill: DrillDoor }) {
  const { learner, drill } = props;
  const course = learner.course.value;
  const today = learner.today();
  const day = learner.checkDay(course);
  const [date, setDate] = useState(day === null || day < today ? '' : isoOfDay(day));
  const [minutes, setMinutes] = useState(learner.minutes(course));
  const [failed, setFailed] = useState('');
  const first = learner.memory.value.answers === 0;
  const save = async (chosen: string | null) => {
    if (chosen !== null && (chosen < isoOfDay(today) || Number.isNaN(Date.parse(chosen)))) {
      setFailed('This day is past. Choose today or a later day, or say that there is no date yet.');
      return;
    }
    try {
      await learner.set(`check-date/${course}`, chosen);
      if (minutes !== learner.minutes(course)) await learner.set(`minutes/${course}`, minutes);
      if (first && drill.underWay.value === null) await drill.start(course);
      go({ at: first ? 'drill' : 'brief' }, 'instead');
    } catch {
      setFailed(learner.problem.value ?? 'This could not be stored.');
    }
  };
  return (
    <Sheet
      title="When is your check?"
      bar={
        <div class="bar">
          <button type="button" class="main wide" disabled={date === ''} onClick={() => void save(date)}>
            {first ? 'Begin: read the first steps' : 'Keep this date'}
          </button>
          <button type="button" class="wide" onClick={() => void save(null)}>
            {first ? 'No date yet: begin' : 'No date yet'}
          </button>
        </div>
      }
    >
      <p>The day of the simulator or proficiency check. What you practise is chosen so that it is there on that day.</p>
      <label class="field">
        Check date
        <input
          type="date"
          min={isoOfDay(today)}
          value={date}
          onInput={(event) => {
            setFailed('');
            setDate(event.currentTarget.value);
          }}
        />
      </label>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
      <Stepper label="Minutes a day" unit="min" value={minutes} least={5} most={60} step={5} onChange={setMinutes} />
      {day !== null && day > today + 1 && <CheckGroups learner={learner} course={course} last={day} />}
      <OnlyHandOut learner={learner} />
      {!first && (
        <a class="button" href="#/report/date">
          Progress report for your instructor
        </a>
      )}
    </Sheet>
  );
}
