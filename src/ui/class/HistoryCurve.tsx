import type { Past } from '../../class/history.ts';
import type { IsoDate } from '../../model/deck.ts';
import { Folded } from '../parts/Later.tsx';
import { shortDay } from '../words.ts';
import { dayIn, share } from './words.ts';

const WIDE = 328;
const HIGH = 150;
const FIELD = { left: 56, right: 12, top: 12, bottom: 28 };

/** Recall over a trainee's reports: as a drawing, and as a table. */
export function HistoryCurve(props: { readonly past: readonly Past[]; readonly today: IsoDate }) {
  const { past, today } = props;
  const [first, last] = [past[0], past.at(-1)];
  if (first === undefined || last === undefined) return null;
  // What the only one says of all items stands above.
  if (past.length === 1)
    return (
      <section class="stack screen-only">
        <h2>Over the reports</h2>
        <p class="small soft">From the second report on it stands here how recall changed from one to the next.</p>
      </section>
    );
  const days = Math.max(1, last.day - first.day);
  const x = (day: number) => FIELD.left + ((day - first.day) / days) * (WIDE - FIELD.left - FIELD.right);
  const y = (recall: number) => FIELD.top + (1 - recall) * (HIGH - FIELD.top - FIELD.bottom);
  const points = (of: (one: Past) => number | null) =>
    past.flatMap((one) => {
      const recall = of(one);
      return recall === null ? [] : [[x(one.day), y(recall)] as const];
    });
  const line = (all: readonly (readonly [number, number])[]) =>
    all.map(([px, py]) => `${px.toFixed(1)},${py.toFixed(1)}`).join(' ');
  const now = points((one) => one.now);
  const onCheck = points(({ onCheck: recall }) => recall);
  return (
    <section class="stack">
      <h2>Over the reports</h2>
      <svg
        class="class-curve"
        viewBox={`0 0 ${WIDE} ${HIGH}`}
        role="img"
        aria-label={`Recall of all items over ${past.length} reports: ${share(first.now)} at the first, ${share(last.now)} at the last.`}
      >
        {[0, 0.5, 1].map((recall) => (
          <g key={recall}>
            <line class="grid" x1={FIELD.left} x2={WIDE - FIELD.right} y1={y(recall)} y2={y(recall)} />
            <text x={FIELD.left - 6} y={y(recall) + 5} text-anchor="end">
              {share(recall)}
            </text>
          </g>
        ))}
        <text x={FIELD.left} y={HIGH - 6}>
          {shortDay(first.day)}
        </text>
        <text x={WIDE - FIELD.right} y={HIGH - 6} text-anchor="end">
          {shortDay(last.day)}
        </text>
        <polyline class="stop" points={line(onCheck)} />
        <polyline class="keep" points={line(now)} />
        {now.map(([px, py], i) => (
          <circle key={i} class="keep" cx={px} cy={py} r="2.5" />
        ))}
      </svg>
      <p class="small class-key" aria-hidden="true">
        <span class="key-keep">on the day of the report</span> <span class="key-stop">on the check day</span>
      </p>
      <Folded summary="The same as a table">
        {() => (
          <table class="forecast">
            <caption class="hidden-visually">Recall of all items, report by report</caption>
            <thead>
              <tr>
                <th scope="col">Report</th>
                <th scope="col">that day</th>
                <th scope="col">check day</th>
                <th scope="col">answers</th>
              </tr>
            </thead>
            <tbody>
              {past.map(({ hash, n, made, now: recall, onCheck: then, answers }) => (
                <tr key={hash}>
                  <th scope="row">
                    {n}, {dayIn(today, made)}
                  </th>
                  <td class="number">{share(recall)}</td>
                  <td class="number">{then === null ? '–' : share(then)}</td>
                  <td class="number">{answers}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Folded>
    </section>
  );
}
