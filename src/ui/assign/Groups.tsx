import type { AssignedGroup } from '../../model/assignment.ts';
import { type Assignable, newGroup, partName, type Value } from './drafts.ts';
import { Past } from './Past.tsx';

interface Thing {
  readonly thing: string;
  readonly title: string;
}

/** What of the assigned decks may stand in a part: a group, as files call it. */
const thingsOf = (decks: readonly Assignable[], value: Value) => {
  const own = decks.filter(({ stored }) => value.decks.some(({ id }) => id === stored.id));
  const list = (of: (one: Assignable) => readonly { readonly id: string; readonly title: string }[]): Thing[] =>
    own.flatMap((one) => of(one).map(({ id, title }) => ({ thing: `${one.stored.id}#${id}`, title })));
  return {
    procedures: list(({ deck }) => deck.procedures ?? []),
    others: list(({ deck }) => [
      ...(deck.limits ?? []).map(({ id, ask }) => ({ id, title: ask })),
      ...(deck.scenarios ?? []).map(({ id, title, situation }) => ({ id, title: title ?? situation })),
    ]),
  };
};

/** Some procedures with days of their own: of their check, and from which they are asked. */
export function Groups(props: {
  readonly decks: readonly Assignable[];
  readonly value: Value;
  /** ISO date. */
  readonly today: string;
  readonly onChange: (value: Value) => void;
}) {
  const { decks, value, today, onChange } = props;
  const groups = value.groups ?? [];
  const { procedures, others } = thingsOf(decks, value);
  const put = (next: readonly AssignedGroup[]) => onChange({ ...value, groups: next });
  return (
    <section class="stack rule">
      <h2>Some of it on other days</h2>
      <p class="small soft">
        A part is some of the procedures with a day of their own: they are checked before the rest, or they open later.
        Until they open nothing of them is read, asked or planned.
      </p>
      {groups.map((group, i) => {
        const taken = new Set(groups.filter((one) => one !== group).flatMap(({ things }) => things));
        const change = (next: AssignedGroup) => put(groups.map((one) => (one === group ? next : one)));
        const name = partName(group, i);
        const ticks = (list: readonly Thing[]) =>
          list
            .filter(({ thing }) => !taken.has(thing))
            .map(({ thing, title }) => (
              <label class="pick" key={thing}>
                <input
                  type="checkbox"
                  checked={group.things.includes(thing)}
                  onChange={(event) =>
                    change({
                      ...group,
                      things: event.currentTarget.checked
                        ? [...group.things, thing]
                        : group.things.filter((one) => one !== thing),
                    })
                  }
                />
                {title}
              </label>
            ));
        return (
          <fieldset class="stack rule" key={group.id}>
            <legend class="hidden-visually">{name}</legend>
            <label class="field">
              Name of this part
              <input
                type="text"
                maxLength={60}
                placeholder="Session 3"
                value={group.name}
                onInput={(event) => change({ ...group, name: event.currentTarget.value })}
              />
            </label>
            <label class="field">
              Check date of this part
              <input
                type="date"
                min={today}
                max={value.checkDate ?? ''}
                value={group.checkDate ?? ''}
                onInput={(event) => change({ ...group, checkDate: event.currentTarget.value })}
              />
              <span class="small soft">Before the rest. Left empty: with the rest.</span>
              <Past date={group.checkDate} today={today} />
            </label>
            <label class="field">
              Opens on
              <input
                type="date"
                value={group.opens ?? ''}
                onInput={(event) => change({ ...group, opens: event.currentTarget.value })}
              />
              <span class="small soft">Left empty: open from the start.</span>
            </label>
            <fieldset>
              <legend>Procedures of this part</legend>
              {ticks(procedures)}
            </fieldset>
            {others.length > 0 && (
              <details open={others.some(({ thing }) => group.things.includes(thing))}>
                <summary class="button plain">Limits and scenarios</summary>
                <p class="small soft">They open with this part; they are checked with the rest.</p>
                {ticks(others)}
              </details>
            )}
            <button type="button" onClick={() => put(groups.filter((one) => one !== group))}>
              Remove {name}
            </button>
          </fieldset>
        );
      })}
      <button
        type="button"
        disabled={procedures.length + others.length === 0}
        onClick={() => put([...groups, newGroup(groups)])}
      >
        {groups.length === 0 ? 'A part with days of its own' : 'Another part'}
      </button>
    </section>
  );
}
