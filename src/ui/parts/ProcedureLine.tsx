import type { ProcedureLine as Line, LineStep } from '../../drill/procedure-lines.ts';
import { percent, plural } from '../words.ts';

/** Steps that need no words, in a row. */
interface Quiet {
  readonly steps: readonly LineStep[];
}

/** So few stand by themselves. */
const LEAST_QUIET = 3;

const rowsOf = (steps: readonly LineStep[]): readonly (LineStep | Quiet)[] => {
  const rows: (LineStep | Quiet)[] = [];
  let quiet: LineStep[] = [];
  const flush = () => {
    if (quiet.length >= LEAST_QUIET) rows.push({ steps: quiet });
    else rows.push(...quiet);
    quiet = [];
  };
  for (const step of steps) {
    if (!step.weak) {
      quiet.push(step);
      continue;
    }
    flush();
    rows.push(step);
  }
  flush();
  return rows;
};

const quietWords = (steps: readonly LineStep[], isForecast: boolean): string => {
  const chances = steps.flatMap(({ chance }) => chance ?? []);
  const counted = plural(steps.length, 'step');
  if (chances.length === 0) return isForecast ? `${counted}, not met yet` : counted;
  const unmet = steps.length - chances.length;
  const rest = unmet === 0 ? '' : `, ${unmet} not met yet`;
  return `${counted}, ${percent(Math.min(...chances))} and more${rest}`;
};

const NO_BREAK = '\u00a0';
const NOW = { missed: 'missed now', unsure: 'not firm now', right: 'right now' } as const;

/**
 * A procedure's own line, with its weak steps on it: who acts stands in the margin, each mark has a shape and words.
 */
export function ProcedureLine(props: { readonly line: Line }) {
  const { line } = props;
  const isForecast = line.weakest !== null;
  return (
    <div>
      <ol class="proc">
        {rowsOf(line.steps).map((row) =>
          'steps' in row ? (
            <li key={row.steps[0]?.id}>
              <span class="who" />
              <Knot shape="run" />
              <p class="small soft">{quietWords(row.steps, isForecast)}</p>
            </li>
          ) : (
            <li key={row.id}>
              <span class="who">{row.by}</span>
              <Knot shape={row.now === 'missed' ? 'missed' : row.weak ? 'weak' : 'well'} />
              <div>
                <p class={row.weak ? 'named' : 'small'}>{row.text}</p>
                <Said step={row} isWeakest={row.id === line.weakest?.id} />
              </div>
            </li>
          ),
        )}
      </ol>
      <details class="twin">
        <summary>All steps as a table</summary>
        <table class="forecast small">
          <caption class="hidden-visually">{line.title}: its steps in order</caption>
          <thead>
            <tr>
              <th scope="col">Step</th>
              <th scope="col">This drill</th>
              {isForecast && <th scope="col">On the day</th>}
            </tr>
          </thead>
          <tbody>
            {line.steps.map(({ id, by, text, now, chance }) => (
              <tr key={id}>
                <th scope="row">
                  {by !== undefined && `${by}: `}
                  {text}
                </th>
                <td>{now === null ? 'not asked' : now === 'unsure' ? 'not sure' : now}</td>
                {isForecast && <td class="number">{chance === null ? 'not met' : percent(chance)}</td>}
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </div>
  );
}

function Said(props: { readonly step: LineStep; readonly isWeakest: boolean }) {
  const { step, isWeakest } = props;
  if (!step.weak) return null;
  const said = [
    step.now === 'missed' || step.chance === null ? (step.now === null ? null : NOW[step.now]) : null,
    step.chance === null ? null : `${isWeakest ? 'weakest: ' : ''}${percent(step.chance).replace(' ', NO_BREAK)}`,
  ].filter((words) => words !== null);
  return (
    <p class="small">
      {said.join(' · ')}
      {step.critical && (
        <>
          {' '}
          <span class="mark">critical</span>
        </>
      )}
    </p>
  );
}

/** A cross: missed now. A diamond: weak. A dot: there. Three dots: several steps. */
function Knot(props: { readonly shape: 'missed' | 'weak' | 'well' | 'run' }) {
  return (
    <svg class={`knot knot-${props.shape}`} viewBox="0 0 24 24" width="24" height="24" aria-hidden="true">
      {props.shape === 'missed' && <path d="M5 5 19 19M19 5 5 19" />}
      {props.shape === 'weak' && <path d="M12 3 21 12 12 21 3 12Z" />}
      {props.shape === 'well' && <circle cx="12" cy="12" r="4" />}
      {props.shape === 'run' && [5, 12, 19].map((y) => <circle key={y} cx="12" cy={y} r="2" />)}
    </svg>
  );
}
