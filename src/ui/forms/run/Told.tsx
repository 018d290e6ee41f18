import type { ChipFinding } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';

/** In a partial order there is no one right place: only what it must come after and before. */
export function Place(props: { readonly chip: ChipFinding }) {
  const { after, before, state } = props.chip;
  if (state === 'stranger' || (after.length === 0 && before.length === 0)) return null;
  const list = (texts: readonly string[]) => texts.map((text) => `“${text.replace(/[“”]/g, '')}”`).join(' and ');
  return (
    <>
      : {state === 'omitted' ? 'comes' : 'must come'}
      {after.length > 0 && ` after ${list(after)}`}
      {after.length > 0 && before.length > 0 && ','}
      {before.length > 0 && ` before ${list(before)}`}
    </>
  );
}

/** One step with all that was hidden: opened where it went wrong, else behind a tap on its words. */
export function Step(props: { readonly chip: ChipFinding; readonly open: boolean }) {
  const { chip, open } = props;
  const lines: readonly (readonly [string, string | undefined])[] = [
    ['', chip.value],
    ['At: ', chip.cue],
    ['Wait: ', chip.wait],
    ['', chip.together ? 'Done together: any order is right.' : undefined],
    ['', chip.why],
    ['Usual slip: ', chip.slip],
    ['', chip.source],
  ];
  const more = lines.flatMap(([name, text]) => (text === undefined ? [] : [{ name, text }]));
  const words = <Text text={chip.text} />;
  if (more.length === 0) return <p class="what">{words}</p>;
  return (
    <details open={open}>
      <summary class="what">{words}</summary>
      {more.map(({ name, text }) => (
        <p key={name + text} class={`small ${text === chip.source ? 'soft' : ''}`}>
          {name !== '' && <span class="soft">{name}</span>}
          <Text text={text} />
        </p>
      ))}
    </details>
  );
}
