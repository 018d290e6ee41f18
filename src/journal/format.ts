/**
 * The journal's lines: `<kind> <bytes> <checksum> <payload>`, each ended by a line feed. Bytes: of the payload in
 * UTF-8, decimal. Checksum: 32-bit FNV-1a of the payload in base 36. A payload is JSON without line feeds, so a line
 * that was torn by a kill, or damaged, spoils no other.
 */
import { fnv36 } from '../lib/hash.ts';
import type { JournalContent, StoredDeck } from '../model/ports.ts';

/** E: an entry's line. D: a deck revision, all of it. */
type Kind = 'E' | 'D';

const encoder = new TextEncoder();

const line = (kind: Kind, payload: string): string =>
  `${kind} ${encoder.encode(payload).length} ${fnv36(payload)} ${payload}\n`;

export const entryLine = (text: string): string => line('E', text);
export const deckLine = (deck: StoredDeck): string => line('D', JSON.stringify(deck));

const WHOLE = /^([ED]) (\d+) ([0-9a-z]+) (.*)$/s;

/** @returns null where the payload is no revision: whatever is read back must not keep the rest from being read */
const deckOf = (payload: string): StoredDeck | null => {
  try {
    const deck = JSON.parse(payload) as StoredDeck | null;
    return typeof deck?.ref === 'string' && typeof deck.text === 'string' ? deck : null;
  } catch {
    return null;
  }
};

/**
 * @param texts of the journal's files, oldest first
 * @returns entries each once, decks in their last state, and the number of lines that were not whole
 */
export const readJournal = (texts: readonly string[]): JournalContent => {
  const lines = new Set<string>();
  const decks = new Map<string, StoredDeck>();
  let damaged = 0;
  for (const text of texts) {
    for (const one of text.split('\n')) {
      if (one === '') continue;
      const [, kind, bytes, checksum, payload = ''] = WHOLE.exec(one) ?? [];
      const whole =
        kind !== undefined && encoder.encode(payload).length === Number(bytes) && fnv36(payload) === checksum;
      if (!whole) damaged += 1;
      else if (kind === 'E') lines.add(payload);
      else {
        const deck = deckOf(payload);
        if (deck === null) damaged += 1;
        else decks.set(deck.ref, deck);
      }
    }
  }
  return { lines: [...lines], decks: [...decks.values()], damaged };
};
