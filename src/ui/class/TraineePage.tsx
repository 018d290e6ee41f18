import { useEffect, useState } from 'preact/hooks';
import { historyOf, type Past } from '../../class/history.ts';
import { itemOf } from '../../class/known.ts';
import { keysOf, unpack } from '../../class/packed.ts';
import { expectedOf, type Person } from '../../class/people.ts';
import type { Row } from '../../class/table.ts';
import { slipsOf } from '../../class/told.ts';
import type { Packed } from '../../class/types.ts';
import { isNeverRight, sureWrongOf } from '../../class/weakest.ts';
import { statementsOf } from '../../class/xapi.ts';
import type { Learner } from '../models/learner.ts';
import { FirstFew } from '../parts/FirstFew.tsx';
import { go } from '../route.ts';
import { takeFocus } from '../take-focus.ts';
import { plural } from '../words.ts';
import { HistoryCurve } from './HistoryCurve.tsx';
import type { ClassModel, ClassView } from './model.ts';
import { CellFigures, Signs } from './Table.tsx';
import { Facts } from './TraineeFacts.tsx';
import { fileName, share } from './words.ts';

/** So many of the trainee's own weakest items are named. */
const WEAKEST = 10;

interface PageProps {
  readonly learner: Learner;
  readonly model: ClassModel;
  readonly view: ClassView;
  readonly person: Person;
}

/** One trainee: the newest report, how it came to this, and what the instructor adds. */
export function TraineePage(props: PageProps) {
  const { model, view, person } = props;
  const row = view.table.rows.find((one) => one.person.id === person.id);
  const packed = view.reports.get(person.newest.hash);
  const [past, setPast] = useState<readonly Past[]>([]);
  useEffect(() => {
    const only = new Set(view.records.settings.decks.map(({ id }) => id));
    model.history(person).then(
      (reports) => setPast(historyOf(reports, only)),
      () => setPast([]),
    );
  }, [model, person, view]);
  if (row === undefined || packed === undefined)
    return <p>The newest report could not be read. Open its file again.</p>;
  return (
    <>
      <Facts row={row} packed={packed} today={view.today} />
      <Procedures view={view} row={row} />
      <SureWrong view={view} row={row} />
      <OwnSlips view={view} row={row} />
      <Weakest view={view} packed={packed} row={row} />
      <HistoryCurve past={past} today={view.today} />
      <Note {...props} />
      <Devices {...props} />
      <Leaving {...props} packed={packed} />
    </>
  );
}

function Procedures(props: { readonly view: ClassView; readonly row: Row }) {
  const { view, row } = props;
  const several = new Set(view.table.columns.map(({ deck }) => deck)).size > 1;
  return (
    <section class="stack">
      <h2>{row.asOfReport ? 'Recall on the day of the report' : 'Recall on the check day'}</h2>
      <table class="forecast class-unmet">
        <caption class="hidden-visually">Recall of each procedure, if nothing more is practised</caption>
        <thead>
          <tr>
            <th scope="col">Procedure</th>
            <th scope="col">not yet asked</th>
            <th scope="col">recall</th>
          </tr>
        </thead>
        <tbody>
          {row.items > 0 && (
            <tr>
              <th scope="row">
                <strong>All</strong>
              </th>
              <td class="number">
                {row.unmet} of {row.items}
              </td>
              <td class="number">
                <CellFigures cell={{ ...row, below: row.below > 0 }} />
              </td>
            </tr>
          )}
          {view.table.columns.map(({ id, title, deckTitle }, c) => {
            const cell = row.cells[c] ?? null;
            if (cell === null) return null;
            return (
              <tr key={id}>
                <th scope="row">
                  {title}
                  {several && title !== deckTitle && (
                    <>
                      <br />
                      <span class="small soft">{deckTitle}</span>
                    </>
                  )}
                </th>
                <td class="number">
                  {cell.unmet} of {cell.items}
                </td>
                <td class="number">
                  <CellFigures cell={cell} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
      <Signs />
    </section>
  );
}

/** The dangerous ones: the most often first. */
function SureWrong(props: { readonly view: ClassView; readonly row: Row }) {
  const { view, row } = props;
  const all = sureWrongOf(row.report, view.decks);
  if (all.length === 0) return null;
  const lines = (some: readonly (typeof all)[number][]) => (
    <ul class="lines">
      {some.map(({ key, label, critical, times, answered }) => (
        <li key={key} class="class-bar">
          <span dir="auto">
            {label}
            {critical && <strong> · critical</strong>}
          </span>
          <span class="number">
            {times} of {answered}
          </span>
        </li>
      ))}
    </ul>
  );
  return (
    <section class="stack">
      <h2>Sure, but wrong</h2>
      <p class="small soft">How often they were sure and wrong, of all times that the item was answered.</p>
      <FirstFew all={all} most={WEAKEST} more={(rest) => plural(rest, 'more item')}>
        {lines}
      </FirstFew>
    </section>
  );
}

/** What this trainee takes for right. */
function OwnSlips(props: { readonly view: ClassView; readonly row: Row }) {
  const { slips, unnamed } = slipsOf(props.row.report, props.view.decks);
  if (slips.length === 0) return null;
  const lines = (some: readonly (typeof slips)[number][]) => (
    <ul class="lines">
      {some.map(({ key, asked, given, right, critical, times }) => (
        <li key={JSON.stringify([key, asked, given])} class="class-bar">
          <span dir="auto">
            {asked}: {given}
            {right !== null && <span class="small soft"> · right: {right}</span>}
            {critical && <strong> · critical</strong>}
          </span>
          <span class="number">{plural(times, 'time')}</span>
        </li>
      ))}
    </ul>
  );
  return (
    <section class="stack">
      <h2>Wrong answers</h2>
      <p class="small soft">
        How often each was given.
        {unnamed > 0 &&
          ` ${plural(unnamed, 'more is', 'more are')} counted and not named: orders, questions with several fields, and the rarer ones of an item.`}
      </p>
      <FirstFew all={slips} most={WEAKEST} more={(rest) => plural(rest, 'more answer')}>
        {lines}
      </FirstFew>
    </section>
  );
}

/**
 * Items by recall, the lowest first; never asked ones apart, or they would be all that is named. Before them what was
 * never yet right: a memory model that takes the right answer, shown after each miss, for learnt has it higher.
 */
function Weakest(props: { readonly view: ClassView; readonly packed: Packed; readonly row: Row }) {
  const { view, packed, row } = props;
  const weak = packed.decks
    .flatMap((deck) => {
      const known = view.decks.get(deck.id);
      const chances = row.asOfReport ? deck.now : deck.day;
      return keysOf(deck).flatMap((key, i) =>
        Number.isNaN(deck.now[i] as number)
          ? []
          : [{ key, recall: (chances[i] as number) || 0, neverRight: isNeverRight(deck, i), item: itemOf(known, key) }],
      );
    })
    .sort((a, b) => Number(b.neverRight) - Number(a.neverRight) || a.recall - b.recall)
    .slice(0, WEAKEST);
  if (weak.length === 0) return null;
  return (
    <section class="stack">
      <h2>Weakest of what was asked</h2>
      <ul class="lines">
        {weak.map(({ key, recall, neverRight, item }) => (
          <li key={key} class="class-bar">
            <span dir="auto">
              {item.label}
              {item.critical && <strong> · critical</strong>}
              {neverRight && <strong> · never yet right</strong>}
            </span>
            <span class="number">{share(recall)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function Note({ model, person }: PageProps) {
  const [note, setNote] = useState(person.note);
  const [said, setSaid] = useState('');
  return (
    <section class="stack rule screen-only">
      <label class="field">
        Your notes on this trainee
        <textarea
          rows={3}
          value={note}
          onInput={(event) => {
            setNote(event.currentTarget.value);
            setSaid('');
          }}
        />
      </label>
      <button
        type="button"
        class="screen-only"
        onClick={() =>
          void model
            .putNote(person, note)
            .then(() => setSaid(model.problem.value === null ? 'Kept on this device.' : ''))
        }
      >
        Keep the notes
      </button>
      <p role="status">{said}</p>
    </section>
  );
}

/** Whose devices they are is for the instructor to say: nothing in a report proves it. */
function Devices({ model, view, person }: PageProps) {
  const [other, setOther] = useState('');
  const others = view.people.filter(({ id }) => id !== person.id);
  const chosen = others.find(({ id }) => id === other);
  return (
    <section class="stack rule screen-only">
      <h2>{plural(person.devices.length, 'device')}</h2>
      <ul class="lines">
        {person.devices.map(({ key, letters }, i) => (
          <li key={key} class="row spread">
            <code>{letters || key.slice(0, 16)}</code>
            {i > 0 && (
              <button type="button" onClick={() => void model.part(key)}>
                Not this trainee's<span class="hidden-visually"> device {letters}</span>
              </button>
            )}
          </li>
        ))}
      </ul>
      {others.length > 0 && (
        <>
          <label class="field">
            The same person as
            <select value={other} onChange={(event) => setOther(event.currentTarget.value)}>
              <option value="">nobody else here</option>
              {others.map(({ id, name }) => (
                <option key={id} value={id}>
                  {name}
                </option>
              ))}
            </select>
          </label>
          {chosen !== undefined && (
            <div class="note stack">
              <p>
                {person.name} and {chosen.name} will be one trainee with two devices, called {chosen.pseudonym}. The
                report made last holds for both; nothing is lost, and they can be parted again.
              </p>
              <button type="button" onClick={() => void model.join(person, chosen).then(() => go({ at: 'class' }))}>
                Join them
              </button>
            </div>
          )}
        </>
      )}
    </section>
  );
}

/** What leaves the device, and what goes for good. */
function Leaving({ learner, model, view, person, packed }: PageProps & { readonly packed: Packed }) {
  const [asking, setAsking] = useState(false);
  const [failed, setFailed] = useState('');
  const isExpected = expectedOf(view.records.settings, person).length > 0;
  const save = async () => {
    setFailed('');
    try {
      const statements = await statementsOf(unpack(packed), view.decks, model.door.home, person.name);
      const name = `recency-${fileName(person.name)}-${packed.made}.xapi.json`;
      await learner.device.save(name, `${JSON.stringify(statements, null, 1)}\n`);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <section class="stack rule screen-only">
      <h2>Take away, or delete</h2>
      <div class="row">
        <button type="button" onClick={() => window.print()}>
          Print
        </button>
        <button type="button" onClick={() => void save()}>
          Save as xAPI statements
        </button>
      </div>
      <p class="small soft">
        Statements of xAPI 1.0.3 for a training record: one for each item that was answered, with all its answers summed
        up. Such files hold the pseudonym; keep them as you would keep the reports.
      </p>
      {failed !== '' && (
        <p class="note bad" role="alert">
          {failed}
        </p>
      )}
      {asking ? (
        <div class="note warn stack">
          <p>
            Delete {person.name}: {plural(person.heads.length, 'report')} and your notes go from this device for good.
            The files that you were sent are not touched.
            {isExpected && ` ${person.pseudonym} is taken off “Who is expected” too, so that nobody asks after them.`}
          </p>
          <div class="row">
            <button type="button" ref={takeFocus} onClick={() => setAsking(false)}>
              Keep
            </button>
            <button type="button" onClick={() => void model.remove(person).then(() => go({ at: 'class' }, 'instead'))}>
              Delete for good
            </button>
          </div>
        </div>
      ) : (
        <button type="button" onClick={() => setAsking(true)}>
          Delete this trainee
        </button>
      )}
    </section>
  );
}
