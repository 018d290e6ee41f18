import { useState } from 'preact/hooks';
import type { Learner } from '../models/learner.ts';
import { notYetOpen, type OpensOn, openNow } from '../models/opens.ts';
import { type Course, dayWords } from '../words.ts';
import { Fold } from './Later.tsx';

/** What an instructor opens later: said, and neither read nor asked. Nothing where all is open. */
export function Opens(props: {
  readonly learner: Learner;
  readonly course: Course;
  /** Of one deck alone, with a way to have it now. */
  readonly deck?: string;
}) {
  const { learner, course, deck } = props;
  const [failed, setFailed] = useState('');
  const days = notYetOpen(learner, course, deck);
  if (days.length === 0) return null;
  const year = new Date(learner.today() * 86_400_000).getUTCFullYear();
  const open = (on: OpensOn) =>
    void openNow(learner, course, on).catch(() => setFailed(learner.problem.value ?? 'This could not be stored.'));
  const list = (
    <>
      <ul class="lines">
        {days.map((on) => (
          <li key={on.date} class="stack">
            <p>
              {on.things.map(({ title }) => title).join(', ')}
              <br />
              <span class="soft small">opens on {dayWords(on.date, year)}</span>
            </p>
            {deck !== undefined && learner.writing.value && (
              <button type="button" onClick={() => open(on)}>
                Open it now<span class="hidden-visually">: what opens on {dayWords(on.date, year)}</span>
              </button>
            )}
          </li>
        ))}
      </ul>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
    </>
  );
  if (deck === undefined)
    return (
      <Fold title="Not open yet" said={`the next on ${dayWords(days[0]?.date ?? '', year)}`}>
        {() => list}
      </Fold>
    );
  return (
    <section class="stack">
      <h2>Not open yet</h2>
      {list}
    </section>
  );
}
