import { useLayoutEffect, useRef } from 'preact/hooks';
import { Text } from '../../parts/Text.tsx';
import { move, type Order } from './arrange.ts';
import { useDrag } from './drag.ts';

/** The numbered steps in the order of their numbers: here a row goes where it is moved. */
export function Arrange(props: {
  readonly order: Order;
  readonly textOf: (id: string) => string;
  readonly disabled: boolean;
  /** @param to place from 0 */
  readonly onMove: (id: string, to: number) => void;
}) {
  const { order, textOf, disabled, onMove } = props;
  const list = useRef<HTMLOListElement>(null);
  const pressed = useRef<{ readonly id: string; readonly way: string } | null>(null);
  const drag = useDrag(list, disabled, onMove);
  const rows = drag.now === null ? order : move(order, drag.now.id, drag.now.to);
  // A row that is put elsewhere in the document loses the focus.
  useLayoutEffect(() => {
    const { id, way } = pressed.current ?? {};
    pressed.current = null;
    if (id === undefined) return;
    list.current?.querySelector<HTMLElement>(`[data-step="${CSS.escape(id)}"] [data-way=${way}]`)?.focus();
  });
  const shift = (id: string, to: number, way: string) => {
    if (to < 0 || to >= order.length) return;
    pressed.current = { id, way };
    onMove(id, to);
  };
  return (
    <ol class="run" ref={list} {...drag.list}>
      {rows.map((id, at) => (
        <li key={id} data-step={id} class={drag.now?.id === id ? 'run-held' : 'run-moving'}>
          <span class="margin number" {...drag.handle(id)}>
            {at + 1}
          </span>
          <span class="run-text">
            <Text text={textOf(id)} />
          </span>
          <Shift
            id={id}
            way="up"
            name={`Earlier: ${textOf(id)}`}
            end={at === 0}
            disabled={disabled}
            onShift={shift}
            at={at}
          />
          <Shift
            id={id}
            way="down"
            name={`Later: ${textOf(id)}`}
            end={at === order.length - 1}
            disabled={disabled}
            onShift={shift}
            at={at}
          />
        </li>
      ))}
    </ol>
  );
}

/** At an end it stays a button, so that the keyboard does not lose its place. */
function Shift(props: {
  readonly id: string;
  readonly way: 'up' | 'down';
  readonly name: string;
  readonly at: number;
  readonly end: boolean;
  readonly disabled: boolean;
  readonly onShift: (id: string, to: number, way: string) => void;
}) {
  const { id, way, name, at, end, disabled, onShift } = props;
  return (
    <button
      type="button"
      class="run-shift"
      data-way={way}
      aria-label={name}
      aria-disabled={end}
      disabled={disabled}
      onClick={() => onShift(id, way === 'up' ? at - 1 : at + 1, way)}
    >
      {way === 'up' ? '▲' : '▼'}
    </button>
  );
}
