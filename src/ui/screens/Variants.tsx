import { useState } from 'preact/hooks';
import { type Flown, LEFT_OUT } from '../../subjects/resolved.ts';
import type { Learner } from '../models/learner.ts';
import { OnlyHandOut } from '../parts/OnlyHandOut.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { next } from './Install.tsx';

/** What was said of the same variants for another deck: who flies a type flies it in all of its decks. */
const saidBefore = (learner: Learner, deck: string): Flown => {
  const all = learner.practised.value;
  const axes = all.find(({ stored }) => stored.id === deck)?.deck.variants ?? [];
  return Object.fromEntries(
    axes.flatMap(({ id, label, options }) =>
      all.flatMap((other) => {
        const same = other.deck.variants?.find((axis) => axis.id === id && axis.label === label);
        const own = learner.flown(other.stored.id)[id]?.filter((one) => same?.options[one] === options[one]) ?? [];
        return same === undefined || own.length === 0 ? [] : [[id, own] as const];
      }),
    ),
  );
};

/** Which variants the learner flies: one or several an axis; "not told yet" leaves out what differs. */
export function Variants(props: { readonly learner: Learner; readonly deck: string }) {
  const { learner } = props;
  const practised = learner.practised.value.find(({ stored }) => stored.id === props.deck);
  const [flown, setFlown] = useState(() => {
    const { [LEFT_OUT]: _, ...own } = learner.flown(props.deck);
    return learner.setting(`variants/${props.deck}`) === undefined ? saidBefore(learner, props.deck) : own;
  });
  const [failed, setFailed] = useState(false);
  const axes = practised?.deck.variants ?? [];
  const toggle = (axis: string, option: string, on: boolean) => {
    const before = flown[axis] ?? [];
    setFlown({ ...flown, [axis]: on ? [...before, option] : before.filter((one) => one !== option) });
  };
  const done = async () => {
    try {
      await learner.set(`variants/${props.deck}`, flown);
      next(learner);
    } catch {
      setFailed(true);
    }
  };
  return (
    <Sheet
      title="Which do you fly?"
      bar={
        <div class="bar">
          <button type="button" class="main wide" onClick={() => void done()}>
            Go on
          </button>
        </div>
      }
    >
      <p class="soft">{practised?.deck.title}</p>
      {failed && <p class="note bad">{learner.problem.value}</p>}
      {axes.map((axis) => {
        const own = flown[axis.id] ?? [];
        return (
          <fieldset key={axis.id}>
            <legend>
              <h2>{axis.label}</h2>
            </legend>
            {Object.entries(axis.options).map(([option, label]) => (
              <label class="pick" key={option}>
                <input
                  type="checkbox"
                  checked={own.includes(option)}
                  onChange={(event) => toggle(axis.id, option, event.currentTarget.checked)}
                />
                {label}
              </label>
            ))}
            <label class="pick">
              <input
                type="checkbox"
                checked={own.length === 0}
                onChange={() => setFlown({ ...flown, [axis.id]: [] })}
              />
              Not told yet: only what is common to all
            </label>
          </fieldset>
        );
      })}
      <p class="small soft">
        If you fly several, each question says which one it means. You can change this later under Decks.
      </p>
      <OnlyHandOut learner={learner} />
    </Sheet>
  );
}
