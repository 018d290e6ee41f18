import { foldText } from '../../lib/fold-text.ts';
import { isBareNumbered, type Marked, plain, QUOTED, unmarkedAll } from './clean.ts';
import type { CrewOf } from './crew.ts';
import type { Read, Reading } from './types.ts';
import { beginsWithCrew, readWords } from './words.ts';

/** A line, or several that belong together. */
interface Item {
  readonly row: number;
  /** As pasted, line breaks kept. */
  readonly raw: string;
  /** Joined, without its marker. */
  readonly text: string;
  readonly marker: string;
  /** A blank line stood before it. */
  readonly apart: boolean;
  readonly skip: string | null;
  readonly notes: readonly string[];
}

const PAGE =
  /^(?:(?:page|p\.|seite|pg\.?)\s*\d+(?:\s*(?:of|\/|von)\s*\d+)?|[-–—]\s*\d{1,4}\s*[-–—]|\d{1,4}\s*(?:of|\/)\s*\d{1,4}|\d{1,4}|\d{1,2}-\d{1,3})$/i;
const IMPRINT =
  /\b(?:page \d+|rev(?:ision)?\.? ?\d+|issue \d+|edition \d+|amendment \d+|effective|uncontrolled|copyright|confidential|printed)\b|©|\b\d{1,2}[ .-](?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec|\d{1,2})[a-z]*[ .-]\d{2,4}\b/i;

/** No item goes on beyond this many letters. */
const MOST_LETTERS = 1000;

/** A list of lines as steps. */
export const readList = (rows: readonly (readonly string[])[], crewOf: CrewOf): Read => {
  const lines = rows.map(([line = '']) => line);
  const items = joined(lines, crewOf);
  const marks = items.filter(({ marker, skip }) => marker !== '' && skip === null).length;
  const isMarked = marks >= 2 && marks * 2 >= items.filter(({ skip }) => skip === null).length;
  let title: string | null = null;
  const readings = items.map((item, i): Reading => {
    const said = readWords(item.text, crewOf);
    const before = items.slice(0, i).some(({ skip, marker }) => skip === null && marker !== '');
    let skip = item.skip;
    if (skip === null && item.marker === '' && said.fields.by === undefined && said.fields.say === undefined) {
      if (isMarked && !before) skip = 'It stands above the list: a heading.';
      else if (isMarked && item.apart && /^[^.!?]{1,60}$/.test(item.text))
        skip = 'It stands apart, without a number: a heading.';
      else if (!isMarked && i === 0 && items.length > 2 && isTitle(item, items[1]))
        skip = 'It stands above the list: a heading.';
      else if (/:$/.test(item.text)) skip = 'It ends with a colon: a heading.';
    }
    if (skip !== null && item.skip === null && title === null && !before) title = plain(item.text).replace(/:$/, '');
    const { fields, notes, responds } = said;
    return {
      row: item.row,
      text: item.raw,
      skip,
      fields,
      lane: null,
      ...(responds && { responds }),
      notes: [...item.notes, ...notes],
    };
  });
  return { readings, title, notes: [] };
};

const isTitle = (item: Item, next: Item | undefined): boolean =>
  next?.apart === true || (/\p{Lu}/u.test(item.text) && item.text === item.text.toUpperCase() && item.text.length > 5);

/** Which lines are heads and feet of pages: with an imprint, or again and again beside a page number. */
const pageLines = (lines: readonly string[], bare: boolean, marks: readonly Marked[]): Set<number> => {
  const there = lines.flatMap((line, i) => (line.trim() === '' ? [] : [i]));
  const isNumber = (i: number) => !bare && PAGE.test(plain(lines[i] as string));
  const ends = new Set(there.filter((i) => isNumber(i) || (lines[i] as string).includes('\f')));
  const mask = (i: number) => foldText((lines[i] as string).replaceAll(/\d+/g, '0'));
  const near = (at: number) =>
    [-2, -1, 1, 2].some((d) => ends.has(there[at + d] as number)) || at < 2 || at >= there.length - 2;
  const again = new Map<string, number>();
  for (const i of there) again.set(mask(i), (again.get(mask(i)) ?? 0) + 1);
  const found = new Set([...ends].filter(isNumber));
  for (const [at, i] of there.entries()) {
    const line = plain(lines[i] as string);
    const isItem = marks[i]?.marker !== '' || [...line.matchAll(QUOTED)].length > 0;
    if (isItem) continue;
    const repeats = (again.get(mask(i)) ?? 0) > 1;
    if (IMPRINT.test(line) && (repeats || near(at))) found.add(i);
    else if (repeats && ends.size > 0 && near(at) && lines.length > 3) found.add(i);
  }
  return found;
};

/** Lines put together to items: what goes on in the next line, what is broken at a hyphen. */
const joined = (lines: readonly string[], crewOf: CrewOf): Item[] => {
  const bare = isBareNumbered(lines);
  const marks = unmarkedAll(
    lines.map((line) => line.replaceAll('\f', '')),
    bare,
  );
  const pages = pageLines(lines, bare, marks);
  const texts = marks.filter((_, i) => !pages.has(i) && lines[i]?.trim() !== '');
  const marked = texts.filter(({ marker }) => marker !== '').length;
  const isMarked = marked >= 2 && marked * 3 >= texts.length;
  const small = texts.filter(({ rest }) => startsSmall(rest)).length;
  const smallGoesOn = small * 2 < texts.length;
  const items: Item[] = [];
  /** The item that a line may go on with; a page may end between. */
  let last = -1;
  let apart = true;
  for (const [i, line] of lines.entries()) {
    const row = i + 1;
    const bareLine = line.replaceAll('\f', '');
    if (bareLine.trim() === '') {
      if (!line.includes('\f')) apart = true;
      continue;
    }
    if (pages.has(i)) {
      const skip = PAGE.test(plain(line)) ? 'A page number.' : 'The head or foot of a page.';
      items.push({ row, raw: line, text: plain(line), marker: '', apart, skip, notes: [] });
      continue;
    }
    const { marker, rest } = marks[i] as Marked;
    const before = items[last];
    if (before !== undefined && marker === '' && goesOn(before, bareLine)) {
      items[last] = { ...before, ...together(before, bareLine) };
    } else {
      last = items.length;
      items.push({ row, raw: bareLine, text: plain(rest), marker, apart, skip: null, notes: [] });
    }
    apart = false;
  }
  return items.filter(({ text, skip }) => text !== '' || skip !== null);

  function goesOn(before: Item, line: string): boolean {
    if (before.raw.length + line.length > MOST_LETTERS) return false;
    if (/[\u00ad]\s*$/.test(before.raw) || /\p{L}-\s*$/u.test(before.raw)) return true;
    const text = plain(line);
    if (beginsWithCrew(text, crewOf) || text.search(QUOTED) === 0) return false;
    if (/^\p{Lu}/u.test(text) && isComplete(before.text)) return false;
    if (isMarked && before.marker !== '') return !apart;
    return !apart && smallGoesOn && startsSmall(text) && !/[.;:!?]["”]?$/.test(before.text);
  }
};

/** Ends with a full stop, or with a callout whose marks are closed: what begins anew behind it does not go on with it. */
const isComplete = (text: string): boolean => {
  if (/[.!?]["”»’']?$/.test(text)) return true;
  const last = [...text.matchAll(QUOTED)].at(-1);
  return last !== undefined && last.index + last[0].length === text.length;
};

const startsSmall = (text: string): boolean => /^\p{Ll}/u.test(plain(text)) && !/^[a-z][A-Z]/.test(plain(text));

const together = (before: Item, line: string): Pick<Item, 'raw' | 'text' | 'notes'> => {
  const raw = `${before.raw}\n${line}`;
  if (/\u00ad\s*$/.test(before.raw)) return { raw, text: plain(before.text + line.trimStart()), notes: before.notes };
  if (!/\p{L}-$/u.test(before.text)) return { raw, text: plain(`${before.text} ${line}`), notes: before.notes };
  // "take-" and "off", or "accele-" and "ration"? Nobody can tell: the hyphen stays.
  const text = plain(before.text + line.trimStart());
  const word = /[\p{L}-]+$/u.exec(before.text)?.[0] ?? '';
  return { raw, text, notes: [...before.notes, `The line was broken at a hyphen: is it still needed in “${word}…”?`] };
};
