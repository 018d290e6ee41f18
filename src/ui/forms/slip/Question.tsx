import { useState } from 'preact/hooks';
import type { SlipLine, SlipShown } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import { Scene } from '../answer/Scene.tsx';
import type { QuestionProps } from '../contract.ts';
import { Done } from '../run/Done.tsx';

/** The lines as another crew flies them; what is tapped gets a ring round its number, as on paper. */
export function SlipQuestion(props: QuestionProps<SlipShown>) {
  const { shown, draft, disabled, onDraft } = props;
  const [said, setSaid] = useState('');
  const named = draft.lines ?? [];
  const tap = (id: string, number: number) => {
    const isNamed = named.includes(id);
    const next = isNamed ? named.filter((one) => one !== id) : [...named, id];
    onDraft({ ...draft, lines: next });
    const count = next.length === 1 ? '1 line named' : `${next.length} lines named`;
    setSaid(`Line ${number} ${isNamed ? 'taken back' : 'named'}: ${count}.`);
  };
  return (
    <>
      <div class="intro">
        <h2 class="asked">
          <Text text={shown.title} />
        </h2>
        <Scene lines={shown.scene} />
        <p class="slip-ask">One or two slips are in it. Tap where you would speak up.</p>
      </div>
      <ul class="run slip">
        <Done texts={shown.before} />
        {shown.lines.map((line, i) => (
          <li key={line.id}>
            <button
              type="button"
              class="run-row"
              aria-pressed={named.includes(line.id)}
              disabled={disabled}
              onClick={() => tap(line.id, i + 1)}
            >
              <span class="margin number">
                <span class="ring">{i + 1}</span>
              </span>
              <span>
                <Flown line={line} />
              </span>
            </button>
          </li>
        ))}
      </ul>
      <p class="hidden-visually" aria-live="polite">
        {said}
      </p>
    </>
  );
}

/** Who does it, what it is, and its number. */
export function Flown(props: { readonly line: SlipLine }) {
  const { by, text, value } = props.line;
  return (
    <>
      {by !== undefined && (
        <>
          <span class="slip-by">{by}</span>{' '}
        </>
      )}
      <Text text={text} />
      {value !== undefined && (
        <span class="soft">
          {' · '}
          <Text text={value} />
        </span>
      )}
    </>
  );
}
