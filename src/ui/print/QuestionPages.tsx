import { letter, type PrintQuestion } from '../../drill/print/questions.ts';
import { Text } from '../parts/Text.tsx';

interface Props {
  readonly questions: readonly PrintQuestion[];
  readonly nature: string;
  /** Deck, version and content, so that both pages can be put together again. */
  readonly about: string;
}

/** To be answered in writing. */
export function Questions({ questions, about, nature }: Props) {
  return (
    <section class="stack sheet-page">
      <h2>Questions</h2>
      <p class="small">
        <span class="mark">{nature}</span> {about}
      </p>
      <ol class="asks">
        {questions.map((question, i) => (
          <li key={`${i} ${question.ask}`}>
            {question.title !== '' && <p class="what">{question.title}</p>}
            {question.scene.map((line) => (
              <p class="small" key={line}>
                <Text text={line} />
              </p>
            ))}
            <p>
              <Text text={question.ask} />
            </p>
            {question.fields.map((field) => (
              <p key={field}>{field}</p>
            ))}
            {question.choices.map((choice, k) => (
              <p key={choice}>
                {letter(k)} <Text text={choice} />
              </p>
            ))}
          </li>
        ))}
      </ol>
    </section>
  );
}

export function Answers({ questions, about, nature }: Props) {
  return (
    <section class="stack sheet-page">
      <h2>Answers</h2>
      <p class="small">
        <span class="mark">{nature}</span> {about}
      </p>
      <ol class="asks">
        {questions.map((question, i) => (
          <li key={`${i} ${question.ask}`}>
            <p class="what">
              <Text text={question.answer} />
            </p>
            {question.notes.map((note) => (
              <p class="small" key={note}>
                <Text text={note} />
              </p>
            ))}
          </li>
        ))}
      </ol>
    </section>
  );
}
