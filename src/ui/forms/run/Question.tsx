import { useState } from 'preact/hooks';
import type { RunShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Scene } from '../answer/Scene.tsx';
import type { QuestionProps } from '../contract.ts';
import { move, type Order, toggle } from './arrange.ts';
import { useDrag } from './drag.ts';

/** Steps that stay where they are and get their number in the margin, like a paper list. */
export function RunQuestion(props: QuestionProps<RunShown>) {
  const { shown, draft, disabled, onDraft } = props;
  const [changing, setChanging] = useState(false);
  const [said, setSaid] = useState('');
  const order = draft.order ?? [];
  const put = (next: Order, words: string) => {
    onDraft({ ...draft, order: next });
    setSaid(words);
  };
  const textOf = (id: string) => shown.chips.find((chip) => chip.id === id)?.text ?? '';
  const tap = (id: string) => {
    const next = toggle(order, id);
    put(next, next.includes(id) ? `${next.length}: ${textOf(id)}` : `Taken back: ${textOf(id)}`);
  };
  const shift = (id: string, to: number) => {
    const next = move(order, id, to);
    put(next, `${next.indexOf(id) + 1}: ${textOf(id)}`);
  };
  const drag = useDrag((id, onto) => {
    const to = order.indexOf(onto);
    if (order.includes(id) && to >= 0) shift(id, to);
  });
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      <Scene lines={shown.scene} />
      <p class="small soft">Tap in the order they are done. Leave out what does not belong.</p>
      <ul class="run">
        {shown.before.map((text, i) => (
          <li class="run-before" key={`${i} ${text}`}>
            <span class="margin" aria-hidden="true">
              ✓
            </span>
            <span class="soft">
              <span class="hidden-visually">Done already: </span>
              <Text text={text} />
            </span>
          </li>
        ))}
        {shown.chips.map(({ id, text }) => {
          const at = order.indexOf(id);
          const numbered = at >= 0;
          return (
            <li key={id} data-step={id} class={changing && numbered ? 'run-moving' : ''}>
              <button
                type="button"
                class="run-row"
                aria-pressed={numbered}
                disabled={disabled}
                onClick={() => tap(id)}
                {...(changing && numbered ? drag(id) : {})}
              >
                <span class="margin number">{numbered ? at + 1 : ''}</span>
                <span>
                  <Text text={text} />
                </span>
              </button>
              {changing && numbered && (
                <span class="run-shift">
                  <button
                    type="button"
                    aria-label={`Earlier: ${text}`}
                    disabled={disabled || at === 0}
                    onClick={() => shift(id, at - 1)}
                  >
                    ▲
                  </button>
                  <button
                    type="button"
                    aria-label={`Later: ${text}`}
                    disabled={disabled || at === order.length - 1}
                    onClick={() => shift(id, at + 1)}
                  >
                    ▼
                  </button>
                </span>
              )}
            </li>
          );
        })}
      </ul>
      <div class="row even">
        <button
          type="button"
          disabled={disabled || order.length === 0}
          onClick={() => put(order.slice(0, -1), `Taken back: ${textOf(order.at(-1) ?? '')}`)}
        >
          Take back
        </button>
        <button
          type="button"
          aria-pressed={changing}
          disabled={disabled || order.length < 2}
          onClick={() => setChanging(!changing)}
        >
          {changing ? 'Done moving' : 'Move steps'}
        </button>
      </div>
      <p class="hidden-visually" aria-live="polite">
        {said}
      </p>
    </>
  );
}
