import type { Deck } from '../../../src/model/deck.ts';

/** Members of a deck whose text a learner reads. */
const READ = new Set(
  'do say ask text note why slip label title starts situation yes no where called strangers alsoSay ifNoAnswer'.split(
    ' ',
  ),
);
/** Those that stand in a row of a question. */
const ROWS = new Set(['do', 'say', 'text', 'strangers']);

/** A deck with other words in the same places; what is filled in stays. */
const reworded = (deck: Deck, keys: ReadonlySet<string>, change: (text: string) => string): Deck => {
  const walk = (value: unknown, key: string): unknown => {
    if (typeof value === 'string') return keys.has(key) ? change(value) : value;
    if (Array.isArray(value)) return value.map((one) => walk(one, key));
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, walk(one, name)]));
  };
  return walk(deck, '') as Deck;
};

/** Every step, callout and cue of forty words. */
export const inFortyWords = (deck: Deck): Deck =>
  reworded(deck, ROWS, (text) => {
    const words = text.split(' ');
    return [...words, ...Array(Math.max(0, 40 - words.length)).fill('passing')].join(' ');
  });

/** Each letter as one of the Hebrew ones; a mark at the end shows on which side a line ends. */
export const fromRightToLeft = (deck: Deck): Deck =>
  reworded(deck, READ, (text) => {
    const letters = text.replaceAll(/\{\w+\}|[a-z]/gi, (one) =>
      one.length > 1 ? one : String.fromCharCode(0x5d0 + (one.toLowerCase().charCodeAt(0) - 97)),
    );
    return `${letters}!`;
  });
