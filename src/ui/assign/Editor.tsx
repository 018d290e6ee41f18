import type { ComponentChildren } from 'preact';
import { useEffect, useMemo, useState } from 'preact/hooks';
import { isoOfDay } from '../../lib/date-words.ts';
import type { AssignedDeck } from '../../model/assignment.ts';
import type { Assigning } from '../device.ts';
import type { Learner } from '../models/learner.ts';
import { Sheet } from '../parts/Sheet.tsx';
import { Stepper } from '../parts/Stepper.tsx';
import { plural } from '../words.ts';
import {
  type Assignable,
  type AssignmentDraft,
  assigned,
  assignmentOf,
  knownAddresses,
  toPutRight,
  type Value,
  withDecks,
} from './drafts.ts';
import { Groups } from './Groups.tsx';
import { HandOut } from './HandOut.tsx';
import { Past } from './Past.tsx';

/** One assignment: what is in it, what is still wrong with it, and how it gets to trainees. */
export function Editor(props: {
  readonly learner: Learner;
  readonly port: Assigning;
  readonly decks: readonly Assignable[];
  readonly draft: AssignmentDraft;
  /** What could not be stored. */
  readonly trouble: ComponentChildren;
  /** Resolves when it is kept. */
  readonly onChange: (draft: AssignmentDraft) => Promise<void>;
  readonly onLeave: () => void;
}) {
  const { learner, port, decks, draft, onChange } = props;
  const { value } = draft;
  const [addresses, setAddresses] = useState<ReadonlyMap<string, string>>(new Map());
  /** Null: not known yet. */
  const [shipped, setShipped] = useState<ReadonlySet<string> | null>(null);
  useEffect(() => {
    knownAddresses(learner).then(setAddresses, () => undefined);
    learner.device.demoDecks().then(
      (demos) => setShipped(new Set(demos.map(({ contentId }) => contentId))),
      () => undefined,
    );
  }, [learner]);
  const today = isoOfDay(learner.today());
  const assignment = useMemo(() => assignmentOf(draft, today), [draft, today]);
  const findings = useMemo(() => toPutRight(port.check(assignment).findings, value), [port, assignment]);
  const put = (next: Value) => void onChange({ ...draft, value: next });
  const putDeck = (deck: AssignedDeck) =>
    put({ ...value, decks: value.decks.map((one) => (one.id === deck.id ? deck : one)) });
  const toggle = ({ stored }: Assignable, on: boolean) =>
    put(
      withDecks(
        value,
        on
          ? [...value.decks, assigned(stored, addresses.get(stored.id))]
          : value.decks.filter(({ id }) => id !== stored.id),
      ),
    );
  const gone = value.decks.filter(({ id }) => decks.every(({ stored }) => stored.id !== id));
  return (
    <Sheet
      title="Assignment"
      page={draft.id}
      top={
        <header class="top">
          <button type="button" class="plain" onClick={props.onLeave}>
            All assignments
          </button>
        </header>
      }
    >
      {props.trouble}
      <label class="field">
        Title
        <input
          type="text"
          maxLength={120}
          placeholder="Type rating, group 3"
          value={value.title}
          onInput={(event) => put({ ...value, title: event.currentTarget.value })}
        />
      </label>
      <section class="stack">
        <fieldset>
          <legend>
            <h2>Decks</h2>
          </legend>
          {decks.map((one) => (
            <label class="pick" key={one.stored.id}>
              <input
                type="checkbox"
                checked={value.decks.some(({ id }) => id === one.stored.id)}
                onChange={(event) => toggle(one, event.currentTarget.checked)}
              />
              <span>
                {one.stored.title}
                <br />
                <span class="small soft">version {one.stored.version}</span>
              </span>
            </label>
          ))}
          {gone.map((deck) => (
            <label class="pick" key={deck.id}>
              <input
                type="checkbox"
                checked
                onChange={() =>
                  put(
                    withDecks(
                      value,
                      value.decks.filter(({ id }) => id !== deck.id),
                    ),
                  )
                }
              />
              <span>
                {deck.title}
                <br />
                <span class="small soft">version {deck.version}, not on this device</span>
              </span>
            </label>
          ))}
        </fieldset>
        {value.decks.map((deck) => {
          const found = decks.find(({ stored }) => stored.id === deck.id);
          return (
            found !== undefined && (
              <DeckOf
                key={deck.id}
                of={found}
                deck={deck}
                shipped={shipped?.has(deck.contentId) === true}
                onChange={putDeck}
              />
            )
          );
        })}
      </section>
      <section class="stack rule">
        <h2>Dates and minutes</h2>
        <label class="field">
          Check date
          <input
            type="date"
            min={today}
            value={value.checkDate ?? ''}
            onInput={(event) => put({ ...value, checkDate: event.currentTarget.value })}
          />
          <span class="small soft">Of all that has no earlier one of its own, below.</span>
          <Past date={value.checkDate} today={today} />
        </label>
        <label class="pick">
          <input
            type="checkbox"
            checked={value.minutes !== undefined}
            onChange={(event) => {
              const { minutes: _, ...rest } = value;
              put(event.currentTarget.checked ? { ...rest, minutes: 10 } : rest);
            }}
          />
          Say how many minutes a day
        </label>
        {value.minutes !== undefined && (
          <Stepper
            label="Minutes a day"
            unit="min"
            value={value.minutes}
            least={5}
            most={60}
            step={5}
            onChange={(minutes) => put({ ...value, minutes })}
          />
        )}
      </section>
      <Groups decks={decks} value={value} today={today} onChange={put} />
      <section class="stack rule">
        <label class="field">
          A note to the trainees
          <textarea
            rows={3}
            maxLength={2000}
            value={value.note ?? ''}
            onInput={(event) => put({ ...value, note: event.currentTarget.value })}
          />
        </label>
      </section>
      {findings.length > 0 ? (
        <section class="stack rule">
          <h2>Before it can be handed out</h2>
          <p role="status">{plural(findings.length, 'thing')} to put right:</p>
          <ul class="lines">
            {findings.map((finding) => (
              <li key={`${finding.place} ${finding.text}`}>
                <strong>{finding.place}</strong>
                <br />
                {finding.text}
              </li>
            ))}
          </ul>
        </section>
      ) : (
        <HandOut
          learner={learner}
          port={port}
          draft={draft}
          assignment={assignment}
          shipped={shipped}
          onChange={onChange}
        />
      )}
    </Sheet>
  );
}

/** Where a deck lies, and as which variants it is flown. */
function DeckOf(props: {
  readonly of: Assignable;
  readonly deck: AssignedDeck;
  readonly shipped: boolean;
  readonly onChange: (deck: AssignedDeck) => void;
}) {
  const { of, deck, shipped, onChange } = props;
  const { stored } = of;
  const isOther = stored.contentId !== deck.contentId;
  const axes = of.deck.variants ?? [];
  const told = (axis: string) => deck.variants?.[axis] ?? [];
  const put = (axis: string, options: readonly string[]) =>
    onChange({ ...deck, variants: { ...deck.variants, [axis]: options } });
  return (
    <section class="stack rule">
      <h3>{deck.title}</h3>
      {isOther && (
        <div class="note warn stack">
          <p>
            Assigned is version {deck.version}; on this device is version {stored.version}.
          </p>
          <button type="button" onClick={() => onChange({ ...deck, ...assigned(stored, deck.address) })}>
            Assign version {stored.version}
          </button>
        </div>
      )}
      {shipped ? (
        <p class="small soft">It comes with the app: trainees need no file.</p>
      ) : (
        <label class="field">
          Address of the deck's file
          <input
            type="url"
            inputMode="url"
            placeholder="https://"
            value={deck.address ?? ''}
            onInput={(event) => onChange({ ...deck, address: event.currentTarget.value })}
          />
          <span class="small soft">
            Where it lies for others to fetch (https, with CORS allowed). Left empty: send the file along.
          </span>
        </label>
      )}
      {axes.map((axis) => (
        <fieldset key={axis.id}>
          <legend>{axis.label}</legend>
          {Object.entries(axis.options).map(([option, label]) => (
            <label class="pick" key={option}>
              <input
                type="checkbox"
                checked={told(axis.id).includes(option)}
                onChange={(event) =>
                  put(
                    axis.id,
                    event.currentTarget.checked
                      ? [...told(axis.id), option]
                      : told(axis.id).filter((one) => one !== option),
                  )
                }
              />
              {label}
            </label>
          ))}
          <p class="small soft">
            {told(axis.id).length === 0
              ? "None ticked: the trainee's own choice."
              : told(axis.id).length === 1
                ? 'Trainees fly this one.'
                : 'Trainees fly each of these: a question says which it means.'}
          </p>
        </fieldset>
      ))}
    </section>
  );
}
