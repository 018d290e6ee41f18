import type { ComponentChildren } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { ownSteps } from '../../drill/rehearsal-told.ts';
import type { Told } from '../../drill/types.ts';
import { type ChipFinding, titleOf } from '../../model/form.ts';
import type { FormUi } from '../forms/contract.ts';
import { formUi } from '../forms/registry.ts';
import type { Learner } from '../models/learner.ts';
import type { RehearsalModel } from '../models/rehearsal.ts';
import { Unsaved } from '../parts/Notices.tsx';
import { QueryBar, QueryField } from '../parts/QueryForm.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { Text } from '../parts/Text.tsx';
import { go } from '../route.ts';
import { plural } from '../words.ts';
import { Fate } from './drill-verdict.tsx';

/** All verdicts, in the order in which they were asked; the learner's own steps before all others. */
export function RehearsalEnd(props: { readonly learner: Learner; readonly rehearsal: RehearsalModel }) {
  const { learner, rehearsal: model } = props;
  const told = model.told.value.filter((one) => one !== null);
  const counted = told.filter(({ voided }) => voided === undefined);
  const right = counted.filter(isRight).length;
  /** Entry of the answer whose question is being queried: one at a time, with its buttons in the bar. */
  const [querying, setQuerying] = useState<string | null>(null);
  /** By entry: what was typed is there again. */
  const [notes, setNotes] = useState<Readonly<Record<string, string>>>({});
  const queried = counted.find(({ entry }) => entry !== null && entry === querying);
  return (
    <Sheet
      title="Verdicts"
      top={
        <header class="top">
          <span>Rehearsal</span>
          {model.practised.value?.stored.nature === 'fictional' && <span class="mark">Invented</span>}
        </header>
      }
      bar={
        queried !== undefined ? (
          <QueryBar
            disabled={model.busy.value}
            onBack={() => setQuerying(null)}
            onQuery={() => void model.query(queried, notes[querying ?? ''] ?? '')}
          />
        ) : (
          <div class="bar">
            <button
              type="button"
              class="main wide"
              disabled={model.busy.value}
              onClick={() => void model.end().then(() => go({ at: 'brief' }, 'instead'))}
            >
              Done
            </button>
          </div>
        )
      }
    >
      <Unsaved learner={learner} />
      <p>
        {right} of {plural(counted.length, 'question')} right.
      </p>
      <Own model={model} told={told} />
      {/* What was wrong is what is read: it stands first. */}
      {[...told.filter((one) => !isRight(one)), ...told.filter(isRight)].map((one) => (
        <One key={one.entry} told={one}>
          {one.voided === undefined && one.entry !== null && (
            <Query entry={one.entry} querying={querying} notes={notes} onQuery={setQuerying} onNotes={setNotes} />
          )}
        </One>
      ))}
    </Sheet>
  );
}

const isRight = ({ marked, given }: Told): boolean =>
  given !== null && !marked.flawed && Object.values(marked.marks).every((mark) => mark === 'right');

const WRONG: Partial<Readonly<Record<ChipFinding['state'], string>>> = {
  moved: 'mixed up with another',
  misplaced: 'out of place',
  omitted: 'left out',
};

function Own(props: { readonly model: RehearsalModel; readonly told: readonly Told[] }) {
  const { model, told } = props;
  const rehearsal = model.rehearsal.value;
  const resolved = model.practised.value?.resolved;
  const run = told.find(({ offer }) => offer.form === 'run');
  if (rehearsal === null || resolved === undefined || run === undefined) return null;
  const own = ownSteps(resolved, rehearsal, run);
  if (own.length === 0) return null;
  const seats = model.choice.value.flatMap(({ seats }) => seats);
  const seat = seats.find(({ id }) => id === rehearsal.seat)?.label ?? rehearsal.seat;
  const wrong = own.filter(({ state }) => WRONG[state] !== undefined);
  return (
    <section class="stack">
      <h2>Your own steps: {seat}</h2>
      <p>
        {wrong.length === 0 ? 'Each in its place.' : `${own.length - wrong.length} of ${own.length} in their place.`}
      </p>
      {wrong.length > 0 && (
        <ul class="lines">
          {wrong.map(({ id, text, state }) => (
            <li key={id}>
              <Text text={text} />
              <p class="small">
                <strong>{WRONG[state]}</strong>
              </p>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function One(props: { readonly told: Told; readonly children: ComponentChildren }) {
  const { told } = props;
  const { form } = told.offer;
  const [ui, setUi] = useState<FormUi | null>(null);
  useEffect(() => {
    void formUi(form).then((loaded) => setUi(() => loaded));
  }, [form]);
  if (ui === null) return null;
  const { Verdict } = ui;
  return (
    <section class="stack rule">
      <h2>{titleOf(told.shown)}</h2>
      <Fate now={told} />
      <Verdict shown={told.shown} told={told} />
      {props.children}
    </section>
  );
}

function Query(props: {
  readonly entry: string;
  readonly querying: string | null;
  readonly notes: Readonly<Record<string, string>>;
  readonly onQuery: (entry: string) => void;
  readonly onNotes: (notes: Readonly<Record<string, string>>) => void;
}) {
  const { entry, querying, notes, onQuery, onNotes } = props;
  if (querying === entry)
    return <QueryField focus note={notes[entry] ?? ''} onNote={(note) => onNotes({ ...notes, [entry]: note })} />;
  return (
    <div class="after">
      <button type="button" class="plain" onClick={() => onQuery(entry)}>
        Query this question
      </button>
    </div>
  );
}
