import { tradeForm } from '../../model/trade-form.ts';
import { HIGH, pitchSketch, TRUE_TO, WIDE } from './pitch.ts';
import './pictures.css';

/**
 * A pitch attitude: an aeroplane from the side against the horizon, with the angle of its nose.
 * @param props.degrees one, or the two ends of a band; `words`: the answer in trade form, "at most 10.2°"
 */
export function PitchPicture(props: { readonly degrees: readonly number[]; readonly words: string }) {
  const { degrees, words } = props;
  const sketch = pitchSketch(degrees);
  if (sketch === null) return null;
  const { x, y, attitude, rays, arc, band, beyond } = sketch;
  const side = attitude < 0 ? 'below' : 'above';
  return (
    <svg
      class="pitch"
      viewBox={`0 0 ${WIDE} ${HIGH}`}
      role="img"
      aria-label={`Aeroplane from the side, its nose ${side} the horizon: pitch ${words}${
        beyond ? `, drawn at ${TRUE_TO}°` : ''
      }.`}
    >
      {band !== null && <path class="pitch-band" d={band} />}
      <path class="pitch-horizon" d={`M4 ${y} H${WIDE - 4}`} />
      <text class="pitch-word" x="4" y={attitude < 0 ? y + 16 : y - 7}>
        Horizon
      </text>
      {rays.map((ray, i) => (
        <path key={i} class="pitch-ray" d={`M${x} ${y} L${ray.x} ${ray.y}`} />
      ))}
      <path class="pitch-arc" d={arc} />
      <g transform={`translate(${x} ${y}) rotate(${-attitude})`}>
        <path class="pitch-plane" d="M84 3 L60 -6 H-56 L-68 -29 H-82 L-77 -3 L-44 8 H62 Z" />
        <path class="pitch-wing" d="M14 3 L-24 5" />
      </g>
      {rays.map((ray, i) => (
        <text key={i} x={ray.x + 6} y={ray.figure + 6}>
          {tradeForm(ray.degrees, '°')}
        </text>
      ))}
      {beyond && (
        <text class="pitch-word" x={WIDE - 4} y={attitude < 0 ? 14 : HIGH - 5} text-anchor="end">
          {`steeper than drawn (${TRUE_TO}°)`}
        </text>
      )}
    </svg>
  );
}
