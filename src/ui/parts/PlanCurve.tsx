import type { Outlook } from '../../memory/outlook.ts';
import type { PlanRecord } from '../models/plan-record.ts';
import { percent, shortDay } from '../words.ts';
import { Fold, Folded } from './Later.tsx';

const WIDE = 328;
const HIGH = 150;
/** Of the plotted field. */
const FIELD = { left: 56, right: 12, top: 12, bottom: 28 };

interface Of {
  readonly record: PlanRecord;
  readonly outlook: Outlook;
}

/** How recall grows to the day, all questions together: as a drawing, and as a table. */
export function PlanCurve(props: Of) {
  const { curve } = props.record.plan;
  return (
    <Fold
      title="How it grows"
      said={`${percent(curve[0] ?? 0)} today, ${percent(curve.at(-1) ?? 0)} on the day if you keep to the plan`}
    >
      {() => <Drawn {...props} />}
    </Fold>
  );
}

function Drawn(props: Of) {
  const { plan } = props.record;
  const { kept, idleCurve } = props.outlook;
  const { curve, day, checkDay } = plan;
  const days = checkDay - day;
  const x = (u: number) => FIELD.left + (u / days) * (WIDE - FIELD.left - FIELD.right);
  const y = (share: number) => FIELD.top + (1 - share) * (HIGH - FIELD.top - FIELD.bottom);
  const line = (shares: readonly number[]) =>
    shares.map((share, u) => `${x(u).toFixed(1)},${y(share).toFixed(1)}`).join(' ');
  const [now, then, idle] = [curve[0] ?? 0, curve.at(-1) ?? 0, idleCurve.at(-1) ?? 0];
  const said =
    `Expected recall of all questions together, day by day: ${percent(now)} today; on the day ${percent(then)} if you ` +
    `keep to the plan, ${percent(idle)} if you stop now.`;
  return (
    <>
      <svg class="curve" viewBox={`0 0 ${WIDE} ${HIGH}`} role="img" aria-label={said}>
        {[0, 0.5, 1].map((share) => (
          <g key={share}>
            <line class="grid" x1={FIELD.left} x2={WIDE - FIELD.right} y1={y(share)} y2={y(share)} />
            <text x={FIELD.left - 6} y={y(share) + 5} text-anchor="end">
              {percent(share)}
            </text>
          </g>
        ))}
        <text x={FIELD.left} y={HIGH - 6}>
          today
        </text>
        <text x={WIDE - FIELD.right} y={HIGH - 6} text-anchor="end">
          {shortDay(checkDay)}
        </text>
        <polyline class="stop" points={line(idleCurve)} />
        <line class="band" x1={x(days)} x2={x(days)} y1={y(kept.all.low)} y2={y(kept.all.high)} />
        <polyline class="keep" points={line(curve)} />
        {days <= 45 &&
          curve.map((share, u) => <circle key={u} class="keep" cx={x(u)} cy={y(share)} r={days > 20 ? 1.5 : 2.5} />)}
      </svg>
      <p class="small key" aria-hidden="true">
        <span class="key-keep">if you keep to the plan</span> <span class="key-stop">if you stop now</span>{' '}
        <span class="key-band">eight of ten learners</span>
      </p>
      <Folded summary="The same as a table">
        {() => (
          <table class="forecast">
            <caption class="hidden-visually">Expected recall at the beginning of each day</caption>
            <thead>
              <tr>
                <th scope="col">Day</th>
                <th scope="col">plan</th>
                <th scope="col">stop now</th>
              </tr>
            </thead>
            <tbody>
              {curve.map((share, u) => (
                <tr key={u}>
                  <th scope="row">{shortDay(day + u)}</th>
                  <td class="number">{percent(share)}</td>
                  <td class="number idle">{percent(idleCurve[u] ?? 0)}</td>
                </tr>
              ))}
            </tbody>
          </table>
        )}
      </Folded>
    </>
  );
}
