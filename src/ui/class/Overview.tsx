import { useState } from 'preact/hooks';
import { tableRows } from '../../class/csv.ts';
import { isOftenSureWrong, practisesLess } from '../../class/table.ts';
import { shortPlan, tooFew } from '../../class/too-few.ts';
import type { Learner } from '../models/learner.ts';
import { Later } from '../parts/Later.tsx';
import { plural } from '../words.ts';
import type { ClassModel, ClassView } from './model.ts';
import { Slips, Weakest } from './Pictures.tsx';
import { Queries } from './Queries.tsx';
import { Table } from './Table.tsx';
import { dayIn, fileName, olderAssignment, planWords, practisedWords, revisionWords, sureWrongWords } from './words.ts';

/** All that the reports say, the table first. */
export function Overview(props: { readonly learner: Learner; readonly model: ClassModel; readonly view: ClassView }) {
  const { learner, model, view } = props;
  const { table, people } = view;
  const [failed, setFailed] = useState(false);
  const saveTable = async () => {
    setFailed(false);
    try {
      const name = fileName(view.records.settings.title || 'class');
      await learner.device.save(`recency-${name}-${view.today}.csv`, await learner.device.writeRows(tableRows(table)));
    } catch {
      setFailed(true);
    }
  };
  const alike = people.filter(({ shared }) => shared);
  const silent = table.rows.filter((row) => row.silent);
  const less = table.rows.filter(practisesLess);
  const certain = table.rows.filter(isOftenSureWrong);
  const old = table.rows.filter((row) => row.old.length > 0);
  const earlier = table.rows.flatMap((row) => {
    const words = olderAssignment(row.report, view.handed);
    return words === null ? [] : [`${row.person.name}: ${words}`];
  });
  const few = table.rows.flatMap((row) => {
    const [plan, least] = [shortPlan(row), tooFew(row)];
    if (plan !== null) return [{ person: row.person, words: `by their own app, ${planWords(plan)}` }];
    if (least === null) return [];
    const { date, minutes, planned, aDay } = least;
    const words = `${planned} of at least ${plural(minutes, 'minute')} until ${dayIn(view.today, date)}; the least would be ${aDay} a day`;
    return [{ person: row.person, words }];
  });
  return (
    <>
      {alike.length > 0 && (
        <p class="note">
          {plural(alike.length, 'trainee')} chose a pseudonym that another one has. They are told apart by the letters
          of their keys. If two of them are one person with two devices, join them on the page of either.
        </p>
      )}
      {table.unlisted.length > 0 && (
        <p class="note">
          Not on your list of who is expected: {table.unlisted.map(({ name }) => name).join(', ')}.{' '}
          <a class="screen-only" href="#/class/kept">
            Change the list
          </a>
        </p>
      )}
      {(table.missing.length > 0 ||
        silent.length > 0 ||
        few.length > 0 ||
        certain.length > 0 ||
        less.length > 0 ||
        earlier.length > 0 ||
        old.length > 0) && (
        <section class="stack">
          <h2>To ask after</h2>
          <dl class="facts class-facts">
            {table.missing.length > 0 && (
              <>
                <dt>No report yet</dt>
                <dd>{table.missing.join(', ')}</dd>
              </>
            )}
            {silent.length > 0 && (
              <>
                <dt>Nothing for more than {plural(view.records.settings.silentDays, 'day')}</dt>
                <dd>{silent.map(({ person }) => person.name).join(', ')}</dd>
              </>
            )}
            {few.length > 0 && (
              <>
                <dt>Will not be ready by what they plan</dt>
                <dd>
                  {few.map(({ person, words }) => (
                    <p key={person.id}>
                      {person.name}: {words}
                    </p>
                  ))}
                </dd>
              </>
            )}
            {certain.length > 0 && (
              <>
                <dt>Often sure, but wrong</dt>
                <dd>{certain.map((row) => `${row.person.name}: ${sureWrongWords(row)} answers`).join('; ')}</dd>
              </>
            )}
            {less.length > 0 && (
              <>
                <dt>Practise far less than they plan</dt>
                <dd>
                  {less.map((row) => `${row.person.name}: ${practisedWords(row)}`).join('; ')}. What their own app
                  expects holds only if the minutes are kept.
                </dd>
              </>
            )}
            {earlier.length > 0 && (
              <>
                <dt>An earlier assignment</dt>
                <dd>{earlier.join('. ')}</dd>
              </>
            )}
            {old.length > 0 && (
              <>
                <dt>Another revision of a deck</dt>
                <dd>
                  {old.map(({ person, old: decks }) => (
                    <p key={person.id}>
                      {person.name}: {decks.map((one) => `${one.title} ${revisionWords(one)}`).join('. ')}
                    </p>
                  ))}
                </dd>
              </>
            )}
          </dl>
        </section>
      )}
      <Table view={view} />
      <div class="row screen-only">
        <button type="button" onClick={() => window.print()}>
          Print
        </button>
        <button type="button" onClick={() => void saveTable()}>
          Save the table as CSV
        </button>
      </div>
      <p class="small soft screen-only">
        In the CSV recall is a share of 1: 0.029 is 3 % here. “Recall is that of” says of which day: the check date, as
        if nothing more were practised, or, without a check ahead, the day of the report.
      </p>
      {failed && (
        <p class="note bad" role="alert">
          The table could not be saved. Try again; if that fails, reload the page.
        </p>
      )}
      <Later>
        {() => (
          <>
            <Weakest items={table.weakest} never={table.neverAsked} />
            <Slips told={view.slips} decks={view.decks} />
            <Queries learner={learner} model={model} view={view} />
          </>
        )}
      </Later>
    </>
  );
}
