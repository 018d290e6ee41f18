import type { WalkLine } from '../../drill/walk.ts';

/** What a learner hides in order to guess it: of a procedure its steps or all the rest, of limits and rules the answers. */
export type Hides = 'steps' | 'rest' | 'answers';

export interface Guess {
  /** Absent: all is shown. */
  readonly hides?: Hides;
  /** Ids of lines that were looked at. */
  readonly shown: ReadonlySet<string>;
  readonly onShow: (id: string) => void;
}

/** Does hiding take anything off the line that could be guessed? */
export const hasHidden = (hides: Hides, line: WalkLine): boolean => {
  switch (hides) {
    case 'steps':
      return line.answers.length === 0;
    case 'rest':
      return [line.by, line.cue, line.wait, line.value].some((text) => text !== undefined);
    case 'answers':
      return line.answers.length > 0;
  }
};

/** Lies over the whole line: a thumb that hits it anywhere shows it, and hides it again. */
export function Veil(props: { readonly guess: Guess; readonly line: WalkLine; readonly number: number }) {
  const { guess, line, number } = props;
  const shown = guess.shown.has(line.id);
  const name = guess.hides === 'steps' ? `step ${number}` : line.text;
  return (
    <button type="button" class="plain veil" aria-expanded={shown} onClick={() => guess.onShow(line.id)}>
      <span aria-hidden="true">{shown ? (guess.hides === 'answers' ? '' : 'Hide') : 'Show'}</span>
      <span class="hidden-visually">
        {shown ? 'Hide' : 'Show'} {name}
      </span>
    </button>
  );
}

/** What was shown last, for those who do not see it come up. */
export const guessedWords = (hides: Hides, line: WalkLine): string => {
  const { by, cue, wait, text, value, answers } = line;
  const parts =
    hides === 'steps'
      ? [text, value]
      : hides === 'rest'
        ? [by, cue && `cue ${cue}`, wait && `wait ${wait}`, value]
        : answers.map(({ given, answer }) => (given === '' ? answer : `${given}: ${answer}`));
  return parts.filter((one) => one !== undefined && one !== '').join(', ');
};

const CHOICES = [
  [undefined, 'Nothing'],
  ['steps', 'Steps'],
  ['rest', 'Cues, numbers'],
] as const satisfies readonly (readonly [Hides | undefined, string])[];

/** What of a procedure is hidden. */
export function GuessChoice(props: {
  readonly hides: Hides | undefined;
  readonly onHide: (hides: Hides | undefined) => void;
}) {
  return (
    <fieldset class="stack">
      <legend>
        <strong>What to hide</strong>
        <span class="small soft"> Guess it, then tap its line. Nothing is counted.</span>
      </legend>
      <div class="row thirds guess-choice">
        {CHOICES.map(([hides, words]) => (
          <button type="button" key={words} aria-pressed={props.hides === hides} onClick={() => props.onHide(hides)}>
            {words}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
