import { useEffect, useMemo, useState } from 'preact/hooks';
import type { DebriefItem } from '../../drill/debrief.ts';
import type { Session } from '../../drill/types.ts';
import type { Walk as WalkOf } from '../../drill/walk.ts';
import { isoOfDay } from '../../lib/date-words.ts';
import type { ItemKey } from '../../model/item.ts';
import { ITEM_WORDS } from '../../report/item-words.ts';
import { debriefOf } from '../models/debrief.ts';
import type { DrillDoor } from '../models/drill-door.ts';
import { walkOfItem } from '../models/last-look.ts';
import type { Learner } from '../models/learner.ts';
import { type DrillPast, drillPastOf, LOOKED_BACK } from '../models/past.ts';
import { Confusions } from '../parts/Confusions.tsx';
import { Fold, Folded } from '../parts/Later.tsx';
import { Measured, timeWords } from '../parts/Measured.tsx';
import { Unsaved } from '../parts/Notices.tsx';
import { ProcedureLine } from '../parts/ProcedureLine.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Walk } from '../parts/Walk.tsx';
import { dayWords, percent, plural } from '../words.ts';
import './debrief.css';

/** What this drill showed: the dangerous answers first. */
export function Debrief(props: { readonly learner: Learner; readonly drill: DrillDoor }) {
  const { learner, drill } = props;
  const session = drill.session.value;
  const memory = learner.memory.value;
  const today = learner.today();
  const decks = learner.practised.value;
  const told = useMemo(
    () => (session === null ? null : debriefOf(learner, session)),
    [session, memory, today, learner, decks],
  );
  const past = usePast(learner, session, (told?.questions ?? 0) > 0);
  const bar = (
    <div class="bar">
      <a class="button main wide" href="#/">
        To the Brief
      </a>
    </div>
  );
  if (told === null || session === null)
    return (
      <Sheet title="Debrief" bar={bar}>
        <p>No drill yet.</p>
        <AfterSession />
      </Sheet>
    );
  const why = session.now.kind === 'done' ? session.now.why : null;
  const [first] = told.next;
  const onDay = dayWords(isoOfDay(told.on));
  return (
    <Sheet title="Debrief" bar={bar}>
      <Unsaved learner={learner} />
      <p>
        {told.questions === 0
          ? why === 'empty'
            ? 'Nothing more to ask today.'
            : 'No question was answered.'
          : `${plural(told.questions, 'question')} answered. ${
              why === 'empty'
                ? 'Nothing more to ask today.'
                : why === 'enough'
                  ? 'You said that it was enough for today.'
                  : "Today's minutes are used."
            }`}
      </p>

      {told.sureButWrong.length > 0 && (
        <section class="stack">
          <h2>Sure, but wrong</h2>
          <p>
            These are the dangerous ones. They come back first.
            {told.sureButWrong.some(({ critical }) => critical) &&
              ' Critical ones stand on the Brief until they are right on two days.'}
          </p>
          <Items items={told.sureButWrong} read={(key) => walkOfItem(learner, key)} />
        </section>
      )}
      <div class="folds">
        {told.lines.length > 0 && (
          <Fold title="Weakest steps of what was asked" said={told.lines.map(({ title }) => title).join(', ')}>
            {() => (
              <>
                <p>
                  {told.lines.some(({ weakest }) => weakest !== null)
                    ? `How likely each is to be there on ${onDay}, if you stop now.`
                    : 'What was missed or not sure, where it stands.'}
                </p>
                {told.lines.map((line) => (
                  <div class="stack" key={`${line.deck} ${line.procedure}`}>
                    <h3>{line.title}</h3>
                    <ProcedureLine line={line} />
                  </div>
                ))}
              </>
            )}
          </Fold>
        )}
        {told.missed.length > 0 && (
          <Fold title={told.lines.length > 0 ? 'Also missed' : 'Missed'} said={plural(told.missed.length, 'item')}>
            {() => <Items items={told.missed} />}
          </Fold>
        )}
        {told.unsure.length > 0 && (
          <Fold title="Right, but not firm" said={plural(told.unsure.length, 'item')}>
            {() => (
              <>
                <p>You were not sure of them, had help, or something else in the same answer was wrong.</p>
                <Items items={told.unsure} />
              </>
            )}
          </Fold>
        )}
      </div>
      {told.questions > 0 && told.isFlawless && <p class="note good">Everything was right, and you were sure of it.</p>}

      <Confusions of={past?.confusions ?? []} />

      <div class="folds">
        {told.weak.length > 0 && (
          <Fold
            title={told.lines.length > 0 ? 'Weakest of the rest' : 'Weakest'}
            said={`${plural(told.weak.length, 'item')} that would fade first`}
          >
            {() => (
              <>
                <p>
                  {told.weak[0]?.chance == null
                    ? 'Of the rest that you have met, the first to fade.'
                    : `Of each part the one least likely to be there on ${onDay}, if you stop now.`}
                </p>
                <ul class="lines">
                  {told.weak.map(({ key, label, critical, group, chance }) => (
                    <li key={key}>
                      <Label label={label} critical={critical} />
                      <p class="small soft">
                        {group}
                        {chance !== null && `: ${percent(chance)}`}
                      </p>
                    </li>
                  ))}
                </ul>
              </>
            )}
          </Fold>
        )}
        {told.questions > 0 && (
          <Fold
            title="How well you know what you know"
            said={
              told.daysPractised === 1
                ? 'practised on one of the last 28 days'
                : `practised on ${told.daysPractised} of the last 28 days`
            }
          >
            {() => (
              <>
                <Measured title="In this drill" predicted={told.predicted} sure={told.sure} />
                {past !== null && past.predicted.of > told.predicted.of && (
                  <Measured title={`In the last ${LOOKED_BACK} days`} predicted={past.predicted} sure={past.sure} />
                )}
                {told.times.length > 0 && <p>{timeWords(told.times)}</p>}
              </>
            )}
          </Fold>
        )}
      </div>

      <section class="stack">
        <h2>What comes next</h2>
        <p class="small soft">Counted in items. {ITEM_WORDS}</p>
        {first === undefined ? (
          <p>Nothing yet.</p>
        ) : (
          <ul class="lines">
            {told.next.map(({ day, items }) => (
              <li key={day}>
                {day === today + 1 ? 'Tomorrow' : dayWords(isoOfDay(day))}: {plural(items, 'item')}
              </li>
            ))}
          </ul>
        )}
      </section>
      <AfterSession />
    </Sheet>
  );
}

/** From the log, which is read only now; null until then, and where it cannot be read. */
const usePast = (learner: Learner, session: Session | null, wanted: boolean): DrillPast | null => {
  const [past, setPast] = useState<DrillPast | null>(null);
  const isOver = session?.now.kind === 'done';
  useEffect(() => {
    if (session === null || !wanted || !isOver) return;
    let left = false;
    drillPastOf(learner, session)
      .then((told) => {
        if (!left) setPast(told);
      })
      .catch(() => undefined);
    return () => {
      left = true;
    };
  }, [learner, session?.id, wanted, isOver]);
  return past;
};

function AfterSession() {
  return (
    <section class="stack rule">
      <h2>After a simulator session or a check</h2>
      <p>What you missed there comes back first.</p>
      <a class="button" href="#/missed">
        Note what was missed
      </a>
      <h2>For your instructor</h2>
      <a class="button" href="#/report/debrief">
        Progress report
      </a>
    </section>
  );
}

const SHOWN = 12;

function Items(props: {
  readonly items: readonly DebriefItem[];
  /** What there is to be read of one, where it is looked up at once. */
  readonly read?: (key: ItemKey) => WalkOf | null;
}) {
  const { items, read } = props;
  return (
    <>
      <ul class="lines">
        {items.slice(0, SHOWN).map(({ key, label, critical }) => (
          <li key={key}>
            <Label label={label} critical={critical} />
            {read !== undefined && (
              <Folded summary="Read it">
                {() => {
                  const walk = read(key);
                  return walk === null ? <p>The deck does not hold it any more.</p> : <Walk walk={walk} short />;
                }}
              </Folded>
            )}
          </li>
        ))}
      </ul>
      {items.length > SHOWN && (
        <Folded summary={`${items.length - SHOWN} more`}>
          {() => <Items {...props} items={items.slice(SHOWN)} />}
        </Folded>
      )}
    </>
  );
}

function Label(props: { readonly label: string; readonly critical: boolean }) {
  return (
    <>
      {props.label}
      {props.critical && (
        <>
          {' '}
          <span class="mark">critical</span>
        </>
      )}
    </>
  );
}
