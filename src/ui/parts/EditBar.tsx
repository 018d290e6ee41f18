import { useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { QuestionProps } from '../forms/contract.ts';

/** What puts right what was tapped, in the place of the answers: as high as they are, so that nothing moves. */
export function EditBar(
  props: QuestionProps & {
    readonly moving: boolean;
    readonly onMoving: (on: boolean) => void;
    readonly onDone: () => void;
  },
) {
  const { draft, disabled, moving } = props;
  /** What Clear took away, until something is numbered again. */
  const [cleared, setCleared] = useState<readonly string[]>([]);
  const [said, setSaid] = useState('');
  const done = useRef<HTMLButtonElement>(null);
  // The button that had the focus made room for this bar.
  useLayoutEffect(() => done.current?.focus({ preventScroll: true }), []);
  const order = draft.order ?? [];
  const put = (next: readonly string[], words: string, gone: readonly string[] = []) => {
    props.onDraft({ ...draft, order: next });
    setCleared(gone);
    setSaid(words);
  };
  const restore = order.length === 0 && cleared.length > 0;
  return (
    <div class="bar">
      <p class="hint small soft">
        {moving ? 'Use the arrows, or drag a number.' : 'Tap a step again to take its number back.'}
      </p>
      <div class="row even thirds">
        <button
          type="button"
          disabled={disabled || order.length === 0}
          onClick={() => put(order.slice(0, -1), `Taken back: number ${order.length}.`)}
        >
          Take back
        </button>
        <button
          type="button"
          disabled={disabled || (order.length === 0 && !restore)}
          onClick={() => (restore ? put(cleared, 'The numbers are back.') : put([], 'All numbers cleared.', order))}
        >
          {restore ? 'Undo' : 'Clear'}
        </button>
        <button
          type="button"
          aria-pressed={moving}
          disabled={disabled || order.length < 2}
          onClick={() => props.onMoving(!moving)}
        >
          Move
        </button>
        <button type="button" class="main" ref={done} onClick={props.onDone}>
          Done
        </button>
      </div>
      <p class="hidden-visually" aria-live="polite">
        {said}
      </p>
    </div>
  );
}
