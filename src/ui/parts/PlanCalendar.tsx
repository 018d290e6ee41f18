import { useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import type { Learner } from '../models/learner.ts';
import type { PlanRecord } from '../models/plan-record.ts';
import { type Course, plural, SHORT_CAUTION } from '../words.ts';
import { Fold } from './Later.tsx';

interface Of {
  readonly learner: Learner;
  readonly course: Course;
  readonly record: PlanRecord;
}

/** The planned days as a calendar file, at an hour that the learner picks. */
export function PlanCalendar(props: Of) {
  const { minutes, plan } = props.record;
  return (
    <Fold
      title="The days in your calendar"
      said={`a file for it: ${plural(minutes, 'minute')} on each of ${plural(plan.checkDay - plan.day, 'day')}`}
    >
      {() => <Days {...props} />}
    </Fold>
  );
}

function Days(props: Of) {
  const { learner, course, record } = props;
  const { device, store } = learner;
  const { day, checkDay } = record.plan;
  const [time, setTime] = useState('18:00');
  const [said, setSaid] = useState('');
  const save = async () => {
    try {
      const days = Array.from({ length: checkDay - day }, (_, u) => isoOfDay(day + u));
      const text = await device.calendar({
        days,
        time,
        minutes: record.minutes,
        summary: `Recency: ${plural(record.minutes, 'minute')}`,
        description: `Practise for the check on ${isoOfDay(checkDay)}.\n${SHORT_CAUTION}`,
        of: `${course}-${store.writer}`,
        made: device.now(),
      });
      const saved = await device.save(`recency-days-until-${isoOfDay(checkDay)}.ics`, text);
      setSaid(saved ? `Saved: ${plural(days.length, 'day')}. Open the file to put them in your calendar.` : '');
    } catch {
      setSaid('The file could not be made. Try again.');
    }
  };
  return (
    <>
      <p>
        {plural(record.minutes, 'minute')} on each of {plural(checkDay - day, 'day')} until the check. A later file
        takes the place of the days that it has in common with this one.
      </p>
      <label class="row spread">
        At
        <input
          type="time"
          value={time}
          onInput={(event) => {
            setSaid('');
            setTime(event.currentTarget.value);
          }}
        />
      </label>
      <button type="button" class="wide" disabled={time === ''} onClick={() => void save()}>
        Put the days in a calendar
      </button>
      <p role="status" class="small">
        {said}
      </p>
    </>
  );
}
