import { useState } from 'preact/hooks';
import type { Missable, MissableGroup } from '../../drill/missed.ts';
import type { Memory } from '../../memory/types.ts';

/** More than these are found by their words. */
const MANY = 20;

/** A part of a course: whether it came up there, and what of it was missed. */
export function CameUp(props: {
  readonly group: MissableGroup;
  readonly memory: Pick<Memory, 'items'>;
  readonly isUp: boolean;
  /** Names of things. */
  readonly tapped: ReadonlySet<string>;
  readonly onUp: () => void;
  readonly onTap: (name: string) => void;
}) {
  const { group, memory, isUp, tapped, onUp, onTap } = props;
  const [words, setWords] = useState('');
  const [isAll, setIsAll] = useState(false);
  const isMet = ({ keys }: Missable) => keys.some((key) => memory.items.has(key));
  const met = group.things.filter(isMet);
  // A procedure is shown whole: its steps are found by their place.
  const all = group.kind === 'procedure' || isAll || met.length === 0 ? group.things : met;
  const wanted = words.trim().toLowerCase();
  const shown = all.filter(({ name, label }) => tapped.has(name) || label.toLowerCase().includes(wanted));
  const missed = group.things.filter(({ name }) => tapped.has(name)).length;
  return (
    <div class="came-up">
      <label class="pick">
        <input type="checkbox" checked={isUp} onChange={onUp} />
        <span>
          {group.title}
          {isUp && missed > 0 && <strong> · {missed} missed</strong>}
        </span>
      </label>
      {isUp && (
        <fieldset class="things">
          <legend class="hidden-visually">Missed of {group.title}</legend>
          {all.length > MANY && (
            <label class="field">
              Find
              <input type="search" value={words} onInput={(event) => setWords(event.currentTarget.value)} />
            </label>
          )}
          {shown.map(({ name, label, by, critical }) => (
            <label class="pick" key={name}>
              <input type="checkbox" checked={tapped.has(name)} onChange={() => onTap(name)} />
              <span>
                {by !== undefined && <strong>{by} </strong>}
                {label}
                {critical && (
                  <>
                    {' '}
                    <span class="mark">critical</span>
                  </>
                )}
              </span>
            </label>
          ))}
          {all.length < group.things.length && (
            <button type="button" class="plain" onClick={() => setIsAll(true)}>
              Show {group.things.length - all.length} not practised yet
            </button>
          )}
        </fieldset>
      )}
    </div>
  );
}
