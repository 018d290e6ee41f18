import type { ChipFinding, Choice, WordsDetail, WordsGiven } from '../../model/form.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { crewLabel } from '../run/extras.ts';
import { foldWords } from './fold.ts';
import { type Matched, matchWords } from './match.ts';
import type { Said } from './said.ts';

/** What was shown, as far as words and seats are marked by it. */
interface Asked {
  readonly choices: readonly Choice[];
  readonly seats: readonly Choice[];
}

export interface RightWords {
  /** Of the choices the right one. */
  readonly id: string;
  /** Values of the day filled in. */
  readonly text: string;
  readonly also: readonly string[];
  /** Who says it; undefined where nobody is named. */
  readonly by: string | undefined;
}

export interface WordsMarked {
  readonly wordsRight: boolean;
  /** True where it was not asked. */
  readonly seatRight: boolean;
  readonly detail: Pick<WordsDetail, 'given' | 'wordsRight' | 'seat' | 'note'>;
}

/**
 * @param given null: Don't know
 * @param said all that is said in the deck
 */
export function markWords(
  resolved: Resolved,
  { choices, seats }: Asked,
  right: RightWords,
  given: WordsGiven | null,
  said: readonly Said[],
  fill: (text: string) => string,
): WordsMarked {
  if (given === null) return { wordsRight: false, seatRight: false, detail: { given: '', wordsRight: false } };
  const isPicked = 'choice' in given;
  const text = isPicked ? (choices.find(({ id }) => id === given.choice)?.text ?? '') : given.said;
  const others = new Map(said.map((one) => [fill(one.text), one]));
  const matched = matchWords(text, right.text, right.also, [...others.keys()], wordsDone(resolved));
  const wordsRight = isPicked ? given.choice === right.id : matched.right;
  const seatRight = seats.length === 0 || given.by === right.by;
  const labelOf = (id: string | undefined): string => (id === undefined ? '' : crewLabel(resolved, id));
  const note = wordsRight
    ? matched.misspelt.length > 0 && !isPicked
      ? `Spelled otherwise: ${quotedList(matched.misspelt)}`
      : undefined
    : wrongNote(resolved, matched, right.text, matched.other === undefined ? undefined : others.get(matched.other));
  return {
    wordsRight,
    seatRight,
    detail: {
      given: text,
      wordsRight,
      ...(seats.length > 0 && {
        seat: { given: labelOf(given.by), right: labelOf(right.by), isRight: seatRight },
      }),
      ...(note !== undefined && { note }),
    },
  };
}

/** A gain of speed alone. */
const done = new WeakMap<Resolved, ReadonlySet<string>>();

/** Words of what is done in the deck: "Lever" is no misspelt "Level". */
function wordsDone(resolved: Resolved): ReadonlySet<string> {
  const before = done.get(resolved);
  if (before !== undefined) return before;
  const texts = resolved.views.flatMap(({ procedures }) =>
    procedures.flatMap(({ situations }) => situations.flatMap(({ steps }) => steps.map(({ step }) => step.do ?? ''))),
  );
  const words = new Set([...new Set(texts)].flatMap((text) => foldWords(text).raw.map(({ key }) => key)));
  done.set(resolved, words);
  return words;
}

const quotedList = (words: readonly string[]): string => words.map((word) => `“${word}”`).join(', ');

/** Whose words they are; else which are missing and which do not belong. Nothing where none of it fits. */
function wrongNote(
  resolved: Resolved,
  { missing, extra }: Matched,
  right: string,
  other: Said | undefined,
): string | undefined {
  if (other !== undefined) {
    const by = other.by === undefined ? '' : ` by ${crewLabel(resolved, other.by)}`;
    const { title } = other.p.procedure;
    return other.step === undefined ? `That calls for: ${title}` : `That is said in ${title}${by}`;
  }
  if (missing.length >= foldWords(right).words.length) return undefined;
  const parts = [
    ...(missing.length > 0 ? [`missing: ${quotedList(missing)}`] : []),
    ...(extra.length > 0 ? [`not part of it: ${quotedList(extra)}`] : []),
  ];
  const said = parts.join('; ');
  return said === '' ? undefined : `${said.slice(0, 1).toUpperCase()}${said.slice(1)}`;
}

/** The words as they close a verdict: in quotation marks, with all that was hidden. */
export const saidFinding = (finding: ChipFinding, text: string): ChipFinding => ({ ...finding, text: `“${text}”` });
