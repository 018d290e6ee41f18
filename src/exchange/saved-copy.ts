/**
 * Saved copies: a text file of JSON lines that a person can open. First a header `{"recency":"copy","v":1,"app","at",
 * "decks","entries"}`, then one line a deck revision `{"file":"deck",…}`, then the entries as they are in the log,
 * then `{"file":"end"}`.
 */
import { messageOf } from '../deck/messages.ts';
import { readDeck } from '../deck/read.ts';
import { readAndWrite } from '../log/read-line.ts';
import type { BadLine, Exchange, SavedCopy, StoredDeck } from '../model/ports.ts';
import { contentId } from './content-id.ts';

/** Most bad lines told one by one. */
const TOLD = 100;
/** Lines between two tellings of the share done. */
const TELL_EVERY = 1000;

export const writeCopy: Exchange['writeCopy'] = ({ decks, lines }: SavedCopy, { app, at }) => {
  const header = { recency: 'copy', v: 1, app, at, decks: decks.length, entries: lines.length };
  const parts = [
    JSON.stringify(header),
    ...decks.map((deck) => JSON.stringify({ file: 'deck', ...deck })),
    ...lines,
    JSON.stringify({ file: 'end' }),
  ];
  return `${parts.join('\n')}\n`;
};

type Fields = Readonly<Record<string, unknown>>;

const isObject = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * A revision as the app can work with it: what it says of itself is taken from its text.
 * @throws RangeError that says what is wrong with it
 */
const takeDeck = async ({ id, contentId: said, text: laid, installed, active }: Fields): Promise<StoredDeck> => {
  if (typeof id !== 'string' || typeof laid !== 'string') throw new RangeError('This deck lacks its id or its text.');
  const text = laid.replace(/^\uFEFF/, '');
  // Size and levels are looked at before anything is built of the text.
  const { deck, findings } = readDeck(text);
  if (deck === undefined) {
    const [first] = findings;
    throw new RangeError(`The deck "${id}" cannot be used: ${first === undefined ? 'unreadable' : messageOf(first)}`);
  }
  const hash = await contentId(text);
  // Entries cite the content: a text that was changed on the way would be another deck under the same name.
  if (said !== hash || deck.id !== id)
    throw new RangeError(`The deck "${id}" is not as it was when the copy was made.`);
  const { version, title, nature } = deck;
  return {
    ref: `${id}@${hash.slice(0, 16)}`,
    id,
    version,
    title,
    nature,
    contentId: hash,
    text,
    installed: typeof installed === 'number' ? installed : 0,
    active: active === true,
  };
};

/** Levels of lists and objects in a line: far more than any form has, far fewer than a call stack. */
const MOST_LEVELS = 64;
const QUOTE = 0x22;
const BACKSLASH = 0x5c;

/** Are there more brackets that open, in texts too, than there may be levels? Nearly no line has so many. */
const hasManyBrackets = (line: string): boolean => {
  let most = MOST_LEVELS;
  for (const bracket of ['{', '[']) {
    let at = line.indexOf(bracket);
    for (; at >= 0 && most >= 0; at = line.indexOf(bracket, at + 1)) most -= 1;
  }
  return most < 0;
};

/** Looked at before anything is built: to parse megabytes of brackets takes many seconds. */
const tooDeep = (line: string): boolean => {
  if (!hasManyBrackets(line)) return false;
  let levels = 0;
  let inText = false;
  for (let i = 0; i < line.length; i += 1) {
    const code = line.charCodeAt(i);
    if (inText) {
      if (code === BACKSLASH) i += 1;
      else if (code === QUOTE) inText = false;
    } else if (code === QUOTE) inText = true;
    // [ and {, ] and }.
    else if (code === 0x5b || code === 0x7b) levels += 1;
    else if (code === 0x5d || code === 0x7d) levels -= 1;
    if (levels > MOST_LEVELS) return true;
  }
  return false;
};

export const readCopy: Exchange['readCopy'] = async (text, onProgress = () => undefined) => {
  const all = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  const decks: StoredDeck[] = [];
  const lines: string[] = [];
  const bad: BadLine[] = [];
  let badLines = 0;
  let ended = false;
  let header: Fields | null = null;

  for (const [index, line] of all.entries()) {
    if (index % TELL_EVERY === 0) onProgress(index / all.length);
    if (line.trim() === '') continue;
    try {
      const value = parse(line, index === all.length - 1);
      if ('recency' in value) header = readHeader(value);
      else if (value.file === 'end') ended = true;
      else if (value.file === 'deck') decks.push(await takeDeck(value));
      else {
        // As it was laid out: the union writes it as the log does.
        readAndWrite(line, value);
        lines.push(line);
      }
    } catch (error) {
      if (error instanceof NewerCopy) throw error;
      badLines += 1;
      if (badLines <= TOLD) bad.push({ line: index + 1, why: error instanceof Error ? error.message : String(error) });
    }
  }
  // A part of a copy, or bare lines of a log, are good enough.
  const found = lines.length + decks.length;
  if (header === null && found === 0)
    throw new RangeError('This is not a saved copy of Recency: nothing in it is a deck or an entry.');
  const complete = ended && Number(header?.entries) + Number(header?.decks) === found + badLines;
  return { decks, lines, bad, badLines, complete };
};

class NewerCopy extends RangeError {}

const parse = (line: string, last: boolean): Fields => {
  if (tooDeep(line)) throw new RangeError(`This line is nested more than ${MOST_LEVELS} levels deep.`);
  let value: unknown;
  try {
    value = JSON.parse(line);
  } catch {
    throw new RangeError(last ? 'The file ends within this line.' : 'This line is damaged: it is no JSON.');
  }
  if (!isObject(value)) throw new RangeError('This line is neither a deck nor an entry.');
  return value;
};

const readHeader = (value: Fields): Fields => {
  if (value.recency !== 'copy') throw new RangeError('This line is neither a deck nor an entry.');
  if (value.v !== 1)
    throw new NewerCopy('This copy was saved by a newer version of the app. Update the app, then open it again.');
  return value;
};
