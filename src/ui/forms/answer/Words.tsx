import type { ComponentChildren } from 'preact';
import type { Choice, WordsDetail } from '../../../model/form.ts';
import { Text } from '../../parts/Text.tsx';
import type { QuestionProps, VerdictProps } from '../contract.ts';
import { Step } from '../run/Told.tsx';
import { Choices } from './Choices.tsx';
import { WasAsked } from './WasAsked.tsx';

interface Asked {
  readonly ask: string;
  readonly choices: readonly Choice[];
  readonly seats: readonly Choice[];
}

/** Words, typed or one of several; and the seat that says them, where that is asked. */
export function Words(props: Omit<QuestionProps, 'shown'> & { readonly shown: Asked }) {
  const { shown, draft, disabled, onDraft } = props;
  const { ask, choices, seats } = shown;
  return (
    <>
      <p>
        <strong>{ask}</strong>
      </p>
      {choices.length > 0 ? (
        <Choices
          label={ask}
          choices={choices}
          chosen={draft.choice}
          disabled={disabled}
          onChosen={(choice) => onDraft({ ...draft, choice })}
        />
      ) : (
        <form
          class="stack"
          onSubmit={(event) => {
            event.preventDefault();
            // It never answers. The keys of a phone go down, and what is left to say comes into sight.
            if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
          }}
        >
          <input
            class="said"
            type="text"
            aria-label={ask}
            dir="auto"
            autoCapitalize="none"
            autoComplete="off"
            autoCorrect="off"
            spellcheck={false}
            enterKeyHint="done"
            maxLength={MOST_LETTERS}
            value={draft.said ?? ''}
            disabled={disabled}
            onInput={({ currentTarget: { value } }) => onDraft({ ...draft, said: value })}
          />
          <button type="submit" class="hidden-visually" tabIndex={-1} aria-hidden="true">
            Done
          </button>
        </form>
      )}
      {seats.length > 0 && (
        <fieldset class="seats">
          <legend class="small soft">By</legend>
          {seats.map(({ id, text }) => (
            <label class="pick" key={id}>
              <input
                type="radio"
                name="seat"
                checked={draft.by === id}
                disabled={disabled}
                onChange={() => onDraft({ ...draft, by: id })}
              />
              <span dir="auto">{text}</span>
            </label>
          ))}
        </fieldset>
      )}
    </>
  );
}

/** Forty words and more: longer than any callout. */
const MOST_LETTERS = 500;

/** What was said and what is wrong with it, who was named; the right words with all that was hidden; then what was asked. */
export function WordsVerdict(props: {
  readonly told: VerdictProps['told'];
  readonly shown: Parameters<typeof WasAsked>[0];
  /** What stands above the right words, where others were given. */
  readonly right: string;
  /** How what was given is told: "You said". */
  readonly given: string;
  /** What else was seen with the question. */
  readonly children?: ComponentChildren;
}) {
  const { told } = props;
  const { given, wordsRight, seat, note, right } = told.marked.detail as WordsDetail;
  const isRight = told.given !== null && !told.marked.flawed;
  return (
    <>
      {told.given !== null && !wordsRight && (
        <p class="given-answer">
          <span aria-hidden="true">✗ </span>
          {props.given}{' '}
          <s dir="auto">
            <Text text={given} />
          </s>
          {note !== undefined && (
            <>
              {'. '}
              <Text text={note} />
            </>
          )}
        </p>
      )}
      {told.given !== null && seat !== undefined && !seat.isRight && (
        <p class="given-answer">
          <span aria-hidden="true">✗ </span>
          You named <s>{seat.given}</s>: it is {seat.right}
        </p>
      )}
      {told.given !== null && wordsRight && seat !== undefined && !seat.isRight && (
        <p class="small soft">✓ The words are right.</p>
      )}
      {told.given !== null && seat?.isRight && !wordsRight && <p class="small soft">✓ It is {seat.right}.</p>}
      {!isRight && <p class="small soft">{props.right}</p>}
      {wordsRight && note !== undefined && (
        <p class="small soft">
          <Text text={note} />
        </p>
      )}
      <ul class="walk walk-told">
        <li>
          <span class="who number">{right.by ?? (isRight ? '✓' : '')}</span>
          <Step chip={right} open />
        </li>
      </ul>
      <WasAsked {...props.shown}>{props.children}</WasAsked>
    </>
  );
}
