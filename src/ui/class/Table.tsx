import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import { sameName } from '../../class/people.ts';
import type { Cell, Column, Row } from '../../class/table.ts';
import { Later, useTurn } from '../parts/Later.tsx';
import { plural } from '../words.ts';
import { drawnRow } from './drawn-rows.ts';
import type { ClassView } from './model.ts';
import { checkedWords, criticalWords, NOT_ASKED, share, sureWrongWords, tableMinutes, whenWords } from './words.ts';

/** From here on procedures stand side by side. */
const BROAD = '(min-width: 60rem)';

const useBroad = (): boolean => {
  const [broad, setBroad] = useState(() => matchMedia(BROAD).matches);
  useEffect(() => {
    const query = matchMedia(BROAD);
    const look = () => setBroad(query.matches);
    query.addEventListener('change', look);
    return () => query.removeEventListener('change', look);
  }, []);
  return broad;
};

const ORDERS = {
  need: 'Who needs help first',
  name: 'Pseudonym',
  age: 'Oldest report first',
} as const;
type Order = keyof typeof ORDERS;

const ordered = (rows: readonly Row[], order: Order): readonly Row[] => {
  if (order === 'age') return [...rows].sort((a, b) => b.age - a.age);
  if (order === 'need') return rows;
  const name = ({ person }: Row) => sameName(person.pseudonym);
  return [...rows].sort((a, b) => (name(a) < name(b) ? -1 : 1));
};

/** Trainees and procedures: beside each other where there is room, else a trainee after the other. */
export function Table(props: { readonly view: ClassView }) {
  const { columns, rows } = props.view.table;
  const [order, setOrder] = useState<Order>('need');
  const broad = useBroad();
  const shown = ordered(rows, order);
  return (
    <section class="stack">
      <h2>{plural(rows.length, 'trainee')}</h2>
      <p class="small soft">
        Recall on each one's own check day as their app foretold it when the report was made, if nothing more were
        practised; what was never asked counts as not known. A date under a figure: the procedure is checked then,
        before the rest. ▼: the mean is below 90 %, or a critical item below 97 %. Minutes: what the trainee's own app
        expects of the minutes a day that are planned, as it told the trainee; where the report does not say it, the
        least that the questions short of their target take, and more are needed where answers are missed. Sure, but
        wrong: of all times that an item was answered, how often the trainee was sure and wrong; one question may be
        about several items.
      </p>
      <label class="field screen-only">
        Order
        <select value={order} onChange={(event) => setOrder(event.currentTarget.value as Order)}>
          {Object.entries(ORDERS).map(([value, words]) => (
            <option key={value} value={value}>
              {words}
            </option>
          ))}
        </select>
      </label>
      {broad ? <Broad columns={columns} rows={shown} /> : <Narrow rows={shown} />}
    </section>
  );
}

/** Mean, and where there are critical items the lowest of them. */
export function CellFigures(props: { readonly cell: Cell | null }) {
  const { cell } = props;
  if (cell === null)
    return (
      <>
        –<span class="hidden-visually">{NOT_ASKED}</span>
      </>
    );
  return (
    <>
      <span class={cell.below ? 'weak' : ''}>{share(cell.recall)}</span>
      {cell.critical !== null && <span class="small">{criticalWords(cell.critical)}</span>}
      {cell.check !== undefined && <span class="small">{checkedWords(cell.check)}</span>}
    </>
  );
}

/** So many trainees are drawn at once, as many as fill a screen; of those below more at a time, each in its turn. */
const FIRST = 12;
const NEXT = 48;

const slices = (rows: readonly Row[]): readonly (readonly Row[])[] => [
  rows.slice(0, FIRST),
  ...Array.from({ length: Math.ceil(Math.max(0, rows.length - FIRST) / NEXT) }, (_, i) =>
    rows.slice(FIRST + i * NEXT, FIRST + (i + 1) * NEXT),
  ),
];

function Broad(props: { readonly columns: readonly Column[]; readonly rows: readonly Row[] }) {
  const { columns, rows } = props;
  const several = new Set(columns.map(({ deck }) => deck)).size > 1;
  return (
    // A wide table scrolls in itself, by the arrow keys too.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard
    <section class="class-scroll" tabIndex={0} aria-label="Class table">
      {/* Columns of one width, whatever stands in them: rows that come later move none. */}
      <table class="class-table" {...role('table')} style={{ width: `${NAMES + FIGURES * (3 + columns.length)}rem` }}>
        <thead {...role('rowgroup')}>
          <tr {...role('row')}>
            {['Trainee', 'All', 'Minutes', 'Sure, but wrong'].map((words) => (
              <th scope="col" {...role('columnheader')} key={words}>
                {words}
              </th>
            ))}
            {columns.map(({ id, title, deckTitle }) => (
              <th scope="col" {...role('columnheader')} key={id}>
                {several && title !== deckTitle && <span class="small soft">{deckTitle}: </span>}
                {title}
              </th>
            ))}
          </tr>
        </thead>
        {slices(rows).map((slice, i) =>
          i === 0 ? (
            <BroadRows key={i} rows={slice} />
          ) : (
            <Later key={`${i} ${slice[0]?.person.id}`}>{() => <BroadRows rows={slice} />}</Later>
          ),
        )}
      </table>
    </section>
  );
}

/** What an element is by itself too, but not to every reader once CSS makes it no part of a table. */
const role = (name: 'table' | 'rowgroup' | 'row' | 'columnheader') => ({ role: name });

/** Widths of columns, rem; class.css has them too. */
const NAMES = 11;
const FIGURES = 7;

/** Laid out wherever it is, in a turn behind the drawing of all: what is left out until then, readers are not told of. */
function BroadRows({ rows }: { readonly rows: readonly Row[] }) {
  const body = useRef<HTMLTableSectionElement>(null);
  const isWhole = useTurn(true);
  useLayoutEffect(() => body.current?.replaceChildren(...rows.map(drawnRow)), [rows]);
  return <tbody ref={body} class={isWhole ? 'whole' : ''} {...role('rowgroup')} />;
}

function Narrow(props: { readonly rows: readonly Row[] }) {
  return (
    <ul class="lines">
      {slices(props.rows).map((slice, i) =>
        i === 0 ? (
          <NarrowRows key={i} rows={slice} />
        ) : (
          <Later key={`${i} ${slice[0]?.person.id}`}>{() => <NarrowRows rows={slice} />}</Later>
        ),
      )}
    </ul>
  );
}

const NarrowRows = ({ rows }: { readonly rows: readonly Row[] }) => (
  <>
    {rows.map((row) => (
      <li key={row.person.id}>
        <a class="deck-link" href={`#/class/${row.person.id}`}>
          {row.person.name}
        </a>
        <p>
          <span class={row.below > 0 ? 'weak' : ''}>{share(row.recall)}</span>
          {row.critical !== null && `, ${criticalWords(row.critical)}`}
          {row.below > 0 && `; below target in ${row.below} of ${row.cells.filter((cell) => cell !== null).length}`}
        </p>
        <p class="small">Minutes: {tableMinutes(row)}</p>
        <p class="small">Sure, but wrong: {sureWrongWords(row)}</p>
        <p class="small soft">{whenWords(row)}</p>
      </li>
    ))}
  </>
);
