import { computed } from '@preact/signals';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { LEAVABLE, type Leavable, type Report as ProgressReport } from '../../model/report.ts';
import { MOST_TRAINEE, traineeOf } from '../../model/trainee.ts';
import { buildReport, reportName } from '../../report/build.ts';
import { RECALL_WORDS } from '../../report/item-words.ts';
import { LEAVABLE_WORDS, reportLines } from '../../report/lines.ts';
import { type Held, heldFor } from '../assign/lines.ts';
import type { OwnKey } from '../device.ts';
import { ownCheckDays } from '../models/check-groups.ts';
import type { Learner } from '../models/learner.ts';
import { planModelOf } from '../models/plan.ts';
import {
  type Chosen,
  contentOf,
  deviceKey,
  type Gathered,
  gather,
  keepChoice,
  keptChoice,
  planSaid,
} from '../models/report.ts';
import { onwards, whence } from '../models/whence.ts';
import { ReportLines } from '../parts/ReportLines.tsx';
import { type MadeReport, ReportOut } from '../parts/ReportOut.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { VerdictWords } from '../parts/VerdictWords.tsx';
import { COURSE_WORDS, courseOf } from '../words.ts';

/** What an instructor may see of one's practice: chosen, read line by line, and only then a file. */
export function Report(props: { readonly learner: Learner }) {
  const { learner } = props;
  const course = learner.course.value;
  const [own, setOwn] = useState<{ readonly key: OwnKey; readonly chosen: Chosen } | null>(null);
  const [failed, setFailed] = useState('');
  useEffect(() => {
    deviceKey(learner)
      .then(async (key) => setOwn({ key, chosen: await keptChoice(learner, key) }))
      .catch((error) => setFailed(error instanceof Error ? error.message : String(error)));
  }, [learner]);
  return own === null ? (
    <Sheet title="Progress report">
      {failed === '' ? (
        <p role="status">A moment.</p>
      ) : (
        <p class="note bad" role="alert">
          No report can be made here. {failed}
        </p>
      )}
    </Sheet>
  ) : (
    <Making key={course} learner={learner} ownKey={own.key} kept={own.chosen} />
  );
}

interface Made extends MadeReport {
  /** What it says, but for its number and the plan, which may be worked out later. */
  readonly of: string;
  readonly report: ProgressReport;
}

function Making(props: { readonly learner: Learner; readonly ownKey: OwnKey; readonly kept: Chosen }) {
  const { learner, ownKey } = props;
  const course = learner.course.value;
  const memory = learner.memory.value;
  const today = learner.today();
  const practised = learner.practised.value;
  const [chosen, setChosen] = useState(props.kept);
  const [without, setWithout] = useState<ReadonlySet<string>>(new Set());
  const [gathered, setGathered] = useState<Gathered | null>(null);
  const [made, setMade] = useState<Made | null>(null);
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState('');
  const fail = (error: unknown) => setFailed(error instanceof Error ? error.message : String(error));
  useEffect(() => {
    let left = false;
    setFailed('');
    gather(learner, course).then(
      (all) => left || setGathered(all),
      (error) => left || fail(error),
    );
    return () => {
      left = true;
    };
  }, [learner, course, practised, memory]);

  // Usually there since the Brief; of a plan for other decks too nothing is told.
  const plans = planModelOf(learner);
  useEffect(() => void plans.look(course), [plans, course]);
  // Drawn anew when it is there, not at each step towards it.
  const record = useMemo(() => computed(() => plans.now(course).value.record), [plans, course]).value;

  const named = traineeOf(chosen.trainee);
  const assigned = heldFor(learner, course)?.title ?? '';
  const report = useMemo(() => {
    if (gathered === null) return null;
    const assignment = assignmentIn(heldFor(learner, course));
    return buildReport({
      trainee: named ?? '',
      n: chosen.n + 1,
      day: today,
      app: learner.device.build.version,
      checkDay: learner.checkDay(course),
      ownCheckDays: ownCheckDays(learner, course, today),
      planned: learner.minutes(course),
      plan: without.size === 0 ? planSaid(record) : null,
      ...(assignment !== null && { assignment }),
      decks: gathered.decks.filter(({ resolved }) => !without.has(resolved.deck.id)),
      memory,
      leftOut: new Set(chosen.leftOut),
    });
  }, [gathered, named, chosen, without, today, memory, learner, course, record]);
  const of = useMemo(() => (report === null ? '' : contentOf(report)), [report]);
  const out = made?.of === of ? made : null;
  const lines = useMemo(() => {
    if (report === null || gathered === null) return null;
    return reportLines(
      out?.report ?? report,
      ownKey.fingerprint.letters,
      gathered.decks.map(({ resolved }) => resolved),
      assigned,
    );
  }, [report, out, gathered, ownKey, assigned]);

  const make = async () => {
    if (report === null) return;
    setBusy(true);
    setFailed('');
    try {
      const text = await (await learner.device.signing()).signReport(report, ownKey);
      const next = { ...chosen, n: report.n };
      // Before it is out of hand: no two reports have one number.
      await keepChoice(learner, next);
      setChosen(next);
      setMade({ of, report, name: reportName(report), text, n: report.n });
      scrollTo(0, 0);
    } catch (error) {
      fail(error);
    }
    setBusy(false);
  };
  const leave = (part: Leavable, isIn: boolean) =>
    setChosen({
      ...chosen,
      leftOut: LEAVABLE.filter((one) => (one === part ? !isIn : chosen.leftOut.includes(one))),
    });
  const decks = practised.filter(({ stored }) => courseOf(stored.nature) === course);
  const back = whence('brief');
  const isReady = named !== null && report !== null && report.decks.length > 0;
  return (
    <Sheet
      title="Progress report"
      top={
        <header class="top">
          <a class="button plain" href={back.href}>
            {back.words}
          </a>
        </header>
      }
      bar={
        out === null && (
          <div class="bar">
            <button type="button" class="main wide" disabled={busy || !isReady} onClick={() => void make()}>
              Make the report
            </button>
          </div>
        )
      }
    >
      {out !== null && <ReportOut learner={learner} made={out} />}
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
      <p>
        A file for your instructor: what you practised and how well it is there. You choose what goes along, and read
        every line before it leaves this device.
      </p>
      <p class="note warn">
        A forecast is about these questions on this phone; it predicts no check result. A report is self-recorded: it
        shows what was answered here, not who answered.
      </p>
      {learner.courses.value.length > 1 && (
        <fieldset>
          <legend>
            <h2>Which decks</h2>
          </legend>
          {learner.courses.value.map((one) => (
            <label class="pick" key={one}>
              <input type="radio" name="course" checked={one === course} onChange={() => learner.setCourse(one)} />
              {COURSE_WORDS[one]}
            </label>
          ))}
        </fieldset>
      )}
      <label class="field">
        What you call yourself in it
        <input
          type="text"
          maxLength={MOST_TRAINEE}
          autocomplete="off"
          value={chosen.trainee}
          onInput={(event) => setChosen({ ...chosen, trainee: event.currentTarget.value })}
        />
      </label>
      <p class="small soft">No name is asked for: whatever you agreed with your instructor will do.</p>
      {named === null && <p class="note warn">Write 1 to {MOST_TRAINEE} characters, letters and signs that show.</p>}
      <fieldset>
        <legend>
          <h2>What goes along</h2>
        </legend>
        {LEAVABLE.map((part) => (
          <label class="pick" key={part}>
            <input
              type="checkbox"
              checked={!chosen.leftOut.includes(part)}
              onChange={(event) => leave(part, event.currentTarget.checked)}
            />
            {LEAVABLE_WORDS[part]}
          </label>
        ))}
        {decks.length > 1 &&
          decks.map(({ deck }) => (
            <label class="pick" key={deck.id}>
              <input
                type="checkbox"
                checked={!without.has(deck.id)}
                onChange={(event) => setWithout(toggled(without, deck.id, !event.currentTarget.checked))}
              />
              The deck {deck.title}
            </label>
          ))}
      </fieldset>
      <section class="stack rule">
        <h2>What will be in the file</h2>
        <p role="status" class="small soft">
          {lines === null ? 'Reading your answers.' : forecastWords(learner.checkDay(course), today)}
        </p>
        <p class="small soft">{RECALL_WORDS}</p>
        <VerdictWords />
        {lines !== null && <ReportLines lines={lines} />}
      </section>
      <p>
        <a href={onwards('record')}>A practice record for your training file, to print</a>
      </p>
    </Sheet>
  );
}

/** @param checkDay study day */
const forecastWords = (checkDay: number | null, today: number): string => {
  if (checkDay === null) return 'Without a check date there is no forecast in it.';
  return checkDay < today
    ? 'The check date is past: no forecast for it is in it.'
    : 'Recall on the check date is what is left of it if you practise nothing more until then.';
};

/** Which assignment one is set up by, as far as the record of it is whole. */
const assignmentIn = (held: Held | null): NonNullable<ProgressReport['assignment']> | null =>
  held !== null && held.id !== '' && Number.isSafeInteger(held.n) && held.n >= 1 ? { id: held.id, n: held.n } : null;

const toggled = (set: ReadonlySet<string>, name: string, isIn: boolean): ReadonlySet<string> => {
  const next = new Set(set);
  if (isIn) next.add(name);
  else next.delete(name);
  return next;
};
