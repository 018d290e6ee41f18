import { render } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { Column, Row } from '../../class/table.ts';
import { CellFigures } from './Table.tsx';
import { paperWords, shortMinutes, shortSureWrong } from './words.ts';

/** So many procedures stand beside each other on a sheet, upright too; more are a table of their own. */
const MOST = 7;

/**
 * The table as it is printed, from a phone too. It is drawn when it is printed and no sooner: within the browser's own
 * event, since nothing that is put off comes in time.
 */
export function OnPaper(props: { readonly columns: readonly Column[]; readonly rows: readonly Row[] }) {
  const { columns, rows } = props;
  const place = useRef<HTMLDivElement>(null);
  const isPrinting = useRef(false);
  useEffect(() => {
    const { current } = place;
    if (current === null) return;
    const draw = () => {
      isPrinting.current = true;
      render(<Sheets columns={columns} rows={rows} />, current);
    };
    const clear = () => {
      isPrinting.current = false;
      render(null, current);
    };
    // A report that comes in meanwhile is printed too.
    if (isPrinting.current) draw();
    addEventListener('beforeprint', draw);
    addEventListener('afterprint', clear);
    return () => {
      removeEventListener('beforeprint', draw);
      removeEventListener('afterprint', clear);
    };
  }, [columns, rows]);
  return <div class="class-paper" ref={place} />;
}

/** Procedures of one deck at a time, of each about as many in every table. @returns places of columns */
export const paperParts = (columns: readonly Pick<Column, 'deck'>[]): readonly (readonly number[])[] =>
  [...new Set(columns.map(({ deck }) => deck))].flatMap((deck) => {
    const own = [...columns.keys()].filter((c) => columns[c]?.deck === deck);
    const of = Math.ceil(own.length / Math.ceil(own.length / MOST));
    return Array.from({ length: Math.ceil(own.length / of) }, (_, i) => own.slice(i * of, (i + 1) * of));
  });

const Sheets = ({ columns, rows }: { readonly columns: readonly Column[]; readonly rows: readonly Row[] }) => (
  <>
    {paperParts(columns).map((part, i) => (
      <table key={i}>
        <caption>
          {columns[part[0] ?? 0]?.deckTitle}
          {(part[0] ?? 0) > 0 && columns[(part[0] ?? 0) - 1]?.deck === columns[part[0] ?? 0]?.deck && ', further'}
        </caption>
        <thead>
          <tr>
            <th scope="col">Trainee</th>
            {i === 0 && <th scope="col">All</th>}
            {i === 0 && <th scope="col">Minutes</th>}
            {i === 0 && <th scope="col">Sure, but wrong</th>}
            {part.map((c) => (
              <th scope="col" key={c}>
                {columns[c]?.title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => {
            const { items, recall, critical, below, unmet } = row;
            return (
              <tr key={row.person.id}>
                <th scope="row">
                  <strong>{row.person.name}</strong>
                  {i === 0 && <span class="small">{paperWords(row)}</span>}
                </th>
                {i === 0 && (
                  <td>
                    <CellFigures cell={items === 0 ? null : { items, recall, critical, unmet, below: below > 0 }} />
                  </td>
                )}
                {i === 0 &&
                  [shortMinutes(row), shortSureWrong(row)].map(({ figure, of, done }, told) => (
                    <td key={told}>
                      {figure}
                      {of !== null && <span class="small">{of}</span>}
                      {done && <span class="small">{done}</span>}
                    </td>
                  ))}
                {part.map((c) => (
                  <td key={c}>
                    <CellFigures cell={row.cells[c] ?? null} />
                  </td>
                ))}
              </tr>
            );
          })}
        </tbody>
      </table>
    ))}
  </>
);
