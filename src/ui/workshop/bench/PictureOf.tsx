import { useId } from 'preact/hooks';
import type { AskSurvey, Cell, Picture, Survey } from '../../../deck/survey/types.ts';
import { Folded } from '../../parts/Later.tsx';
import type { BenchModel } from './bench-model.ts';
import { fillOf, Patterns } from './patterns.tsx';
import { letterOf, shareWords } from './words.ts';

const WIDE = 336;
const LEFT = 8;
/** Height of a bar; of a map, of each row. */
const BAR = 120;
const ROW = 16;

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
const askedOf = (cell: Cell): number => sum(cell.rules) + cell.noRule + cell.noValue;

interface Props {
  readonly bench: BenchModel;
  readonly survey: Survey;
  readonly picture: Picture;
  readonly ask: AskSurvey;
}

/** How rules, or the answers, lie over one or two of the drawn values. */
export function PictureOf({ bench, survey, picture, ask }: Props) {
  const { axes } = survey;
  const [x, y] = [axes[picture.x], picture.y === null ? undefined : axes[picture.y]];
  const { around } = survey;
  const sides = axes.filter(({ count }) => count > 1);
  const what = ask.rules === null ? 'Answers' : 'Rules';
  const said = `${what} over ${x?.label ?? ''}${y === undefined ? '' : ` (across) and ${y.label} (upwards)`}`;
  return (
    <div class="stack">
      <h3>{said}</h3>
      <div class="row even">
        <label class="field">
          Across
          <select
            value={x?.name ?? ''}
            onChange={(event) => bench.want({ x: event.currentTarget.value, y: y?.name ?? '' })}
          >
            {sides.map(({ name, label }) => (
              <option key={name} value={name} disabled={name === y?.name}>
                {label}
              </option>
            ))}
          </select>
        </label>
        {ask.rules !== null && sides.length > 1 && (
          <label class="field">
            Upwards
            <select
              value={y?.name ?? ''}
              onChange={(event) => bench.want({ x: x?.name ?? null, y: event.currentTarget.value })}
            >
              <option value="">Shares</option>
              {sides.map(({ name, label }) => (
                <option key={name} value={name} disabled={name === x?.name}>
                  {label}
                </option>
              ))}
            </select>
          </label>
        )}
      </div>
      <p class="small soft">
        {around ? 'All else as in the chosen example.' : 'All else as it comes.'}
        {ask.rules !== null &&
          y !== undefined &&
          !around &&
          ' A capital letter: always this rule; a small one: most often.'}
      </p>
      {ask.rules === null ? (
        <Answers picture={picture} said={said} />
      ) : (
        <Coverage picture={picture} said={said} rules={ask.rules.length} />
      )}
      <Folded summary="The same as a table">
        {() => <Twin picture={picture} ask={ask} survey={survey} said={said} />}
      </Folded>
    </div>
  );
}

/** Names of the first, the middle and the last bin below a drawing. */
function Scale({ bins, top }: { readonly bins: readonly string[]; readonly top: number }) {
  const ends = [
    { at: LEFT, anchor: 'start', words: bins[0] },
    { at: WIDE - LEFT, anchor: 'end', words: bins.length > 1 ? bins.at(-1) : '' },
  ] as const;
  return (
    <>
      {ends.map(({ at, anchor, words }) => (
        <text key={anchor} x={at} y={top + 16} text-anchor={anchor}>
          {words}
        </text>
      ))}
    </>
  );
}

function Coverage(props: { readonly picture: Picture; readonly said: string; readonly rules: number }) {
  const { picture, said, rules } = props;
  const id = useId();
  const columns = picture.xBins.length;
  const width = (WIDE - 2 * LEFT) / columns;
  const rows = picture.y === null ? 1 : picture.yBins.length;
  const high = picture.y === null ? BAR : rows * ROW;
  const gap = picture.y === null ? 0 : 20;
  return (
    <svg
      class="cover"
      viewBox={`0 0 ${WIDE} ${high + 22 + 2 * gap}`}
      role="img"
      aria-label={`${said}; the table below says the same`}
    >
      <Patterns id={id} rules={rules} />
      {picture.y !== null && (
        <>
          <text x={LEFT} y={14}>
            ↑ {picture.yBins.at(-1)}
          </text>
          <text x={LEFT} y={high + gap + 15}>
            ↓ {picture.yBins[0]}
          </text>
        </>
      )}
      {picture.cells.map((cell, i) => {
        const left = LEFT + (i % columns) * width;
        const row = Math.floor(i / columns);
        return picture.y === null ? (
          <Stack key={picture.xBins[i]} id={id} cell={cell} left={left} width={width} />
        ) : (
          <Square
            key={`${picture.xBins[i % columns]} ${picture.yBins[row]}`}
            id={id}
            cell={cell}
            left={left}
            top={gap + (rows - 1 - row) * ROW}
            width={width}
          />
        );
      })}
      <Scale bins={picture.xBins} top={high + 2 * gap} />
    </svg>
  );
}

/** Shares of a bin, one upon the other, the first rule at the foot. */
function Stack(props: { readonly id: string; readonly cell: Cell; readonly left: number; readonly width: number }) {
  const { id, cell, left, width } = props;
  const whole = askedOf(cell);
  if (whole === 0) return <Mark sign="·" x={left + width / 2} y={BAR / 2} />;
  let foot = BAR;
  return (
    <>
      {[...cell.rules, cell.noRule + cell.noValue].map((n, k) => {
        const high = (n / whole) * BAR;
        foot -= high;
        const rule = k < cell.rules.length;
        return (
          n > 0 && (
            <g key={k}>
              <rect class="cell" x={left} y={foot} width={width} height={high} fill={rule ? fillOf(id, k) : 'none'} />
              {high >= 16 && width >= 11 && (
                <Mark sign={rule ? letterOf(k) : '!'} x={left + width / 2} y={foot + high / 2} />
              )}
            </g>
          )
        );
      })}
    </>
  );
}

function Square(props: {
  readonly id: string;
  readonly cell: Cell;
  readonly left: number;
  readonly top: number;
  readonly width: number;
}) {
  const { id, cell, left, top, width } = props;
  const rule = cell.rules.indexOf(Math.max(...cell.rules));
  const most = cell.rules[rule] ?? 0;
  const odd = cell.noRule + cell.noValue;
  const none = askedOf(cell) === 0;
  const letter = letterOf(rule);
  const sign = none ? '·' : odd > most ? '!' : most < askedOf(cell) ? letter.toLowerCase() : letter;
  return (
    <>
      <rect
        class="cell"
        x={left}
        y={top}
        width={width}
        height={ROW}
        fill={none || odd > most ? 'none' : fillOf(id, rule)}
      />
      <Mark sign={sign} x={left + width / 2} y={top + ROW / 2} />
    </>
  );
}

const Mark = ({ sign, x, y }: { readonly sign: string; readonly x: number; readonly y: number }) => (
  <text class="sign" x={x} y={y + 4.5} text-anchor="middle">
    {sign}
  </text>
);

/** Least to greatest answer of each bin. */
function Answers({ picture, said }: { readonly picture: Picture; readonly said: string }) {
  const ends = picture.cells.flatMap(({ values }) => values ?? []);
  if (ends.length === 0) return null;
  const [least, most] = [Math.min(...ends), Math.max(...ends)];
  const width = (WIDE - 2 * LEFT) / picture.cells.length;
  const y = (value: number): number => 20 + (1 - (value - least) / (most - least || 1)) * BAR;
  const words = (value: number): string => {
    const cell = picture.cells.find(({ values }) => values?.includes(value));
    return cell?.range?.[cell.values?.[0] === value ? 0 : 1] ?? '';
  };
  return (
    <svg
      class="cover"
      viewBox={`0 0 ${WIDE} ${BAR + 66}`}
      role="img"
      aria-label={`${said}; the table below says the same`}
    >
      <text x={LEFT} y={14}>
        ↑ {words(most)}
      </text>
      <text x={LEFT} y={BAR + 40}>
        ↓ {words(least)}
      </text>
      {picture.cells.map(
        ({ values }, i) =>
          values !== null && (
            <rect
              key={picture.xBins[i]}
              class="answers"
              x={LEFT + i * width + 1}
              width={Math.max(1, width - 2)}
              y={y(values[1])}
              height={Math.max(2, y(values[0]) - y(values[1]))}
            />
          ),
      )}
      <Scale bins={picture.xBins} top={BAR + 44} />
    </svg>
  );
}

const cellWords = (cell: Cell): string => {
  if (cell.range !== null)
    return cell.range[0] === cell.range[1] ? cell.range[0] : `${cell.range[0]} to ${cell.range[1]}`;
  const whole = askedOf(cell);
  if (whole === 0) return 'not asked';
  const parts = cell.rules.flatMap((n, k) => (n === 0 ? [] : [[letterOf(k), n] as const]));
  if (cell.noRule > 0) parts.push(['no rule', cell.noRule]);
  if (cell.noValue > 0) parts.push(['no value', cell.noValue]);
  const [only] = parts;
  if (parts.length === 1 && only !== undefined) return only[0];
  return parts.map(([letter, n]) => `${letter} ${shareWords(n, whole)}`).join(', ');
};

function Twin(props: {
  readonly picture: Picture;
  readonly ask: AskSurvey;
  readonly survey: Survey;
  readonly said: string;
}) {
  const { picture, survey, said } = props;
  const columns = picture.xBins.length;
  const rows = picture.y === null ? [''] : picture.yBins;
  const up = picture.y === null ? undefined : survey.axes[picture.y];
  // Read line by line: across in rows, so that the table grows downwards.
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what is wider than the page is scrolled by keys too
    <section class="scrolled" aria-label={said} tabIndex={0}>
      <table>
        <caption class="hidden-visually">{said}</caption>
        <thead>
          <tr>
            <th scope="col">{survey.axes[picture.x]?.label}</th>
            {rows.map((row) => (
              <th key={row} scope="col">
                {up === undefined ? (props.ask.rules === null ? 'Answer' : 'Rule') : `${up.label} ${row}`}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {picture.xBins.map((bin, column) => (
            <tr key={bin}>
              <th scope="row">{bin}</th>
              {rows.map((row, r) => (
                <td key={row}>{cellWords(picture.cells[r * columns + column] as Cell)}</td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
