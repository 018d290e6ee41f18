import { tradeForm } from '../../../model/trade-form.ts';

/** Half the runway's length; then the arrow from its tail to its point. In the picture's own units, of which 328 are a phone's width. */
const RUNWAY = 44;
const TAIL = 72;
const POINT = 49;

/**
 * The runway along its direction, with an arrow the way it is used, and the wind from where it blows, north up. The
 * wind stays outside the runway, so that it covers no number however it blows.
 * @param props degrees, degrees, kt, kt
 */
export function RunwayWind(props: {
  readonly runway: number;
  readonly windDir: number;
  readonly windSpeed: number;
  readonly gust?: number;
}) {
  const { runway, windDir, windSpeed } = props;
  const there = tradeForm(runway, null, 'runway');
  const from = tradeForm(windDir, '°', 'direction');
  const speed = tradeForm(Math.round(windSpeed), 'kt');
  const calm = windSpeed < 0.5;
  const gust = props.gust === undefined ? null : tradeForm(Math.round(props.gust), 'kt');
  return (
    <svg
      class="runway-wind"
      viewBox="0 0 328 150"
      role="img"
      aria-label={`Runway ${there}, ${calm ? 'calm' : `wind from ${from} at ${speed}${gust === null ? '' : `, gusting ${gust}`}`}. North is up.`}
    >
      <g transform="translate(106 75)">
        <Strip runway={runway} />
      </g>
      {!calm && (
        <path
          class="rw-wind"
          transform={`translate(106 75) rotate(${windDir})`}
          d={`M0 ${-TAIL} V${-POINT - 2} m-9 -9 l9 11 l9 -11`}
        />
      )}
      <North />
      <g class="rw-said" transform={`translate(222 ${gust === null ? 58 : 36})`}>
        <text>{calm ? 'Calm' : 'Wind'}</text>
        {!calm && (
          <>
            <text class="rw-speed" y="26">
              {from}
            </text>
            <text class="rw-speed" y="50">
              {speed}
            </text>
            {gust !== null && (
              <>
                <text y="74">gusting</text>
                <text class="rw-speed" y="100">
                  {gust}
                </text>
              </>
            )}
          </>
        )}
      </g>
    </svg>
  );
}

/** The runway about 0, 0 with its two numbers and an arrow the way it is used. */
export function Strip({ runway }: { readonly runway: number }) {
  return (
    <g transform={`rotate(${runway})`}>
      <rect class="rw-strip" x="-14" y={-RUNWAY} width="28" height={2 * RUNWAY} />
      <path class="rw-go" d="M0 14 V-14 m-5 8 l5 -9 l5 9" />
      {[
        { number: tradeForm(runway, null, 'runway'), y: RUNWAY - 13 },
        { number: tradeForm((runway + 180) % 360, null, 'runway'), y: 13 - RUNWAY },
      ].map(({ number, y }) => (
        // Upright: upside down 09 reads 60.
        <text key={y} class="rw-number" transform={`translate(0 ${y}) rotate(${-runway})`} y="5.5">
          {number}
        </text>
      ))}
    </g>
  );
}

/** At the right edge, beyond what is said of the wind: its arrow comes there from no side. */
export function North() {
  return (
    <g class="rw-north" transform="translate(310 22)">
      <path d="M0 14 V-14 m-5 8 l5 -9 l5 9" />
      <text y="32">N</text>
    </g>
  );
}
