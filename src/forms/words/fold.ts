import { plainDigits } from '../../lib/plain-digits.ts';
import { isNumberWord, numberAt, numberWords } from './numbers.ts';
import { oneSpelling } from './spelling.ts';

/** A word as it is compared, and as it was written. */
export interface Word {
  readonly key: string;
  readonly written: string;
}

export interface Folded {
  /** Before numbers are read: what a misspelt word is held against. */
  readonly raw: readonly Word[];
  /** Numbers read: "eighty-five" and "85" are one word. */
  readonly words: readonly Word[];
  /** All of it without spaces: "take off" and "take-off" are one. */
  readonly whole: string;
  /** The same before numbers are read: "flapszero" holds one that is not found. */
  readonly plain: string;
}

/** Marks over these letters are accents; elsewhere (Devanagari, Thai, kana) they are vowels or another letter. */
const ACCENTED = /([\p{Script=Latin}\p{Script=Greek}\p{Script=Cyrillic}\p{Script=Hebrew}\p{Script=Arabic}])\p{M}+/gu;

/** Letters that NFKD leaves as they are, as they are typed where a keyboard lacks them. */
const LETTERS: Readonly<Record<string, string>> = {
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  ø: 'o',
  đ: 'd',
  ł: 'l',
  ı: 'i',
  ς: 'σ',
};

/** Apostrophes, the mark of Arabic lengthening, and what is not seen (joiners, directions). */
const UNSEEN = /['’ʼ\u0640\p{Cf}]/gu;

/** Letters said by name: "vee one". */
const NAMED: Readonly<Record<string, string>> = { vee: 'v', niner: 'nine', decimal: 'point' };

/**
 * What is said of signs: "&" is "and", a mark within a number is its point ("decimal" in radiotelephony) or parts
 * thousands, one before it is "minus". Nothing thousands begins with 0. Between words a stroke only parts them.
 */
const SPOKEN: readonly (readonly [RegExp, string])[] = [
  [/&/g, ' and '],
  [/½|\b1\/2\b/g, ' half '],
  [/(^|[^\p{Nd}.,])(0),(?=\p{Nd})/gu, '$1$2 point '],
  [/(\p{Nd})[,٬](?=\p{Nd}{3}(?!\p{Nd}))/gu, '$1'],
  [/(\p{Nd})[.,٫·](?=\p{Nd})/gu, '$1 point '],
  [/(^|[^\p{L}\p{N}])[-−–](?=\p{Nd})|(\p{Nd})(?: [-−–] |−)(?=\p{Nd})/gu, '$1$2 minus '],
  [/\+(?=\s?\p{Nd})/gu, ' plus '],
  [/(^|[^-=–])>(?=\s?\p{Nd})/gu, '$1 more than '],
  [/<(?=\s?\p{Nd})/gu, ' less than '],
];
const spoken = (text: string): string => SPOKEN.reduce((said, [sign, words]) => said.replace(sign, words), text);

const known = new Map<string, Folded>();
const KNOWN = 2000;

/**
 * What counts of words that are said: Unicode NFKD, lower case, no accents, no punctuation, one spelling, numbers as
 * digits of any script, and digits apart from letters. Finer than `foldText`, which keeps the stamps of items.
 */
export function foldWords(text: string): Folded {
  const before = known.get(text);
  if (before !== undefined) return before;
  const folded = foldRaw((spoken(text).match(/[\p{L}\p{N}\p{M}'’ʼ\p{Cf}]+/gu) ?? []).flatMap(pieces));
  if (known.size >= KNOWN) known.clear();
  known.set(text, folded);
  return folded;
}

/** The same with other words in place of some: corrected ones. */
export const foldRaw = (raw: readonly Word[]): Folded => {
  const said = withLists(raw);
  const words = withNumbers(said);
  return { raw, words, whole: joined(words), plain: joined(said) };
};

/** A checklist, or check list, is called a list as well. */
const withLists = (raw: readonly Word[]): readonly Word[] =>
  raw.flatMap((word, i): Word[] => {
    const { key, written } = word;
    if (/^checklists?$/.test(key)) return [{ key: key.slice('check'.length), written }];
    return key === 'check' && /^lists?$/.test(raw[i + 1]?.key ?? '') ? [] : [word];
  });

/** "Offchecklist" holds a list, too. */
const joined = (words: readonly Word[]): string =>
  words
    .map(({ key }) => key)
    .join('')
    .replaceAll('checklist', 'list');

function pieces(written: string): Word[] {
  const plain = plainDigits(written)
    .normalize('NFKD')
    .toLowerCase()
    .replace(ACCENTED, '$1')
    .replace(UNSEEN, '')
    .replace(/[ßæœøđłıς]/g, (letter) => LETTERS[letter] ?? letter);
  // What NFKD breaks up ("½") may bring signs.
  const parts = (plain.match(/[\p{L}\p{N}\p{M}]+/gu) ?? []).flatMap((part) => part.match(/\d+|\D+/g) ?? []);
  return parts.map((part) => {
    const key = NAMED[part] ?? oneSpelling(part);
    return { key, written: parts.length === 1 ? written : part };
  });
}

function withNumbers(raw: readonly Word[]): Word[] {
  const keys = raw.map(({ key }) => key);
  const out: Word[] = [];
  for (let i = 0; i < raw.length; ) {
    const number = numberAt(keys, i);
    const size = number?.size ?? 1;
    const written = raw
      .slice(i, i + size)
      .map((word) => word.written)
      .join(' ');
    out.push({ key: number === null ? (keys[i] as string) : String(number.value), written });
    i += size;
  }
  return out;
}

/** Scripts that write without spaces, a sign for a syllable or a word: one sign more is another word. */
const UNSPACED =
  /[\p{Script=Han}\p{Script=Hangul}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Thai}\p{Script=Lao}\p{Script=Khmer}\p{Script=Myanmar}]/u;

/** Letters that a word has at least, for one of them to be forgiven. */
export const LETTERS_LEAST = 5;

/** Words of a text in which one letter may be wrong: also numbers as they are said, and two words written as one. */
export function forgivingWords({ raw }: Folded): string[] {
  const found = raw.flatMap(({ key }) => (/^\d/.test(key) ? numberWords(key) : [key]));
  raw.slice(1).forEach(({ key }, i) => {
    const first = (raw[i] as Word).key;
    // A single letter more or less must not pass for a misspelling.
    if (![first, key].some((part) => part.length < 2 || /^\d/.test(part) || isNumberWord(part)))
      found.push(first + key);
  });
  return [...new Set(found)].filter((word) => [...word].length >= LETTERS_LEAST && !UNSPACED.test(word));
}
