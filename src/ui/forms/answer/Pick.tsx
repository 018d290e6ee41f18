import type { ComponentChildren } from 'preact';
import type { Choice, NextDetail } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';
import { Place, Step } from '../run/Told.tsx';
import { Choices } from './Choices.tsx';
import { Scene } from './Scene.tsx';
import { WasAsked } from './WasAsked.tsx';

interface Picked {
  readonly title: string;
  readonly scene: readonly string[];
  readonly ask: string;
  readonly choices: readonly Choice[];
}

/** What a question is about, set in like a quotation. */
export function About(props: { readonly text: string }) {
  return (
    <blockquote class="about" dir="auto">
      <Text text={props.text} />
    </blockquote>
  );
}

/** One of several in a procedure: the children stand between the scene and the choices. */
export function Pick(
  props: Omit<QuestionProps, 'shown'> & { readonly shown: Picked; readonly children: ComponentChildren },
) {
  const { shown, draft, disabled, onDraft } = props;
  return (
    <>
      <h2 class="asked">{shown.title}</h2>
      <Scene lines={shown.scene} />
      {props.children}
      <p>
        <strong>{shown.ask}</strong>
      </p>
      <Choices
        label={shown.ask}
        choices={shown.choices}
        chosen={draft.choice}
        disabled={disabled}
        onChosen={(choice) => onDraft({ ...draft, choice })}
      />
    </>
  );
}

/** What was chosen and why it is not that; the step with all that was hidden; then what was asked. */
export function PickVerdict(
  props: Omit<VerdictProps, 'shown'> & {
    readonly shown: Omit<Picked, 'choices'> & { readonly before?: readonly string[] };
    /** What it was about. */
    readonly about?: string;
    /** What stands above the right answer where another was given. */
    readonly right: string;
    /** Is the right step opened even where it was known? */
    readonly open?: boolean;
  },
) {
  const { shown, told, about } = props;
  const { right, wrong } = told.marked.detail as NextDetail;
  const isRight = told.given !== null && wrong === undefined;
  return (
    <>
      {wrong !== undefined && (
        <p class="given-answer">
          <span aria-hidden="true">✗ </span>
          You chose{' '}
          <s>
            <Text text={wrong.text} />
          </s>
          {wrong.state === 'stranger' && ': does not belong'}
          <Place chip={wrong} />
          {wrong.note !== undefined && (
            <>
              . <Text text={wrong.note} />
            </>
          )}
        </p>
      )}
      {!isRight && <p class="small soft">{props.right}</p>}
      <ul class="walk walk-told">
        <li>
          <span class="who number">{right.by ?? (isRight ? '✓' : '')}</span>
          <Step chip={right} open={props.open === true || !isRight} />
        </li>
      </ul>
      <WasAsked {...shown}>{about !== undefined && <About text={about} />}</WasAsked>
    </>
  );
}
