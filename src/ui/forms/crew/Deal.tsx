import { useId } from 'preact/hooks';
import type { Choice } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';

/** Rows, each to one of the seats: its seats stand in a line, beside its words where there is room, else below them. */
export function Deal(props: {
  readonly rows: readonly Choice[];
  readonly seats: readonly Choice[];
  /** Row id → seat id. */
  readonly deal: Readonly<Record<string, string>>;
  readonly disabled: boolean;
  readonly onDeal: (deal: Readonly<Record<string, string>>) => void;
}) {
  const { rows, seats, deal, disabled, onDeal } = props;
  const id = useId();
  const left = rows.filter((row) => !seats.some((seat) => seat.id === deal[row.id])).length;
  return (
    <>
      <ul class="deal">
        {rows.map((row) => (
          <li key={row.id} data-row={row.id}>
            <span id={`${id}-${row.id}`} class="deal-text" dir="auto">
              <Text text={row.text} />
            </span>
            <div class="deal-seats" role="radiogroup" aria-labelledby={`${id}-${row.id}`}>
              {seats.map((seat) => (
                <label class="seat" key={seat.id}>
                  <input
                    type="radio"
                    name={`${id}-${row.id}`}
                    checked={deal[row.id] === seat.id}
                    disabled={disabled}
                    onChange={() => onDeal({ ...deal, [row.id]: seat.id })}
                  />
                  <span>
                    <Text text={seat.text} />
                  </span>
                </label>
              ))}
            </div>
          </li>
        ))}
      </ul>
      <p class="hidden-visually" aria-live="polite">
        {saidOf(left, rows.length)}
      </p>
    </>
  );
}

/** Nothing before the first row is dealt: a page that comes up has said enough. */
const saidOf = (left: number, all: number): string => {
  if (left === all) return '';
  return left === 0 ? 'None left.' : `${left} left.`;
};
