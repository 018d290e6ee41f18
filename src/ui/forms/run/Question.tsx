import { useState } from 'preact/hooks';
import type { RunShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Scene } from '../answer/Scene.tsx';
import type { QuestionProps } from '../contract.ts';
import { Arrange } from './Arrange.tsx';
import { move, type Order, toggle } from './arrange.ts';
import { Done } from './Done.tsx';

/** Steps that stay where they are and get their number in the margin, like a paper list. */
export function RunQuestion(props: QuestionProps<RunShown>) {
  const { shown, draft, disabled, onDraft } = props;
  const [moving, setMoving] = useState(false);
  /** What Clear all took away, until something is numbered again. */
  const [cleared, setCleared] = useState<Order>([]);
  const [said, setSaid] = useState('');
  const order = draft.order ?? [];
  const put = (next: Order, words: string, gone: Order = []) => {
    onDraft({ ...draft, order: next });
    setCleared(gone);
    setSaid(words);
  };
  const textOf = (id: string) => shown.chips.find((chip) => chip.id === id)?.text ?? '';
  const tap = (id: string) => {
    const next = toggle(order, id);
    put(next, next.includes(id) ? `${next.length}: ${textOf(id)}` : `Taken back: ${textOf(id)}`);
  };
  const restore = order.length === 0 && cleared.length > 0;
  const arranging = moving && order.length > 1;
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      <Scene lines={shown.scene} />
      <p class="small soft">
        {arranging
          ? 'Move a step with the arrows, or drag its number.'
          : 'Tap in the order they are done. Leave out what does not belong.'}
      </p>
      {arranging ? (
        <Arrange
          order={order}
          textOf={textOf}
          disabled={disabled}
          onMove={(id, to) => {
            const next = move(order, id, to);
            put(next, `${next.indexOf(id) + 1}: ${textOf(id)}`);
          }}
        />
      ) : (
        <ul class="run">
          <Done texts={shown.before} />
          {shown.chips.map(({ id, text }) => {
            const at = order.indexOf(id);
            return (
              <li key={id} data-step={id}>
                <button
                  type="button"
                  class="run-row"
                  aria-pressed={at >= 0}
                  disabled={disabled}
                  onClick={() => tap(id)}
                >
                  <span class="margin number">{at >= 0 ? at + 1 : ''}</span>
                  <span>
                    <Text text={text} />
                  </span>
                </button>
              </li>
            );
          })}
        </ul>
      )}
      <div class="row run-tools">
        <button
          type="button"
          disabled={disabled || order.length === 0}
          onClick={() => put(order.slice(0, -1), `Taken back: ${textOf(order.at(-1) ?? '')}`)}
        >
          Take back
        </button>
        <button
          type="button"
          disabled={disabled || (order.length === 0 && !restore)}
          onClick={() => (restore ? put(cleared, 'The numbers are back.') : put([], 'All numbers cleared.', order))}
        >
          {restore ? 'Undo clear' : 'Clear all'}
        </button>
        <button
          type="button"
          aria-pressed={arranging}
          disabled={disabled || order.length < 2}
          onClick={() => setMoving(!arranging)}
        >
          {arranging ? 'Done moving' : 'Move steps'}
        </button>
      </div>
      <p class="hidden-visually" aria-live="polite">
        {said}
      </p>
    </>
  );
}
