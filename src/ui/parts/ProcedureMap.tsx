import { Fragment } from 'preact';
import {
  isFork,
  type MapFork,
  type ProcedureMap as MapOf,
  type MapRow,
  type MapStep,
  mapWords,
  procedureMap,
} from '../../drill/walk-map.ts';
import { procedureRead, type Reading } from '../../drill/walk-pictures.ts';
import { GateLines } from '../pictures/GateLines.tsx';
import { Text } from './Text.tsx';
import './procedure-map.css';

/**
 * The procedure as one line from top to bottom: each pilot's lane beside it, each cue on it at its step. Where lanes may
 * interleave it runs between double bars, as simultaneous sequences do in IEC 60848. The words under it say the same.
 */
export function ProcedureMap(props: { readonly reading: Reading }) {
  const { resolved, walk } = props.reading;
  const read = procedureRead(props.reading);
  const map = read === null ? null : procedureMap(resolved, read.view, read.found, read.situation);
  if (map === null) return null;
  const here = new Set(walk.lines.map(({ id }) => id));
  return (
    <figure class="stack">
      {/* Its words stand below, in the order in which they are done: a reader of the screen takes those. */}
      <div class={map.heads === null ? 'map map-solo' : 'map'} aria-hidden="true">
        <Key map={map} here={here} />
        {stretches(map.rows).map((rows) => (
          <Fragment key={keyOf(rows[0])}>
            {/* Over the rows that stand beside the line: in lanes each step says who acts. */}
            {map.heads !== null && rows.some((row) => !isFork(row) && row.side !== 'across') && (
              <div class="map-step map-heads">
                <span class="map-left">{map.heads[0]}</span>
                <span class="map-right">{map.heads[1]}</span>
              </div>
            )}
            <Rows rows={rows} here={here} lanes={map.heads !== null} />
          </Fragment>
        ))}
      </div>
      <details class="map-twin">
        <summary>The same in words</summary>
        <ul class="small">
          {mapWords(map).map((words, i) => (
            // Nothing changes places, and two lines may read alike.
            <li key={`${i} ${words}`} dir="auto">
              {words}
            </li>
          ))}
        </ul>
      </details>
      <GateLines reading={props.reading} />
    </figure>
  );
}

interface RowsProps {
  readonly rows: readonly MapRow[];
  /** Steps that are read now: inked, where the rest is soft. */
  readonly here: ReadonlySet<string>;
  /** Beside the middle line; else the line runs on the left and each step says who acts. */
  readonly lanes: boolean;
}

function Rows({ rows, here, lanes }: RowsProps) {
  return (
    <>
      {rows.map((row) => {
        if (isFork(row)) return <Fork key={keyOf(row)} fork={row} here={here} />;
        return <Step key={row.id} step={row} isHere={here.has(row.id)} lanes={lanes} />;
      })}
    </>
  );
}

/** Forks, and the rows between them. */
const stretches = (rows: readonly MapRow[]): MapRow[][] =>
  rows.reduce<MapRow[][]>((all, row) => {
    const last = all.at(-1);
    if (last?.[0] === undefined || isFork(row) || isFork(last[0])) all.push([row]);
    else last.push(row);
    return all;
  }, []);

const stepsIn = (rows: readonly MapRow[]): MapStep[] =>
  rows.flatMap((row) => (isFork(row) ? row.lanes.flatMap(stepsIn) : [row]));

/** Every mark that is met, with its meaning. */
function Key(props: { readonly map: MapOf; readonly here: ReadonlySet<string> }) {
  const { map, here } = props;
  const steps = stepsIn(map.rows);
  return (
    <p class="map-key small soft">
      <span>
        <Knot critical={false} /> step
      </span>
      {steps.some(({ critical }) => critical) && (
        <span>
          <Knot critical /> critical
        </span>
      )}
      {steps.some(({ id }) => !here.has(id)) && (
        <span class="hollow">
          <Knot critical={false} /> hollow: not in the part below
        </span>
      )}
      {map.heads !== null && map.rows.some((row) => !isFork(row) && row.side === 'across') && (
        <span>across the line: Both, or who is named</span>
      )}
    </p>
  );
}

function Knot({ critical }: { readonly critical: boolean }) {
  return (
    <svg class="map-knot" viewBox="0 0 16 16" width="16" height="16" aria-hidden="true">
      {critical ? <path d="M8 1 15 8 8 15 1 8Z" /> : <circle cx="8" cy="8" r="5" />}
    </svg>
  );
}

const keyOf = (row: MapRow | undefined): string =>
  row === undefined ? '' : isFork(row) ? `fork ${keyOf(row.lanes[0]?.[0])}` : row.id;

/** More stand under each other, each with its name. */
const MOST_BESIDE = 4;

function Fork(props: { readonly fork: MapFork; readonly here: ReadonlySet<string> }) {
  const { together, lanes } = props.fork;
  return (
    <div class="map-fork">
      <p class="small soft">{together ? 'At once, in any order' : 'Side by side, each in its own order'}</p>
      <div class={`map-lanes map-lanes-${lanes.length > MOST_BESIDE ? 'more' : lanes.length}`}>
        {lanes.map((lane, i) => (
          <div class="map-lane" key={keyOf(lane[0])}>
            {!together && <p class="map-name small soft">{`Line ${i + 1} of ${lanes.length}`}</p>}
            <Rows rows={lane} here={props.here} lanes={false} />
          </div>
        ))}
      </div>
    </div>
  );
}

function Step(props: { readonly step: MapStep; readonly isHere: boolean; readonly lanes: boolean }) {
  const { step, isHere, lanes } = props;
  const side = lanes ? step.side : 'right';
  return (
    <div class={isHere ? 'map-step' : 'map-step soft'} data-step={step.id}>
      {step.cue !== undefined && (
        <p class="map-cue small" dir="auto">
          <Text text={step.cue} />
        </p>
      )}
      <Knot critical={step.critical} />
      <p class={`map-${side} small`} dir="auto">
        {step.by !== undefined && <strong class={lanes && side !== 'across' ? 'map-by' : ''}>{step.by} </strong>}
        <Text text={step.text} />
        {step.after.length > 0 && <span class="soft"> (after: {step.after.map(({ text }) => text).join(', ')})</span>}
      </p>
    </div>
  );
}
