import { tradeForm } from '../../model/trade-form.ts';
import { North, RunwayWind, Strip } from '../forms/scenario/RunwayWind.tsx';
import { type Arrow, extent, POINT, partsWords, TAIL, turned, windParts } from './wind.ts';

/**
 * The runway and the wind as in the question, with the wind along and across the runway: two arrows with their figures,
 * and the same in words beneath. With the answer only.
 * @param props degrees, degrees, kt
 */
export function RunwayWindParts(props: {
  readonly runway: number;
  readonly windDir: number;
  readonly windSpeed: number;
  /** Another wind counts too: parts of the mean one would be taken for the answer. */
  readonly gusty?: true;
  readonly gust?: number;
}) {
  const { runway, windDir, windSpeed, gusty } = props;
  const parts = windParts(props);
  if (parts === null || windSpeed < 0.5 || gusty) return <RunwayWind {...props} />;
  const from = tradeForm(windDir, '°', 'direction');
  const speed = tradeForm(Math.round(windSpeed), 'kt');
  const words = partsWords(parts);
  const [top, bottom] = extent(windDir);
  return (
    <figure class="stack">
      <svg
        class="runway-wind wind-parts"
        viewBox={`-112 ${top} 328 ${bottom - top}`}
        role="img"
        aria-label={`Runway ${tradeForm(runway, null, 'runway')}, wind from ${from} at ${speed}: ${words}. North is up.`}
      >
        <Strip runway={runway} />
        <Part arrow={parts.along} kt={parts.head} runway={runway} />
        <Part arrow={parts.across} kt={parts.cross} runway={runway} />
        <path class="rw-wind" transform={`rotate(${windDir})`} d={`M0 ${-TAIL} V${-POINT - 2} m-9 -9 l9 11 l9 -11`} />
        <g transform={`translate(-112 ${top})`}>
          <North />
        </g>
        <g class="rw-said" transform="translate(122 -17)">
          <text>Wind</text>
          <text class="rw-speed" y="26">
            {from}
          </text>
          <text class="rw-speed" y="50">
            {speed}
          </text>
        </g>
      </svg>
      <figcaption class="number" aria-hidden="true">
        {words}
      </figcaption>
    </figure>
  );
}

/** One of the two arrows; its figure stays upright. */
function Part(props: { readonly arrow: Arrow | null; readonly kt: number; readonly runway: number }) {
  const { arrow, kt, runway } = props;
  if (arrow === null) return null;
  const [x, y] = turned(arrow.figure, runway);
  const [dx, dy] = [arrow.point[0] - arrow.tail[0], arrow.point[1] - arrow.tail[1]];
  const angle = (Math.atan2(dy, dx) * 180) / Math.PI;
  return (
    <>
      <g transform={`rotate(${runway}) translate(${arrow.tail.join(' ')}) rotate(${angle})`}>
        <path class="wp-part" d={`M0 0 H${Math.hypot(dx, dy)} m-6 -5 l6 5 l-6 5`} />
      </g>
      <text x={x} y={y + 5.5}>
        {Math.abs(kt)}
      </text>
    </>
  );
}
