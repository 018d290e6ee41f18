import type { ComponentChildren } from 'preact';
import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'preact/hooks';
import { sameName } from '../../class/people.ts';
import { ANSWERING, type Cell, type Column, type Row } from '../../class/table.ts';
import { Later, useTurn } from '../parts/Later.tsx';
import { plural } from '../words.ts';
import { columnWidths, measured } from './columns.ts';
import { drawnRow } from './drawn-rows.ts';
import type { ClassView } from './model.ts';
import { OnPaper } from './OnPaper.tsx';
import {
  checkedWords,
  criticalWords,
  NEVER_ASKED,
  NOT_ASKED,
  share,
  sureWrongWords,
  tableMinutes,
  whenWords,
} from './words.ts';

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
    <section class="stack class-whole">
      <h2>{plural(rows.length, 'trainee')}</h2>
      <p class="small soft">
        Recall on each one's own check day as their app foretold it when the report was made, if nothing more were
        practised; what was never asked counts as not known.
      </p>
      <Signs {...(!broad && { on: 'print-only' })}>
        <dt class={broad ? '' : 'print-only'}>a date</dt>
        <dd class={broad ? '' : 'print-only'}>the procedure is checked then, before the rest</dd>
        <dt>10</dt>
        <dd>
          minutes planned a day; under it what the trainee's own app expects of them: “a day: 93 %; 12: 95 %” is 93 %
          with those, and 95 % with 12. Where the report does not say it, the least that what is short takes, of those
          planned until the check: more are needed where answers are missed
        </dd>
        <dt>1 of 45 min answering</dt>
        <dd>
          minutes spent answering, of those planned from the first day practised to the report: about{' '}
          {Math.round(100 * ANSWERING)} % where they are kept, as the app reckons, for reading is not counted
        </dd>
        <dt>3 of 40</dt>
        <dd>sure, but wrong: of all answers, those about several items counted once for each</dd>
      </Signs>
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
      <OnPaper columns={columns} rows={shown} />
      {broad ? <Broad columns={columns} rows={shown} /> : <Narrow rows={shown} />}
    </section>
  );
}

/** What stands beside figures. Readers are told by words, not by the signs. @param props.on where not all of them are used */
export function Signs(props: { readonly on?: 'print-only'; readonly children?: ComponentChildren }) {
  return (
    <dl class="facts class-signs small soft">
      <dt>!</dt>
      <dd>below target: the mean is below 90 %, or a critical item below 97 %</dd>
      <dt class={props.on}>c 64 %</dt>
      <dd class={props.on}>the lowest of the critical items; c –: one was never asked</dd>
      {props.children}
    </dl>
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
      {cell.critical !== null && (
        <span class="small lowest">
          {cell.critical === 0 ? '–' : share(cell.critical)}
          {cell.critical === 0 && <span class="hidden-visually">{NEVER_ASKED}</span>}
        </span>
      )}
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
  const decks = runsOf(columns);
  const { widths, whole } = useMemo(() => {
    const all = columnWidths([...WHOLE, ...columns.map(({ title }) => title)], measured());
    return { widths: all.map((width) => `${width}rem`), whole: all.reduce((sum, width) => sum + width, 0) };
  }, [columns]);
  return (
    // A wide table scrolls in itself, by the arrow keys too.
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard
    <section class="class-scroll" tabIndex={0} aria-label="Class table">
      {/* Columns as wide as their heads need, whatever stands in them: rows that come later move none. */}
      <table class="class-table" {...role('table')} style={{ '--columns': widths.join(' '), width: `${whole}rem` }}>
        <colgroup>
          {widths.map((width, i) => (
            <col key={i} style={{ width }} />
          ))}
        </colgroup>
        <thead {...role('rowgroup')}>
          {decks.length > 1 && (
            <tr {...role('row')}>
              <td colSpan={1 + WHOLE.length} style={{ gridColumn: `span ${1 + WHOLE.length}` }} {...role('cell')} />
              {decks.map(({ title, of }) => (
                <th
                  scope="colgroup"
                  colSpan={of}
                  aria-colspan={of}
                  style={{ gridColumn: `span ${of}` }}
                  {...role('columnheader')}
                  key={title}
                >
                  {title}
                </th>
              ))}
            </tr>
          )}
          <tr {...role('row')}>
            {['Trainee', ...WHOLE].map((words) => (
              <th scope="col" {...role('columnheader')} key={words}>
                {words}
              </th>
            ))}
            {columns.map(({ id, title }) => (
              <th scope="col" {...role('columnheader')} key={id}>
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
const role = (name: 'table' | 'rowgroup' | 'row' | 'columnheader' | 'cell') => ({ role: name });

/** Before the procedures. */
const WHOLE = ['All', 'Minutes', 'Sure, but wrong'];

/** Decks that the columns are of, and how many are of each: those of one stand side by side. */
const runsOf = (columns: readonly Column[]) => {
  const runs = new Map<string, { readonly title: string; of: number }>();
  for (const { deck, deckTitle } of columns) {
    const run = runs.get(deck) ?? { title: deckTitle, of: 0 };
    run.of += 1;
    runs.set(deck, run);
  }
  return [...runs.values()];
};

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
