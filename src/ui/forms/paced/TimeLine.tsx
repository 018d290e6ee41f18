import type { PacedDetail, PacedFinding } from '../../../model/form.ts';
import { clock, isGood, lengthOf, ticksOf, verdictSign, verdictWords, whenWords } from './lane.ts';

const WIDE = 328;
const ROW = 20;
/** Room for the numbers, and at the right edge for half a mark. */
const LEFT = 30;
const RIGHT = 12;
const HEAD = 24;

/**
 * The learner's steps along the time of the run, a row each: a box where it is in time, a stroke at its cue, and what was
 * done. The table below it says the same.
 */
export function TimeLine(props: { readonly detail: PacedDetail; readonly own: readonly PacedFinding[] }) {
  const { detail, own } = props;
  const length = lengthOf(detail);
  const x = (s: number): number => LEFT + (Math.min(length, Math.max(0, s)) / length) * (WIDE - LEFT - RIGHT);
  const high = HEAD + own.length * ROW + (detail.extra.length > 0 ? ROW : 0) + 4;
  const right = own.filter(isGood).length;
  return (
    <svg
      class="paced-line"
      viewBox={`0 0 ${WIDE} ${high}`}
      role="img"
      aria-label={`Your steps along the time of the run, ${clock(0)} to ${clock(length)}: ${right} of ${own.length} right. The table says when.`}
    >
      {ticksOf(length).map((s) => (
        <g key={s}>
          <line class="grid" x1={x(s)} x2={x(s)} y1={HEAD - 4} y2={high} />
          <text x={x(s)} y={14} text-anchor="middle">
            {clock(s)}
          </text>
        </g>
      ))}
      {own.map((step, i) => {
        const y = HEAD + i * ROW + ROW / 2;
        // What was in time lies in its box, also where it came before the author's seconds.
        const early = step.timing === 'in-time' ? (step.doneAt ?? step.cueAt) : step.cueAt;
        const from = x(Math.min(step.cueAt - step.window[0], early));
        return (
          <g key={step.id} class={isGood(step) ? 'right' : step.timing === 'missing' ? 'wrong undone' : 'wrong'}>
            <text x={LEFT - 8} y={y + 5} text-anchor="end">
              {i + 1}
            </text>
            <rect x={from} y={y - 6} width={Math.max(3, x(step.cueAt + step.window[1]) - from)} height={12} />
            <line class="cue" x1={x(step.cueAt)} x2={x(step.cueAt)} y1={y - 8} y2={y + 8} />
            <Mark x={step.doneAt === undefined ? null : x(step.doneAt)} y={y} good={isGood(step)} />
          </g>
        );
      })}
      {detail.extra.map(({ text, at }) => (
        <g key={`${text} ${at}`} class="wrong">
          <Mark x={x(at)} y={HEAD + own.length * ROW + ROW / 2} good={false} />
        </g>
      ))}
    </svg>
  );
}

/** Done rightly: a dot. Else a cross. Nothing where nothing was done: the box is broken. */
function Mark(props: { readonly x: number | null; readonly y: number; readonly good: boolean }) {
  const { x, y, good } = props;
  if (x === null) return null;
  if (good) return <circle class="done" cx={x} cy={y} r={5} />;
  return <path class="done" d={`M${x - 5} ${y - 5}L${x + 5} ${y + 5}M${x + 5} ${y - 5}L${x - 5} ${y + 5}`} />;
}

/** @param untimed the run stood still at each cue: when that was says nothing */
export function TimeTable(props: { readonly own: readonly PacedFinding[]; readonly untimed: boolean }) {
  const { own, untimed } = props;
  return (
    <table class="paced-table">
      <caption class="hidden-visually">
        {untimed ? 'Your steps, and how you did them' : 'Your steps: how you did them, and when the cue came'}
      </caption>
      <thead>
        <tr>
          <th scope="col">
            <span class="hidden-visually">Number</span>
          </th>
          <th scope="col">Your step</th>
          {!untimed && <th scope="col">Cue</th>}
        </tr>
      </thead>
      <tbody>
        {own.map((step, i) => (
          <tr key={step.id} class={isGood(step) ? 'right' : 'wrong'}>
            <td class="number">{i + 1}</td>
            <th scope="row" dir="auto">
              {step.text}
              <span class="paced-told small" dir="ltr">
                <span aria-hidden="true">{verdictSign(step)} </span>
                {[verdictWords(step, untimed), whenWords(step, untimed)].filter((words) => words !== '').join(': ')}
              </span>
            </th>
            {!untimed && <td class="number">{clock(step.cueAt)}</td>}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
