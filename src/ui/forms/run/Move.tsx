import { useState } from 'preact/hooks';
import type { RunShown } from '../../../model/form.ts';
import { Intro } from '../answer/Intro.tsx';
import type { QuestionProps } from '../contract.ts';
import { Arrange } from './Arrange.tsx';
import { move } from './arrange.ts';

/** The numbered steps alone, in the order of their numbers, to be moved. */
export function RunMove(props: QuestionProps<RunShown>) {
  const { shown, draft, disabled, onDraft } = props;
  const [said, setSaid] = useState('');
  const order = draft.order ?? [];
  const textOf = (id: string) => shown.chips.find((chip) => chip.id === id)?.text ?? '';
  return (
    <>
      <Intro title={shown.title} scene={shown.scene} />
      <Arrange
        order={order}
        textOf={textOf}
        disabled={disabled}
        onMove={(id, to) => {
          const next = move(order, id, to);
          onDraft({ ...draft, order: next });
          setSaid(`${next.indexOf(id) + 1}: ${textOf(id)}`);
        }}
      />
      <p class="hidden-visually" aria-live="polite">
        {said}
      </p>
    </>
  );
}
