import { useState } from 'preact/hooks';
import type { Learner } from '../models/learner.ts';
import type { Course } from '../words.ts';

const FACETS: readonly (readonly [facet: string, words: string, more: string])[] = [
  ['cue', 'Its cue', 'what it waits for, and what a cue calls for'],
  ['crew', 'Who does it', 'PF, PM or another one of the crew'],
  ['words', 'What is said', 'callouts, and what is answered to a checklist, with who says it'],
];

/** What is asked of each step beside its place: what is left out rests, and is in no forecast. */
export function AskedOf(props: { readonly learner: Learner; readonly course: Course }) {
  const { learner, course } = props;
  const [busy, setBusy] = useState(false);
  const out = learner.leftOut(course);
  const put = async (facet: string, asked: boolean) => {
    setBusy(true);
    const next = asked ? out.filter((one) => one !== facet) : [...out, facet];
    // `learner.problem` says where it could not be stored; the box shows what is.
    await learner.set(`left-out/${course}`, next).catch(() => undefined);
    setBusy(false);
  };
  return (
    <fieldset>
      <legend>Asked of each step: its place, its number, and</legend>
      {FACETS.map(([facet, words, more]) => (
        <label class="pick" key={facet}>
          <input
            type="checkbox"
            checked={!out.includes(facet)}
            disabled={busy}
            onChange={({ currentTarget: { checked } }) => void put(facet, checked)}
          />
          <span>
            {words}
            <br />
            <span class="small soft">{more}</span>
          </span>
        </label>
      ))}
      <p class="small soft">
        What you leave out is not asked: nothing of it is lost, and the forecast does not speak of it.
      </p>
    </fieldset>
  );
}
