import { useEffect, useMemo, useState } from 'preact/hooks';
import type { Against } from '../../drill/missed.ts';
import { isoOfDay } from '../../lib/date-words.ts';
import type { Learner } from '../models/learner.ts';
import { againstOf, type Before, groupsOf, notedBefore, noteMissed, takeBack } from '../models/missed.ts';
import { CameUp } from '../parts/CameUp.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { dayWords, percent, plural } from '../words.ts';
import './debrief.css';

const WHERE = { simulator: 'Simulator session', check: 'Check' } as const;
type Where = keyof typeof WHERE;

/** After a simulator session or a check: what was missed there, to come back first. */
export function Missed(props: { readonly learner: Learner }) {
  const { learner } = props;
  const course = learner.course.value;
  const today = learner.today();
  const checkDay = learner.checkDay(course);
  const decks = learner.practised.value;
  const groups = useMemo(() => groupsOf(learner, course), [learner, course, decks]);
  const wasCheck = checkDay !== null && checkDay <= today;
  const [where, setWhere] = useState<Where>(wasCheck ? 'check' : 'simulator');
  const [date, setDate] = useState(isoOfDay(wasCheck ? checkDay : today));
  const [cameUp, setCameUp] = useState<ReadonlySet<string>>(new Set());
  const [tapped, setTapped] = useState<ReadonlySet<string>>(new Set());
  const [against, setAgainst] = useState<Against | null | 'none'>(null);
  const [failed, setFailed] = useState('');
  const [busy, setBusy] = useState(false);
  const [noted, setNoted] = useState<readonly Before[]>([]);
  const look = () => notedBefore(learner, groups).then(setNoted, () => undefined);
  useEffect(() => void look(), [learner, groups]);

  const chosen = groups.filter(({ name }) => cameUp.has(name));
  const missed = new Set(chosen.flatMap(({ things }) => things.map(({ name }) => name)).filter((n) => tapped.has(n)));
  const day = Math.round(Date.parse(`${date}T00:00:00Z`) / 86_400_000);
  const work = async (task: () => Promise<void>) => {
    setBusy(true);
    setFailed('');
    try {
      await task();
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
    setBusy(false);
  };
  const keep = () =>
    work(async () => {
      if (Number.isNaN(day)) throw new RangeError('Say on which day it was.');
      await noteMissed(learner, groups, { where, day, missed });
      setAgainst((await againstOf(learner, chosen, { day, missed })) ?? 'none');
      setTapped(new Set());
      setCameUp(new Set());
      await look();
      scrollTo(0, 0);
    });
  const undo = (entry: string) =>
    work(async () => {
      await takeBack(learner, entry);
      setAgainst(null);
      await look();
    });
  return (
    <Sheet
      title="What was missed there"
      bar={
        <div class="bar">
          {chosen.length > 0 && (
            <button
              type="button"
              class="main wide"
              disabled={busy || missed.size === 0 || !learner.writing.value}
              onClick={() => void keep()}
            >
              {missed.size === 0 ? 'Tap what was missed' : `Keep: ${missed.size} missed`}
            </button>
          )}
          <a class="button wide" href="#/">
            To the Brief
          </a>
        </div>
      }
    >
      <div role="status">{against !== null && <Told against={against} />}</div>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
      <fieldset>
        <legend>
          <h2>Where</h2>
        </legend>
        {(Object.keys(WHERE) as Where[]).map((one) => (
          <label class="pick" key={one}>
            <input type="radio" name="where" checked={where === one} onChange={() => setWhere(one)} />
            {WHERE[one]}
          </label>
        ))}
      </fieldset>
      <label class="field">
        Day
        <input type="date" max={isoOfDay(today)} value={date} onInput={(event) => setDate(event.currentTarget.value)} />
      </label>
      <section class="stack">
        <h2>What came up there</h2>
        <p>Tick each part that came up, then tap what you missed of it. It comes back first.</p>
        <div>
          {groups.map((group) => (
            <CameUp
              key={group.name}
              group={group}
              memory={learner.memory.value}
              isUp={cameUp.has(group.name)}
              tapped={tapped}
              onUp={() => setCameUp(toggled(cameUp, group.name))}
              onTap={(name) => setTapped(toggled(tapped, name))}
            />
          ))}
        </div>
      </section>
      {noted.length > 0 && (
        <section class="stack rule">
          <h2>Noted before</h2>
          <ul class="lines">
            {noted.map((one) => (
              <li key={one.entry} class="row spread">
                <span>
                  {WHERE[one.where]}, {dayWords(isoOfDay(one.day), new Date(today * 86_400_000).getUTCFullYear())}:{' '}
                  {plural(one.missed, 'thing')} missed
                </span>
                <button type="button" disabled={busy || !learner.writing.value} onClick={() => void undo(one.entry)}>
                  Take back
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
    </Sheet>
  );
}

const toggled = (set: ReadonlySet<string>, name: string): ReadonlySet<string> => {
  const next = new Set(set);
  if (!next.delete(name)) next.add(name);
  return next;
};

/** The forecast made for the day, and what came. */
function Told(props: { readonly against: Against | 'none' }) {
  const { against } = props;
  if (against === 'none' || against.predicted === null || against.share === null)
    return <p class="note good">Noted: it comes back first. There was no forecast for that day to set it against.</p>;
  const { predicted, share, of, missed, low, high, agrees, unpractised } = against;
  return (
    <div class="note good stack">
      <p>Noted: it comes back first.</p>
      <p>
        Predicted for the day: {percent(predicted)} of {plural(of, 'thing')}; missed there: {missed} ({percent(share)}{' '}
        recalled; {Math.round(low * 100)} to {percent(high)} would agree).
        {!agrees && (predicted > share ? ' The prediction was too high.' : ' The prediction was too low.')}
      </p>
      {unpractised > 0 && <p>Missed besides, and never practised before: {unpractised}.</p>}
      <p class="small soft">
        Of the parts that you ticked, as far as you had practised them until the day before. Only what you tapped counts
        as missed; all else of them counts as recalled, asked there or not.
      </p>
    </div>
  );
}
