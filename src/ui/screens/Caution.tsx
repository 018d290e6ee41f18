import { CAUTIONS } from '../cautions.ts';
import { Sheet } from '../parts/Sheet.tsx';

/** The first thing anybody sees. */
export function Caution(props: { readonly onUnderstood: () => void }) {
  return (
    <Sheet
      title="Recency"
      bar={
        <div class="bar">
          <button type="button" class="main wide" onClick={props.onUnderstood}>
            I have read this
          </button>
        </div>
      }
    >
      <p>
        Practise procedures, limits and decisions from memory, a few minutes a day, until they are there on the day of
        your check. Everything stays on this device.
      </p>
      <h2>Before you begin</h2>
      <ul class="lines">
        {CAUTIONS.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </Sheet>
  );
}
