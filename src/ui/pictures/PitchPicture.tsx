import { tradeForm } from '../../model/trade-form.ts';
import { LEFT, PLANE, pitchSketch, TRUE_TO, WIDE } from './pitch.ts';

const RIGHT = LEFT + WIDE - 4;

/**
 * A pitch attitude: an aeroplane from the side against the horizon, with the angle of its nose.
 * @param props.degrees one, or the two ends of a band
 * @param props.words the answer in trade form, "at most 10.2°"
 */
export function PitchPicture(props: { readonly degrees: readonly number[]; readonly words: string }) {
  const { degrees, words } = props;
  const sketch = pitchSketch(degrees);
  if (sketch === null) return null;
  const { attitude, rays, arc, band, horizon, beyond, top, bottom } = sketch;
  const side = attitude < 0 ? 'below' : attitude > 0 ? 'above' : 'on';
  return (
    <svg
      class="pitch"
      viewBox={`${LEFT} ${top} ${WIDE} ${bottom - top}`}
      role="img"
      aria-label={`Aeroplane from the side, its nose ${side} the horizon: pitch ${words}${
        beyond === null ? '' : `, drawn at ${TRUE_TO}°`
      }.`}
    >
      {band !== null && <path class="pitch-band" d={band} />}
      <path class="pitch-horizon" d={`M${LEFT + 4} 0 H${RIGHT}`} />
      {rays.map((ray) => (
        <path key={ray.degrees} class="pitch-ray" d={`M0 0 L${ray.x} ${ray.y}`} />
      ))}
      <path class="pitch-arc" d={arc} />
      <g transform={`rotate(${-attitude})`}>
        <path class="pitch-plane" d={PLANE} />
        <path class="pitch-wing" d="M14 3 L-24 5" />
      </g>
      {rays.map((ray) => (
        <text key={ray.degrees} x={ray.x + 6} y={ray.figure + 6}>
          {tradeForm(ray.degrees, '°')}
        </text>
      ))}
      <text class="pitch-word" x={RIGHT} y={horizon + 5} text-anchor="end">
        Horizon
      </text>
      {beyond !== null && (
        <text class="pitch-word" x={RIGHT} y={beyond + 5} text-anchor="end">
          {`steeper than drawn (${TRUE_TO}°)`}
        </text>
      )}
    </svg>
  );
}
