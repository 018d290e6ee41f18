import { tradeForm } from '../../../model/trade-form.ts';

/** Half sizes, in the picture's own units. */
const RUNWAY = 58;
const WIND_FROM = 66;
const WIND_TO = 22;

/**
 * The runway along its direction and the wind from where it blows, north up.
 * @param props degrees, degrees, kt
 */
export function RunwayWind(props: { readonly runway: number; readonly windDir: number; readonly windSpeed: number }) {
  const { runway, windDir, windSpeed } = props;
  const there = tradeForm(runway, null, 'runway');
  const back = tradeForm((runway + 180) % 360, null, 'runway');
  const from = tradeForm(windDir, null, 'direction');
  const calm = windSpeed < 0.5;
  // The number beside the arrow's tail must lie within the picture, whichever way it blows.
  const angle = (windDir * Math.PI) / 180;
  const at = { x: 108 * Math.sin(angle), y: -74 * Math.cos(angle) };
  return (
    <svg
      class="runway-wind"
      viewBox="-164 -88 328 176"
      role="img"
      aria-label={`Runway ${there}, ${calm ? 'calm' : `wind from ${from}° at ${Math.round(windSpeed)} kt`}. North is up.`}
    >
      <g transform={`rotate(${runway})`}>
        <rect class="rw-strip" x="-13" y={-RUNWAY} width="26" height={2 * RUNWAY} />
        <path class="rw-line" d={`M0 ${RUNWAY - 24} V${-RUNWAY + 24}`} />
        <text class="rw-number" x="0" y={RUNWAY - 6}>
          {there}
        </text>
        <text class="rw-number" x="0" y={RUNWAY - 6} transform="rotate(180)">
          {back}
        </text>
        <path class="rw-go" d={`M0 ${RUNWAY + 20} V${RUNWAY + 8} m-5 5 l5 -6 l5 6`} />
      </g>
      {!calm && (
        <>
          <g transform={`rotate(${windDir})`}>
            <path class="rw-wind" d={`M0 ${-WIND_FROM} V${-WIND_TO} m-8 -11 l8 13 l8 -13`} />
          </g>
          <text class="rw-speed" x={at.x} y={at.y + 5}>
            {from}°/{Math.round(windSpeed)}
          </text>
        </>
      )}
      <g class="rw-north" transform="translate(150 -62)">
        <path d="M0 12 V-10 m-5 6 l5 -8 l5 8" />
        <text x="0" y="26">
          N
        </text>
      </g>
    </svg>
  );
}
