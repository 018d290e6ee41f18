import { type Gate, type GateLine, gateFigure, gateLines } from '../../drill/walk-gates.ts';
import { procedureRead, type Reading } from '../../drill/walk-pictures.ts';
import { Text } from '../parts/Text.tsx';
import { EDGE, layLine, piecesOf } from './number-line.ts';

const WIDE = 328;
/** From the edge of the picture to the end of the scale. */
const SIDE = EDGE + 4;
const MIDDLE = 62;
const HIGH = 124;
/** From the line to the near edge of a label; then from its figure to its name. */
const LEAD = 22;
const LETTER = { figure: 9.4, name: 8, gap: 8 };
/** A longer name stands in the list alone. */
const LONGEST = 6;

/** Speeds and heights of the procedure that is read, folded in: a line each, and in a list the same in order. */
export function GateLines(props: { readonly reading: Reading }) {
  const read = procedureRead(props.reading);
  if (read === null) return null;
  const lines = gateLines(props.reading.resolved, read.view, read.found, read.situation);
  if (lines.length === 0) return null;
  const speeds = lines.some(({ unit }) => unit === 'kt');
  const heights = lines.some(({ unit }) => unit === 'ft');
  return (
    <details class="map-twin">
      <summary>{speeds && heights ? 'Speeds and heights' : speeds ? 'Speeds' : 'Heights'}</summary>
      <div class="stack">
        {lines.map((line) => (
          <Line key={line.title} line={line} />
        ))}
      </div>
    </details>
  );
}

interface Mark {
  readonly value: number;
  readonly name: string;
  readonly width: number;
}

const marksOf = ({ values, names }: Gate): Mark[] =>
  values.map((value, i) => {
    const name = [...(names[i] ?? '')].length > LONGEST ? '' : (names[i] ?? '');
    const width = Math.max(gateFigure(value).length * LETTER.figure, [...name].length * LETTER.name);
    return { value, name, width: width + LETTER.gap };
  });

function Line({ line }: { readonly line: GateLine }) {
  const { title, datum, example, gates } = line;
  const marks = gates.flatMap(marksOf).sort((a, b) => a.value - b.value);
  const bands = gates.flatMap(({ values: [from, to] }) => (from !== undefined && to !== undefined ? [[from, to]] : []));
  let begun = 0;
  const pieces = piecesOf(
    marks.map(({ width }) => width),
    WIDE - 2 * (SIDE - EDGE),
  ).map((count) => {
    begun += count;
    return marks.slice(begun - count, begun);
  });
  return (
    <div class="stack">
      <p class="gates-title">{title}</p>
      {example && <p class="small soft">Values of the day: an example of one day.</p>}
      {pieces.map((piece, i) => (
        <Piece
          key={piece[0]?.value}
          marks={piece}
          bands={bands}
          from={i === 0 ? datum : null}
          said={`${title}, on a line to scale. The list below says the same.`}
        />
      ))}
      <ol class="gates-list small">
        {gates.map(({ words, what, done }) => (
          <li key={`${words} ${what}`} dir="auto">
            <strong class="number">{words}</strong>
            {what !== undefined && <span class="soft"> {what}</span>}
            {done.map((one) => (
              <span class="gates-done" key={one}>
                <Text text={one} />
              </span>
            ))}
          </li>
        ))}
      </ol>
    </div>
  );
}

function Piece(props: {
  readonly marks: readonly Mark[];
  readonly bands: readonly (readonly number[])[];
  readonly from: number | null;
  readonly said: string;
}) {
  const { marks, bands, from, said } = props;
  const laid = layLine(marks, { least: SIDE, most: WIDE - SIDE, from });
  const place = (value: number | undefined): number | undefined =>
    laid[marks.findIndex((one) => one.value === value)]?.x;
  return (
    <svg class="gates-line" viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={said}>
      <path class="gates-scale" d={`M4 ${MIDDLE} H${WIDE - 4} m-7 -5 l7 5 l-7 5`} />
      {from !== null && <path class="gates-tick" d={`M${SIDE} ${MIDDLE - 6} v12`} />}
      {from !== null && !marks.some(({ value }) => value === from) && (
        <text class="gates-name" x={SIDE} y={MIDDLE + 20}>
          {from}
        </text>
      )}
      {bands.map(([a, b]) => {
        const [x1, x2] = [place(a), place(b)];
        return (
          x1 !== undefined &&
          x2 !== undefined && <path key={`${a} ${b}`} class="gates-band" d={`M${x1} ${MIDDLE} H${x2}`} />
        );
      })}
      {laid.map(({ x, label, row }, i) => {
        const up = row === 'over' ? -1 : 1;
        const { value, name } = marks[i] as Mark;
        // Figures stand near the line on both sides, names beyond them.
        const figure = row === 'over' ? MIDDLE - LEAD - 3 : MIDDLE + LEAD + 14;
        return (
          <g key={`${value} ${name} ${i}`}>
            <path class="gates-tick" d={`M${x} ${MIDDLE - 6} v12`} />
            <path class="gates-lead" d={`M${x} ${MIDDLE + up * 6} L${label} ${MIDDLE + up * LEAD}`} />
            <text x={label} y={figure}>
              {gateFigure(value)}
            </text>
            {name !== '' && (
              <text class="gates-name" x={label} y={figure + up * 17}>
                {name}
              </text>
            )}
          </g>
        );
      })}
    </svg>
  );
}
