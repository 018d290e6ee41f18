import { valueAt } from '../../../draft/change.ts';
import { type Cell, type Matrix, type MatrixPart, matrixOf } from '../../../draft/matrix.ts';
import { stepPath } from '../../../draft/nodes.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList } from '../../../lib/json.ts';
import { plural } from '../../words.ts';
import { openField } from '../place.ts';
import { useFlown } from './flown.ts';
import type { LineModel } from './line-model.ts';

/** What the variants make of the procedure: only where they differ. */
export function MatrixTable(props: { readonly line: LineModel; readonly index: number }) {
  const { line, index } = props;
  const looked = useFlown(line.draft, index, (flown) => matrixOf(flown));
  if (looked === null) return <p class="soft">Looking at the variants …</p>;
  if (looked.found === null) return <p class="soft">Shown when steps and variants are written so far.</p>;
  const { parts, common }: Matrix = looked.found;
  if (parts.length === 0)
    return <p>{common === 0 ? 'No steps yet.' : `${plural(common, 'step')}, the same in every variant.`}</p>;
  return (
    <div class="stack">
      {parts.map((part) => (
        <Part key={part.axes.join()} line={line} part={part} />
      ))}
      <p>{plural(common, 'step is', 'steps are')} the same everywhere.</p>
    </div>
  );
}

function Part(props: { readonly line: LineModel; readonly part: MatrixPart }) {
  const { line, part } = props;
  const by = part.axes.join(' and ');
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that is wider than the page is scrolled by the keyboard too
    <section class="matrix-box" tabIndex={0} aria-label={`By ${by}`}>
      <table class="matrix small">
        <caption>By {by.toLowerCase()}</caption>
        <thead>
          <tr>
            <th scope="col">Step</th>
            {part.columns.map((column) => (
              <th scope="col" key={column}>
                {column}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {part.rows.map((row) => (
            <tr key={row.steps.join()}>
              <th scope="row">
                {row.title === null ? 'One or the other' : <Link line={line} step={row.steps[0]} words={row.title} />}
              </th>
              {row.cells.map((cell, i) => (
                <td key={part.columns[i]}>
                  <CellWords line={line} cell={cell} alone={row.title !== null} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** @param props.alone the row is of one step, whose words stand before it */
function CellWords(props: { readonly line: LineModel; readonly cell: Cell; readonly alone: boolean }) {
  const { line, cell, alone } = props;
  const { step, words } = cell;
  if (step === null) return <span class="soft">left out</span>;
  if (alone) return <Link line={line} step={step} words={words.length === 0 ? 'done' : words.join(', ')} />;
  const [first = step, ...rest] = words;
  return (
    <>
      <Link line={line} step={step} words={first} />
      {rest.length > 0 && `: ${rest.join(', ')}`}
    </>
  );
}

/** Opens the form of the step, in whatever procedure it stands. */
function Link(props: { readonly line: LineModel; readonly step: string | undefined; readonly words: string }) {
  const { line, step, words } = props;
  const path = step === undefined ? null : pathIn(line.draft.value.value, line.procedure, step);
  if (path === null) return <>{words}</>;
  return (
    <button type="button" class="plain" onClick={() => openField(line.draft.id, path)}>
      {words}
    </button>
  );
}

/** Pointer of a step, of its own procedure or of one whose block is used; null: the draft has changed since. */
const pathIn = (doc: Json, procedure: string, step: string): string | null => {
  const own = stepPath(doc, procedure, step);
  const all = valueAt(doc, '/procedures');
  if (own !== null || !isList(all)) return own;
  return all.reduce<string | null>((found, _, i) => found ?? stepPath(doc, `/procedures/${i}`, step), null);
};
