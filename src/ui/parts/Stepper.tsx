/** A number by two buttons: for the thumb, and for those who cannot drag. */
export function Stepper(props: {
  readonly label: string;
  readonly unit: string;
  readonly value: number;
  readonly least: number;
  readonly most: number;
  readonly step: number;
  readonly onChange: (value: number) => void;
}) {
  const { label, unit, value, least, most, step } = props;
  const put = (next: number) => props.onChange(Math.min(most, Math.max(least, next)));
  return (
    <fieldset class="row spread">
      <legend class="hidden-visually">{label}</legend>
      <span aria-hidden="true">{label}</span>
      <span class="row">
        <button
          type="button"
          aria-label={`Fewer: ${label}`}
          disabled={value <= least}
          onClick={() => put(value - step)}
        >
          −
        </button>
        <output class="number stepper-value">
          {value} {unit}
        </output>
        <button type="button" aria-label={`More: ${label}`} disabled={value >= most} onClick={() => put(value + step)}>
          +
        </button>
      </span>
    </fieldset>
  );
}
