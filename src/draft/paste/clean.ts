/** Dots or lines between a challenge and its response, perhaps with spaces between them. */
const LEADERS = /[.…_](?:\s*[.…_])*/g;
const ANSWER = /^\s*[\p{L}\p{N}"“„«‘'([]/u;

/** What leads from one word to the next is a dash, as others write it. */
const leading = (run: string, at: number, text: string): string => {
  const isLong = /^(?:[.\s]*\.){3}|^(?:[…\s]*…){2}|^(?:[_\s]*_){3}/.test(run);
  const behind = text.slice(at + run.length, at + run.length + 40);
  return isLong && /\S/.test(text.slice(0, at)) && ANSWER.test(behind) ? ' – ' : run;
};

const OLD_QUOTES = /``|''/g;

/**
 * Words as they are meant: soft hyphens, invisible characters and control characters gone, every run of white space one
 * space, hyphens and leader dots in one form. Twice gives the same as once.
 */
export const plain = (text: string): string =>
  text
    .normalize('NFC')
    .replaceAll(/\u00ad\s*/g, '')
    .replaceAll(/[\u200b\u2060\ufeff]/g, '')
    .replaceAll(/\p{Cc}/gu, ' ')
    .replaceAll('\u2011', '-')
    .replaceAll(OLD_QUOTES, '"')
    .replaceAll(LEADERS, leading)
    .replaceAll(/\s+/g, ' ')
    .trim();

/** Signs that stand before an item of a list; private-use ones are those of office programs' symbol fonts. */
const BULLET =
  /^(?:[\u2022\u2023\u2043\u2219\u25a0-\u25ff\u2610-\u2612\u2713-\u2718\u27a2\u2794\u2192\u00b7\u203a\u00bb\u2756\uf000-\uf0ff]|\[[ xX]?\])\s*(?=\S)/u;
/** Those that are also something else need a space behind them. */
const DASH = /^(?:[-–—‒―*>+]|o(?=\t| {2}))\s+(?=\S)/u;
/** `1.` `1)` `(1)` `2.3.` `7a.` `7.a)` `(7a)` `a)` `(b)` `iv.` `Step 3:` */
const NUMBER =
  /^(?:(?:step|item|no\.?)\s+\d{1,3}[a-z]?\s*[.:)–—-]?\s+|\((?:\d{1,3}[a-z]?|[a-z]|[ivxl]{1,6})\)\s*|(?:\d{1,3}(?:\.\d{1,3}){0,4}(?:[.)]?[a-z])?|[ivxl]{1,6}|[a-zA-Z])[.)]\s+|\d{1,3}[.)](?=\p{Lu}|["“„«]))(?=\S)/iu;
/** `1`, `2.3` and `7a` without a point or bracket behind: only where the whole list is numbered so. */
const BARE = /^\d{1,3}(?:\.\d{1,3}){0,4}[a-z]?\s+(?=\S)/;

export interface Marked {
  /** The sign or number before the item; '' where there is none. */
  readonly marker: string;
  readonly rest: string;
}

/** Parts what stands before an item from the item. @param bare bare numbers are markers too */
export const unmarked = (line: string, bare = false): Marked => {
  let rest = line.trimStart();
  let marker = '';
  // A tick box may stand before a number; more than two is no list.
  for (let n = 0; n < 2; n++) {
    const found = BULLET.exec(rest) ?? DASH.exec(rest) ?? NUMBER.exec(rest) ?? (bare ? BARE.exec(rest) : null);
    if (found === null) break;
    marker += found[0];
    rest = rest.slice(found[0].length);
  }
  return { marker: marker.trim(), rest };
};

/** `7`, `7.1` or `7a` at the beginning, as whole and part; a part counts from 1, 0 is none. */
const numberAt = (text: string): { readonly whole: number; readonly part: number } | null => {
  const [found, whole, part = ''] = /^\D{0,6}?(\d{1,3})(?:[.)]?(\d{1,3}|[a-z]))?(?![\p{L}\d])/iu.exec(text) ?? [];
  if (found === undefined) return null;
  const isLetter = /[a-z]/i.test(part);
  return { whole: Number(whole), part: isLetter ? part.toLowerCase().charCodeAt(0) - 96 : Number(part) };
};

/** `7.1` or `7a` without a point behind. */
const PART = /^\d{1,3}(?:\.\d{1,3}|[a-z])\s+(?=\S)/i;

/**
 * What stands before each line of a list. A part without a point behind (`7.1`, `7a`) is a number of the list where it
 * is the next after the one before: `1.5 EPR` is not.
 */
export const unmarkedAll = (lines: readonly string[], bare: boolean): Marked[] => {
  let last = { whole: 0, part: 0 };
  return lines.map((line) => {
    let found = unmarked(line, bare);
    const text = line.trimStart();
    const part = found.marker === '' ? PART.exec(text)?.[0] : undefined;
    const number = numberAt(part ?? found.marker);
    const isNext =
      number !== null &&
      ((number.whole === last.whole && number.part === last.part + 1) ||
        (number.whole === last.whole + 1 && number.part === 1));
    if (part !== undefined && isNext) found = { marker: part.trim(), rest: text.slice(part.length) };
    if (found.marker !== '' && number !== null) last = number;
    return found;
  });
};

/** Is the list numbered with bare numbers: most lines begin with one, and they rise, from 1 or each by one? */
export const isBareNumbered = (lines: readonly string[]): boolean => {
  const there = lines.flatMap((line) =>
    /^\s*\d{1,3}(?:(?:\.\d{1,3})*|[a-z])\s+\S/.test(line) ? (numberAt(line.trim()) ?? []) : [],
  );
  const [first, ...more] = there;
  if (first === undefined || more.length === 0 || there.length * 2 < lines.length) return false;
  if (first.whole <= 1) return more.every(({ whole }, i) => whole >= (there[i]?.whole ?? 0));
  // A part of a longer list: parts of one number, or three numbers at least.
  return more.every(({ whole, part }, i) => {
    const before = there[i] ?? first;
    return whole === before.whole
      ? part === before.part + 1
      : whole === before.whole + 1 && (part === 1 || there.length > 2);
  });
};

const untilSame = (text: string, change: (text: string) => string): string => {
  const next = change(text);
  return next === text ? text : untilSame(next, change);
};

/** A cell of a table: its words without a number or sign before them. */
export const cellWords = (cell: string): string => untilSame(plain(cell), (text) => plain(unmarked(text).rest));

const OPEN = '"“”„‟«»‹›＂「『';
const CLOSE = '"“”‟«»‹›＂」』';
/** A pair of quotation marks around words, of any kind; single ones only where they stand like such. */
export const QUOTED = new RegExp(
  `[${OPEN}]\\s*([^${OPEN}${CLOSE}]+?)\\s*[${CLOSE}]|(?<=^|[\\s(:,–—-])[‘'‚\`]([^‘‚\`]+?)[’'‘´](?=$|[\\s).,;:!?–—-])`,
  'gu',
);

/** A callout in a cell: without quotation marks, where they enclose the whole. */
export const callout = (cell: string): string => untilSame(plain(cell), unquoted);

const unquoted = (text: string): string => {
  const [first, ...more] = [...text.matchAll(QUOTED)];
  const inner = first?.[1] ?? first?.[2];
  return first !== undefined && more.length === 0 && first[0] === text && inner !== undefined ? plain(inner) : text;
};
