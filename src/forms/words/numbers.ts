/**
 * Number words of English, as they are said: "eighty-five", "one hundred and twenty", "two thousand five hundred".
 * Source: any grammar of English, from memory; "niner": ICAO Annex 10, Volume II, radiotelephony, from memory.
 */
const SMALL = [
  ...['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'],
  ...['thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen', 'eighteen', 'nineteen'],
];
const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'];

const VALUES: ReadonlyMap<string, number> = new Map([
  ...SMALL.map((word, n) => [word, n] as const),
  ...TENS.map((word, i) => [word, 20 + 10 * i] as const),
]);

export const isNumberWord = (word: string): boolean => VALUES.has(word) || word === 'hundred' || word === 'thousand';

/** How a whole number below a million is said, word by word; empty where it has more digits. */
export function numberWords(digits: string): string[] {
  const n = Number(digits);
  if (!/^\d{1,6}$/.test(digits)) return [];
  return n === 0 ? ['zero'] : below(n);
}

function below(n: number): string[] {
  if (n >= 1000) return [...below(Math.floor(n / 1000)), 'thousand', ...below(n % 1000)];
  if (n >= 100) return [...below(Math.floor(n / 100)), 'hundred', ...below(n % 100)];
  if (n >= 20) return [TENS[Math.floor(n / 10) - 2] as string, ...below(n % 10)];
  return n === 0 ? [] : [SMALL[n] as string];
}

/**
 * The number that begins at a word.
 * @param words folded; digits may stand before "hundred" and "thousand"
 * @returns its value and how many words it takes; null where none begins there
 */
export function numberAt(
  words: readonly string[],
  at: number,
): { readonly value: number; readonly size: number } | null {
  const small = digitsAt(words, at) ?? smallAt(words, at);
  if (small === null) return null;
  let { value, size } = hundredsAt(words, at, small);
  if (words[at + size] === 'thousand') {
    value *= 1000;
    size += 1;
    const rest = restAt(words, at + size);
    if (rest !== null) {
      const more = hundredsAt(words, rest.from, rest);
      value += more.value;
      size = rest.from + more.size - at;
    }
  }
  return { value, size };
}

interface Small {
  readonly value: number;
  readonly size: number;
}

/** Single digits before "thousand", as a level is said: "one zero thousand" (ICAO Annex 10, Volume II, from memory). */
function digitsAt(words: readonly string[], at: number): Small | null {
  let size = 0;
  let value = 0;
  for (let digit = VALUES.get(words[at] ?? ''); digit !== undefined && digit < 10; size += 1) {
    value = value * 10 + digit;
    digit = VALUES.get(words[at + size + 1] ?? '');
  }
  return size > 1 && size < 4 && words[at + size] === 'thousand' ? { value, size } : null;
}

/** 0 to 99 in words; or digits, before "hundred" or "thousand" only: elsewhere they stay as they are written. */
function smallAt(words: readonly string[], at: number): Small | null {
  const word = words[at] ?? '';
  const next = words[at + 1] ?? '';
  if (/^\d{1,3}$/.test(word))
    return next === 'hundred' || next === 'thousand' ? { value: Number(word), size: 1 } : null;
  const value = VALUES.get(word);
  if (value === undefined) return null;
  const unit = value >= 20 ? VALUES.get(next) : undefined;
  return unit !== undefined && unit >= 1 && unit <= 9 ? { value: value + unit, size: 2 } : { value, size: 1 };
}

function hundredsAt(words: readonly string[], at: number, small: Small): Small {
  if (words[at + small.size] !== 'hundred') return small;
  const size = small.size + 1;
  const rest = restAt(words, at + size);
  return rest === null || rest.value === 0
    ? { value: small.value * 100, size }
    : { value: small.value * 100 + rest.value, size: rest.from + rest.size - at };
}

/** What goes on behind "hundred" or "thousand", with or without "and". */
function restAt(words: readonly string[], at: number): (Small & { readonly from: number }) | null {
  const from = words[at] === 'and' ? at + 1 : at;
  const small = /^\d/.test(words[from] ?? '') ? null : smallAt(words, from);
  return small === null ? null : { ...small, from };
}
