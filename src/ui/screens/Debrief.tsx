import { useMemo } from 'preact/hooks';
import type { DebriefItem } from '../../drill/debrief.ts';
import { debriefOf } from '../models/debrief.ts';
import type { DrillDoor } from '../models/drill-door.ts';
import type { Learner } from '../models/learner.ts';
import { Unsaved } from '../parts/Notices.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { dayWords, percent, plural } from '../words.ts';

const iso = (day: number) => new Date(day * 86_400_000).toISOString().slice(0, 10);

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
      </Sheet>
    );
  const why = session.now.kind === 'done' ? session.now.why : null;
  const [first] = told.next;
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
          <p>These are the dangerous ones. They come back first.</p>
          <Items items={told.sureButWrong} />
        </section>
      )}
      {told.missed.length > 0 && (
        <section class="stack">
          <h2>Missed</h2>
          <Items items={told.missed} />
        </section>
      )}
      {told.unsure.length > 0 && (
        <section class="stack">
          <h2>Right, but not sure</h2>
          <Items items={told.unsure} />
        </section>
      )}
      {told.questions > 0 && told.sureButWrong.length + told.missed.length + told.unsure.length === 0 && (
        <p class="note good">Everything was right, and you were sure of it.</p>
      )}

      {told.weak.length > 0 && (
        <section class="stack">
          <h2>Weakest</h2>
          <p>
            {told.weak[0]?.chance == null
              ? 'Of the rest that you have met, the first to fade.'
              : `Of each part the one least likely to be there on ${dayWords(iso(told.on))}, if you stop now.`}
          </p>
          <ul class="lines">
            {told.weak.map(({ key, label, critical, group, chance }) => (
              <li key={key}>
                {label}
                {critical && (
                  <>
                    {' '}
                    <span class="mark">critical</span>
                  </>
                )}
                <p class="small soft">
                  {group}
                  {chance !== null && `: ${percent(chance)}`}
                </p>
              </li>
            ))}
          </ul>
        </section>
      )}

      {told.questions > 0 && (
        <section class="stack">
          <h2>How well you know what you know</h2>
          {told.sure.of > 0 && (
            <p>
              When you said Sure, {told.sure.right} of {told.sure.of} were right.
            </p>
          )}
          {told.predicted !== null && (
            <p>
              Of what you had answered before, {percent(told.predicted.mean)} was predicted and{' '}
              {percent(told.predicted.recalled)} recalled ({plural(told.predicted.of, 'answer')}).
            </p>
          )}
          <p>
            {told.daysPractised === 1
              ? 'You practised on one of the last 28 days.'
              : `You practised on ${told.daysPractised} of the last 28 days.`}
          </p>
        </section>
      )}

      <section class="stack">
        <h2>What comes next</h2>
        {first === undefined ? (
          <p>Nothing yet.</p>
        ) : (
          <ul class="lines">
            {told.next.map(({ day, items }) => (
              <li key={day}>
                {day === today + 1 ? 'Tomorrow' : dayWords(iso(day))}: {plural(items, 'thing')} to recall
              </li>
            ))}
          </ul>
        )}
      </section>
    </Sheet>
  );
}

const SHOWN = 12;

function Items(props: { readonly items: readonly DebriefItem[] }) {
  const { items } = props;
  return (
    <>
      <ul class="lines">
        {items.slice(0, SHOWN).map((item) => (
          <li key={item.key}>
            {item.label}
            {item.critical && (
              <>
                {' '}
                <span class="mark">critical</span>
              </>
            )}
          </li>
        ))}
      </ul>
      {items.length > SHOWN && <p class="soft">And {items.length - SHOWN} more.</p>}
    </>
  );
}
