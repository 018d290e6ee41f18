import { useState } from 'preact/hooks';
import type { RunShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Intro } from '../answer/Intro.tsx';
import type { QuestionProps } from '../contract.ts';
import { toggle } from './arrange.ts';
import { Done } from './Done.tsx';

/** Steps that stay where they are and get their number in the margin, like a paper list. */
export function RunQuestion(props: QuestionProps<RunShown>) {
  const { shown, draft, disabled, onDraft } = props;
  const [said, setSaid] = useState('');
  const order = draft.order ?? [];
  const tap = ({ id, text }: RunShown['chips'][number]) => {
    const next = toggle(order, id);
    onDraft({ ...draft, order: next });
    setSaid(next.includes(id) ? `${next.length}: ${text}` : `Taken back: ${text}`);
  };
  return (
    <>
      <Intro title={shown.title} scene={shown.scene} />
      <ul class="run">
        <Done texts={shown.before} />
        {shown.chips.map((chip) => {
          const at = order.indexOf(chip.id);
          return (
            <li key={chip.id} data-step={chip.id}>
              <button
                type="button"
                class="run-row"
                aria-pressed={at >= 0}
                disabled={disabled}
                onClick={() => tap(chip)}
              >
                <span class="margin number">{at >= 0 ? at + 1 : ''}</span>
                <span>
                  <Text text={chip.text} />
                </span>
              </button>
            </li>
          );
        })}
      </ul>
      <p class="hidden-visually" aria-live="polite">
        {said}
      </p>
    </>
  );
}
