import { useLayoutEffect, useRef } from 'preact/hooks';
import type { Change } from '../../../draft/change.ts';
import { eitherOrder, freeOrder, holdOrder, type Neighbours, togetherSteps } from '../../../draft/order.ts';
import { type OrderQuestion, orderQuestions } from '../../../draft/questions.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { plural } from '../../words.ts';
import { useFlown } from './flown.ts';
import type { LineModel } from './line-model.ts';

/** Kept beside the draft: nobody is asked twice. */
const PASSED_OVER = 'orders-passed-over';
const nameOf = ({ first, second }: Neighbours): string => `${first} ${second}`;

/** Asks the author, neighbour by neighbour, whether an order that nothing asks for must hold. */
export function OrderQuestions(props: { readonly line: LineModel; readonly index: number }) {
  const { line, index } = props;
  const { draft, procedure } = line;
  const looked = useFlown(draft, index, (flown, doc) => orderQuestions(doc, procedure, flown));
  const kept = draft.side.value[PASSED_OVER];
  const skipped: readonly unknown[] = Array.isArray(kept) ? kept : [];
  const heading = useRef<HTMLParagraphElement>(null);
  const answered = useRef(false);
  const all = looked?.found ?? [];
  const left = all.filter((one) => !skipped.includes(nameOf(one)));
  const one = left[0];
  const name = one === undefined ? '' : nameOf(one);
  // What was pressed is gone: the next question is where one goes on.
  useLayoutEffect(() => {
    if (!answered.current) return;
    answered.current = false;
    heading.current?.focus();
  }, [name]);
  if (looked === null) return <p class="soft">Looking at the order …</p>;
  if (looked.found === null)
    return <p class="soft">Asked when the steps are written so far that they have an order.</p>;
  const next = () => {
    answered.current = true;
  };
  return (
    <div class="stack" data-questions={left.length}>
      <p tabIndex={-1} ref={heading}>
        {one === undefined ? 'Every order has a reason, or was settled.' : `${plural(left.length, 'question')} left.`}
        {all.length > left.length && ` ${all.length - left.length} passed over.`}
      </p>
      {one !== undefined && (
        <Question
          // Of a draft that was left behind nothing is answered.
          doc={looked.doc === draft.value.value ? looked.doc : null}
          line={line}
          question={one}
          onAnswer={next}
          onSkip={() => {
            next();
            draft.putSide(PASSED_OVER, [...skipped, name]);
          }}
        />
      )}
      {all.length > left.length && (
        <div class="row">
          <button
            type="button"
            class="plain"
            onClick={() =>
              draft.putSide(
                PASSED_OVER,
                skipped.filter((other) => !all.some((one) => nameOf(one) === other)),
              )
            }
          >
            Ask those passed over
          </button>
        </div>
      )}
    </div>
  );
}

interface Answer {
  readonly words: string;
  readonly label: string;
  readonly make: (doc: Json, procedure: string, pair: Neighbours) => Change[];
}
const ANSWERS: readonly Answer[] = [
  { words: 'Yes, in this order', label: 'Order holds', make: holdOrder },
  { words: 'Either order', label: 'Either order', make: eitherOrder },
  { words: 'Any time beside the whole group before it', label: 'Any order', make: freeOrder },
  { words: 'Together', label: 'Together', make: togetherSteps },
];

function Question(props: {
  readonly doc: Json | null;
  readonly line: LineModel;
  readonly question: OrderQuestion;
  readonly onAnswer: () => void;
  readonly onSkip: () => void;
}) {
  const { doc, line, question, onAnswer, onSkip } = props;
  const [first, second] = question.texts;
  const able = doc === null ? [] : ANSWERS.filter(({ make }) => make(doc, line.procedure, question).length > 0);
  return (
    <>
      <p>Must the second wait for the first?</p>
      <ol class="asked-order">
        <li>
          <strong>{first}</strong>
        </li>
        <li>
          <strong>{second}</strong>
        </li>
      </ol>
      <fieldset class="row" aria-label="Answers" aria-busy={doc === null}>
        {able.map(({ words, label, make }) => (
          <button
            key={label}
            type="button"
            data-answer={label}
            onClick={() => {
              const now = line.draft.value.peek();
              const changes = make(now, line.procedure, question);
              if (changes.length === 0) return;
              onAnswer();
              line.draft.change(label, changes);
              line.said.value = `${label}: ${first}; ${second}`;
            }}
          >
            {words}
          </button>
        ))}
        <button type="button" class="plain" onClick={onSkip}>
          Pass over
        </button>
      </fieldset>
      {doc !== null && able.length < 2 && (
        <p class="small soft">
          Another order cannot be said from here: what stands before or behind belongs to another procedure. Rearrange
          the steps in the line above.
        </p>
      )}
    </>
  );
}
