import { useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import { type CheckGroup, checkGroups, checkGroupsKey, dayOfDate, thingOf } from '../models/check-groups.ts';
import type { Learner } from '../models/learner.ts';
import { type Course, courseOf, dayWords, plural } from '../words.ts';

/** Some procedures are checked on a day of their own, before all the others. */
export function CheckGroups(props: { readonly learner: Learner; readonly course: Course; readonly last: number }) {
  const { learner, course, last } = props;
  const today = learner.today();
  const groups = checkGroups(learner, course);
  const [name, setName] = useState('');
  const [date, setDate] = useState('');
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const [failed, setFailed] = useState('');
  const taken = new Set(groups.flatMap(({ things }) => things));
  const free = learner.practised.value
    .filter(({ stored }) => courseOf(stored.nature) === course)
    .flatMap(({ deck, resolved }) => {
      // Of the variants flown.
      const asked = new Set([...resolved.items.values()].map(thingOf));
      return (deck.procedures ?? [])
        .map(({ id, title }) => ({ thing: `${deck.id}#${id}`, title }))
        .filter(({ thing }) => asked.has(thing));
    })
    .filter(({ thing }) => !taken.has(thing));
  const store = async (next: readonly CheckGroup[]): Promise<boolean> => {
    try {
      await learner.set(checkGroupsKey(course), next);
      setFailed('');
      return true;
    } catch {
      setFailed(learner.problem.value ?? 'This could not be stored.');
      return false;
    }
  };
  const add = async () => {
    const day = dayOfDate(date);
    const wrong = !(day > today)
      ? 'Choose a day after today.'
      : day >= last
        ? `Choose a day before ${dayWords(isoOfDay(last))}: the check date is the last of all.`
        : name.trim() === ''
          ? 'Give it a name, such as the session in which it is checked.'
          : ticked.length === 0
            ? 'Tick the procedures that are checked on this day.'
            : '';
    setFailed(wrong);
    if (wrong !== '') return;
    const id = `${learner.device.now().toString(36)}-${groups.length}`;
    if (!(await store([...groups, { id, name: name.trim(), date, things: ticked }]))) return;
    setName('');
    setDate('');
    setTicked([]);
  };
  return (
    <details class="stack" open={groups.length > 0}>
      <summary class="button plain">Another date for some procedures</summary>
      <div class="stack">
        {groups.length > 0 && (
          <ul class="lines">
            {groups.map((group) => (
              <li key={group.id} class="row spread">
                <span>
                  {group.name}
                  <br />
                  <span class="soft small">
                    {dayWords(group.date)}
                    {dayOfDate(group.date) <= today ? ', over' : ''} · {plural(group.things.length, 'procedure')}
                  </span>
                </span>
                <button
                  type="button"
                  aria-label={`Remove the date of ${group.name}`}
                  onClick={() => void store(groups.filter(({ id }) => id !== group.id))}
                >
                  Remove
                </button>
              </li>
            ))}
          </ul>
        )}
        {free.length > 0 && (
          <>
            <label class="field">
              Name
              <input type="text" maxLength={60} value={name} onInput={(event) => setName(event.currentTarget.value)} />
            </label>
            <label class="field">
              Date of these procedures
              <input
                type="date"
                min={isoOfDay(today + 1)}
                max={isoOfDay(last - 1)}
                value={date}
                onInput={(event) => setDate(event.currentTarget.value)}
              />
            </label>
            <fieldset>
              <legend>Procedures</legend>
              {free.map(({ thing, title }) => (
                <label class="pick" key={thing}>
                  <input
                    type="checkbox"
                    checked={ticked.includes(thing)}
                    onChange={(event) =>
                      setTicked(
                        event.currentTarget.checked ? [...ticked, thing] : ticked.filter((one) => one !== thing),
                      )
                    }
                  />
                  {title}
                </label>
              ))}
            </fieldset>
            <button type="button" class="wide" onClick={() => void add()}>
              Keep this date for them
            </button>
          </>
        )}
        {failed !== '' && (
          <p class="note bad" role="alert">
            {failed}
          </p>
        )}
      </div>
    </details>
  );
}
