import { useState } from 'preact/hooks';
import type { Learner } from '../models/learner.ts';
import { type Course, courseOf } from '../words.ts';

/** Are take-offs in time played in this course? Off until the learner says so. */
export const hasPaced = (learner: Learner, course: Course): boolean => learner.setting(`paced/${course}`) === true;

/** The switch, where a deck of the course has such a run. */
export function PacedSetting(props: { readonly learner: Learner; readonly course: Course; readonly on?: 'deck page' }) {
  const { learner, course, on } = props;
  const [busy, setBusy] = useState(false);
  const decks = learner.practised.value.filter(({ stored }) => courseOf(stored.nature) === course);
  if (!decks.some(({ deck }) => (deck.paced ?? []).length > 0)) return null;
  const put = async (on: boolean) => {
    setBusy(true);
    // `learner.problem` says where it could not be stored; the box shows what is.
    await learner.set(`paced/${course}`, on).catch(() => undefined);
    setBusy(false);
  };
  return (
    <label class="pick">
      <input
        type="checkbox"
        checked={hasPaced(learner, course)}
        disabled={busy}
        onChange={({ currentTarget: { checked } }) => void put(checked)}
      />
      <span>
        Paced run
        <br />
        <span class="small soft">
          the take-off in time: each of your steps at its cue;{' '}
          {on === undefined ? "begins on the deck's page" : 'tick it, and it stands here'}
        </span>
      </span>
    </label>
  );
}
