import type { ComponentChildren } from 'preact';
import { letter, type PrintQuestion } from '../../drill/print/questions.ts';
import { Text } from '../parts/Text.tsx';

interface Props {
  readonly questions: readonly PrintQuestion[];
  readonly nature: string;
  /** Deck, version and content, so that both pages can be put together again. */
  readonly about: string;
}

function Page(
  props: Props & { readonly title: string; readonly each: (question: PrintQuestion) => ComponentChildren },
) {
  const { questions, about, nature, title, each } = props;
  return (
    <section class="stack sheet-page">
      <h2>{title}</h2>
      <p class="small">
        <span class="mark">{nature}</span> {about}
      </p>
      <ol class="asks">
        {questions.map((question, i) => (
          <li key={`${i} ${question.ask}`}>{each(question)}</li>
        ))}
      </ol>
    </section>
  );
}

const small = (lines: readonly string[]): ComponentChildren =>
  lines.map((line) => (
    <p class="small" key={line}>
      <Text text={line} />
    </p>
  ));

/** To be answered in writing. */
export function Questions(props: Props) {
  return (
    <Page
      {...props}
      title="Questions"
      each={({ title, scene, ask, fields, choices }) => (
        <>
          {title !== '' && <p class="what">{title}</p>}
          {small(scene)}
          <p>
            <Text text={ask} />
          </p>
          {fields.map((field) => (
            <p key={field}>{field}</p>
          ))}
          {choices.map((choice, k) => (
            <p key={choice}>
              {letter(k)} <Text text={choice} />
            </p>
          ))}
        </>
      )}
    />
  );
}

export function Answers(props: Props) {
  return (
    <Page
      {...props}
      title="Answers"
      each={({ answer, notes }) => (
        <>
          <p class="what">
            <Text text={answer} />
          </p>
          {small(notes)}
        </>
      )}
    />
  );
}
