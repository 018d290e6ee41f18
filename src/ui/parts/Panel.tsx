import { useId, useState } from 'preact/hooks';
import { type PanelStop, panelPlan, type Reading } from '../../drill/walk-pictures.ts';
import { type Area, PLAN_WIDTH } from '../../model/deck.ts';
import './panel.css';

/** In hundredths of the plan's width: room for the pen. */
const EDGE = 1;

/** The author's own areas as a blank plan: the one in which a step is done is hatched, and the hand's way to it drawn. */
export function Panel(props: { readonly reading: Reading }) {
  const [at, setAt] = useState(0);
  const plan = panelPlan(props.reading);
  const stop = plan?.stops[Math.min(at, (plan?.stops.length ?? 1) - 1)];
  if (plan === null || stop === undefined) return null;
  const i = plan.stops.indexOf(stop);
  return (
    <figure class="panel stack">
      <Plan areas={plan.areas} stops={plan.stops.slice(0, i + 1)} />
      {/* Above the words, whose height changes: it stays under the thumb. */}
      <div class="row even">
        <button type="button" aria-disabled={i === 0} onClick={() => i > 0 && setAt(i - 1)}>
          Back a step
        </button>
        <button
          type="button"
          aria-disabled={i === plan.stops.length - 1}
          onClick={() => i < plan.stops.length - 1 && setAt(i + 1)}
        >
          Next step
        </button>
      </div>
      <figcaption aria-live="polite">
        <strong dir="auto">{stop.where}</strong>
        <span class="soft"> · {`${i + 1} of ${plan.stops.length}`.replaceAll(' ', '\u00a0')}</span>
        <p dir="auto">
          {stop.by !== undefined && <span class="soft">{stop.by}: </span>}
          {stop.text}
        </p>
      </figcaption>
      <ol class="panel-names small soft">
        {plan.areas.map(({ label }) => (
          <li key={label}>
            {label === stop.where ? (
              <strong>
                <bdi>{label}</bdi>
              </strong>
            ) : (
              <bdi>{label}</bdi>
            )}
          </li>
        ))}
      </ol>
    </figure>
  );
}

/** Of a number in an area: width of a digit and height, and its distance from the edge. */
const DIGIT = 3.6;
const HIGH = 4.4;
const INSET = 1.2;

/** Where the number of an area starts, on its line: in the first of its corners in which no other area lies. */
const placeOf = (area: Area, areas: readonly Area[], wide: number): readonly [x: number, y: number] => {
  const [left, right] = [area.x + INSET, area.x + area.width - INSET - wide];
  const [top, bottom] = [area.y + INSET + HIGH, area.y + area.height - INSET];
  const corners = [
    [left, top],
    [left, bottom],
    [right, top],
    [right, bottom],
  ] as const;
  const inner = areas.filter((one) => one !== area && one.width * one.height < area.width * area.height);
  const isFree = ([x, y]: readonly [number, number]) =>
    inner.every((one) => x + wide <= one.x || x >= one.x + one.width || y <= one.y || y - HIGH >= one.y + one.height);
  const [x, y] = corners.find(isFree) ?? corners[0];
  return [Math.max(0, Math.min(x, PLAN_WIDTH - wide)), Math.max(HIGH, y)];
};

const centre = ({ x, y, width, height }: Area) => `${x + width / 2} ${y + height / 2}`;

function Plan(props: { readonly areas: readonly Area[]; readonly stops: readonly PanelStop[] }) {
  const { areas, stops } = props;
  const hatch = useId();
  const named = new Map(areas.map((area) => [area.label, area]));
  const way = stops.flatMap(({ where }) => named.get(where) ?? []).filter((area, i, all) => area !== all[i - 1]);
  const lit = way.at(-1);
  const high = Math.max(...areas.map(({ y, height }) => y + height));
  return (
    <svg
      class="panel-plan"
      viewBox={`${-EDGE} ${-EDGE} ${PLAN_WIDTH + 2 * EDGE} ${high + 2 * EDGE}`}
      role="img"
      aria-label={`Plan of the flight deck: ${lit?.label ?? 'nothing'} is hatched`}
    >
      <defs>
        <pattern id={hatch} width="3" height="3" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V3" />
        </pattern>
      </defs>
      {areas.map(({ label, x, y, width, height }) => (
        <rect key={label} x={x} y={y} width={width} height={height} rx="1" />
      ))}
      {lit !== undefined && (
        <rect class="lit" x={lit.x} y={lit.y} width={lit.width} height={lit.height} rx="1" fill={`url(#${hatch})`} />
      )}
      {/* The list below says what they are. */}
      {areas.map((area, i) => {
        const [x, y] = placeOf(area, areas, `${i + 1}`.length * DIGIT);
        return (
          <text key={area.label} x={x} y={y}>
            {i + 1}
          </text>
        );
      })}
      {way.length > 1 && <path class="way" d={`M${way.slice(-2).map(centre).join('L')}`} />}
      {way.slice(-2).map((area, i, all) => {
        const [cx, cy] = centre(area).split(' ');
        const isNow = i === all.length - 1;
        return <circle key={area.label} class={isNow ? 'now' : 'was'} cx={cx} cy={cy} r={isNow ? 2.6 : 1.6} />;
      })}
    </svg>
  );
}
