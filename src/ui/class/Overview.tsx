import { type ComponentChildren, Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { tableRows } from '../../class/csv.ts';
import type { Person } from '../../class/people.ts';
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
  const old = table.rows
    .filter((row) => row.old.length > 0)
    .map(({ person, old: decks }) => ({
      person,
      words: decks.map((one) => `${one.title} ${revisionWords(one)}`).join('. '),
    }));
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
  const lines = (all: readonly { readonly person: Person; readonly words: string }[]) =>
    all.map(({ person, words }) => (
      <p key={person.id}>
        {person.name}: {words}
      </p>
    ));
  const asks: readonly (readonly [title: string, whom: readonly unknown[], told: ComponentChildren])[] = [
    ['No report yet', table.missing, table.missing.join(', ')],
    [
      `Nothing for more than ${plural(view.records.settings.silentDays, 'day')}`,
      silent,
      silent.map(({ person }) => person.name).join(', '),
    ],
    ['Will not be ready by what they plan', few, lines(few)],
    [
      'Often sure, but wrong',
      certain,
      certain.map((row) => `${row.person.name}: ${sureWrongWords(row)} answers`).join('; '),
    ],
    [
      'Practise far less than they plan',
      less,
      `${less.map((row) => `${row.person.name}: ${practisedWords(row)}`).join('; ')}. What their own app expects holds only if the minutes are kept.`,
    ],
    ['An earlier assignment', earlier, earlier.join('. ')],
    ['Another revision of a deck', old, lines(old)],
  ];
  const toAsk = asks.filter(([, whom]) => whom.length > 0);
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
      {toAsk.length > 0 && (
        <section class="stack">
          <h2>To ask after</h2>
          <dl class="facts class-facts">
            {toAsk.map(([title, , told]) => (
              <Fragment key={title}>
                <dt>{title}</dt>
                <dd>{told}</dd>
              </Fragment>
            ))}
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
