import { type Folded, foldRaw, foldWords, forgivingWords, LETTERS_LEAST, type Word } from './fold.ts';
import { isNumberWord } from './numbers.ts';
import { isMisspelt } from './spelling.ts';

export interface Matched {
  readonly right: boolean;
  /** Words with one wrong letter, forgiven, as they were written. */
  readonly misspelt: readonly string[];
  /** Words of the nearest right wording that were not said, in order. */
  readonly missing: readonly string[];
  /** Words that were said and do not belong. */
  readonly extra: readonly string[];
  /** The other one that was said instead, as it is authored. */
  readonly other?: string;
}

/** Longer texts are cut: nobody says as much, and looking through it must end. */
const MOST_LETTERS = 1000;
const MOST_WORDS = 120;

const NONE: ReadonlySet<string> = new Set();

/**
 * Are these the words? Forgiven: case, punctuation, accents, spacing and hyphens, digits against number words, British
 * against American spelling, and one misspelt letter in a word of five letters or more, unless what was written is a
 * word of another text or another number. Else the wording is exact.
 * @param also other wordings that are right
 * @param others texts that are something else: being one of them is wrong, however near
 * @param words folded, such as those of actions: none of them is a misspelling, unless of its own singular or past
 */
export function matchWords(
  said: string,
  right: string,
  also: readonly string[],
  others: readonly string[],
  words: ReadonlySet<string> = NONE,
): Matched {
  const given = foldWords(said.slice(0, MOST_LETTERS));
  const texts = [right, ...also].flatMap(spelledOut);
  const wordings = texts.map(foldWords);
  if (texts.some((text) => isSame(given, foldWords(text), said, text))) return RIGHT;
  const foreign = others.map((text) => ({ text, folded: foldWords(text) }));
  const strictly = foreign.find(({ text, folded }) => isSame(given, folded, said, text));
  const apart = foreign.filter(({ folded }) => !wordings.some((one) => areEqual(one, folded)));
  const found = wordings.map((wording) => compared(given, wording, apart, words));
  const best = found.reduce((a, b) => (cost(b) < cost(a) ? b : a));
  if (strictly !== undefined) return { ...best, right: false, other: strictly.text };
  if (best.right) return best;
  const near = apart.find(
    ({ folded }) => folded.whole !== '' && areEqual(corrected(given, folded, wordKeys(wordings)).folded, folded),
  );
  return near === undefined ? best : { ...best, other: near.text };
}

/** Letters as they are typed where a keyboard lacks them. */
const TYPED: Readonly<Record<string, string>> = { ä: 'ae', ö: 'oe', ü: 'ue', ø: 'oe', å: 'aa' };

/** The text, and with "ae" for "ä" and the like where it has any. */
const spelledOut = (text: string): readonly string[] => {
  const plain = text.normalize('NFC').toLowerCase();
  const other = plain.replace(/[äöüøå]/g, (letter) => TYPED[letter] as string);
  return other === plain ? [text] : [text, other];
};

const RIGHT: Matched = { right: true, misspelt: [], missing: [], extra: [] };

const cost = ({ right, missing, extra }: Matched): number => (right ? -1 : missing.length + extra.length);

const areEqual = (a: Folded, b: Folded): boolean => a.whole === b.whole || a.plain === b.plain;

/** Of texts without a letter the signs themselves count. */
const isSame = (a: Folded, b: Folded, textA: string, textB: string): boolean =>
  areEqual(a, b) && (a.whole !== '' || textA.trim() === textB.trim());

interface Foreign {
  readonly folded: Folded;
}

const wordKeys = (list: readonly Folded[]): ReadonlySet<string> =>
  new Set(list.flatMap(({ raw }) => raw.map(({ key }) => key)));

function compared(given: Folded, right: Folded, apart: readonly Foreign[], words: ReadonlySet<string>): Matched {
  const taken = new Set([
    ...wordKeys(apart.map((one) => one.folded)),
    ...[...words].filter((one) => !isForm(one, right)),
  ]);
  const { folded, misspelt } = corrected(given, right, taken);
  if (areEqual(folded, right) && right.whole !== '') return { ...RIGHT, misspelt };
  return { right: false, misspelt, ...differences(folded.words, right.words) };
}

/** "gauge" of "gauges", "secure" of "secured". */
const isForm = (word: string, { raw }: Folded): boolean =>
  raw.some(({ key }) => ['s', 'd'].some((end) => key === word + end || word === key + end));

/** Each word that is one letter from one of the right ones taken for it. @param taken words that mean something else */
function corrected(given: Folded, right: Folded, taken: ReadonlySet<string>): { folded: Folded; misspelt: string[] } {
  const own = wordKeys([right]);
  const forgiving = [
    ...forgivingWords(right).map((key) => ({ key, as: key })),
    // Before one spelling was made of two: of "stabilse" the wrong letter hides the ending by which it is known.
    ...right.raw
      .map(({ key, written }) => ({ key, as: written.toLowerCase() }))
      .filter(({ key, as }) => key !== as && as.length >= LETTERS_LEAST && /^[a-z]+$/.test(as)),
  ];
  const misspelt: string[] = [];
  const raw = given.raw.map((word): Word => {
    const { key, written } = word;
    if (own.has(key) || taken.has(key) || /^\d/.test(key) || isNumberWord(key)) return word;
    const small = written.toLowerCase();
    const meant = forgiving.find(({ as }) => isMisspelt(key, as) || isMisspelt(small, as));
    if (meant === undefined) return word;
    misspelt.push(written);
    return { key: meant.key, written };
  });
  return { folded: misspelt.length === 0 ? given : foldRaw(raw), misspelt };
}

/** So many words may be written as one, or one as so many. */
const JOINED = 3;

/** Fewest words to leave out and to put in, of two lists that are not the same. */
function differences(said: readonly Word[], right: readonly Word[]): Pick<Matched, 'missing' | 'extra'> {
  const [a, b] = [said.slice(0, MOST_WORDS), right.slice(0, MOST_WORDS)];
  const joined = (list: readonly Word[], from: number, size: number): string =>
    list
      .slice(from, from + size)
      .map(({ key }) => key)
      .join('');
  // least[i][j]: of what comes from i and j on.
  const least = [...Array(a.length + 1)].map(() => new Array<number>(b.length + 1).fill(0));
  const at = (i: number, j: number): number => least[i]?.[j] ?? Number.POSITIVE_INFINITY;
  const alike = (i: number, j: number): readonly [number, number] | null => {
    let best: readonly [number, number] | null = null;
    for (let x = 1; x <= JOINED && i + x <= a.length; x++)
      for (let y = 1; y <= JOINED && j + y <= b.length; y++)
        if (joined(a, i, x) === joined(b, j, y) && (best === null || at(i + x, j + y) < at(i + best[0], j + best[1])))
          best = [x, y];
    return best;
  };
  const steps = new Map<number, readonly [number, number]>();
  for (let i = a.length; i >= 0; i--)
    for (let j = b.length; j >= 0; j--) {
      if (i === a.length && j === b.length) continue;
      const same = alike(i, j);
      const ways: (readonly [number, readonly [number, number]])[] = [
        ...(same === null ? [] : [[at(i + same[0], j + same[1]), same] as const]),
        [at(i + 1, j) + 1, [1, 0] as const],
        [at(i, j + 1) + 1, [0, 1] as const],
      ];
      const [sum, step] = ways.reduce((one, two) => (two[0] < one[0] ? two : one));
      (least[i] as number[])[j] = sum;
      steps.set(i * (b.length + 1) + j, step);
    }
  const missing: string[] = [];
  const extra: string[] = [];
  for (let i = 0, j = 0; i < a.length || j < b.length; ) {
    const [x, y] = steps.get(i * (b.length + 1) + j) as readonly [number, number];
    if (y === 0) extra.push((a[i] as Word).written);
    if (x === 0) missing.push((b[j] as Word).written);
    i += x;
    j += y;
  }
  return { missing, extra };
}

/** As `matchWords` where nothing else is said, without the words that differ: of long texts those take most time. */
const isTaken = (said: string, right: string): boolean => {
  const [given, wording] = [foldWords(said.slice(0, MOST_LETTERS)), foldWords(right)];
  if (isSame(given, wording, said, right)) return true;
  return wording.whole !== '' && areEqual(corrected(given, wording, NONE).folded, wording);
};

/** Are two texts taken for the same words, one way or the other? */
export const areAlike = (a: string, b: string): boolean => isTaken(a, b) || isTaken(b, a);

/** Do some words stand in a text, one after the other and whole? */
export function isSaidIn(words: string, text: string): boolean {
  const [inner, outer] = [foldWords(words), foldWords(text)];
  if (inner.whole === '') return false;
  const keys = outer.words.map(({ key }) => key);
  return keys.some((_, from) => {
    let said = '';
    for (let to = from; to < keys.length && said.length < inner.whole.length; to++) said += keys[to] as string;
    return said === inner.whole;
  });
}
