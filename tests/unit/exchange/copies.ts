import { contentId } from '../../../src/exchange/content-id.ts';
import { toLine } from '../../../src/log/line.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Entry } from '../../../src/model/entry.ts';
import type { StoredDeck } from '../../../src/model/ports.ts';

/** A deck of one limit. Its numbers are invented. */
export const deckText = (more: Partial<Deck> = {}): string =>
  `${JSON.stringify(
    {
      format: 1,
      id: 'calder/small',
      version: '1.0.0',
      title: 'Small',
      language: 'en',
      nature: 'fictional',
      sources: [{ id: 'som', title: 'Invented manual', basis: 'invented' }],
      limits: [{ id: 'speed', ask: 'How fast, "at most"?', unit: 'kt', sense: 'at most', value: 180, source: 'som' }],
      ...more,
    },
    null,
    2,
  )}\n`;

/** As the store keeps it. */
export const revision = async (text = deckText(), more: Partial<StoredDeck> = {}): Promise<StoredDeck> => {
  const { id, version, title, nature } = JSON.parse(text) as Deck;
  const hash = await contentId(text);
  const ref = `${id}@${hash.slice(0, 16)}`;
  return {
    ref,
    id,
    version,
    title,
    nature,
    contentId: hash,
    text,
    installed: 1_795_600_000_000,
    active: true,
    ...more,
  };
};

/** A setting, as the simplest of entries. */
export const setLine = (writer: string, n: number, value: unknown = n, at = 1_795_626_000_000 + n): string =>
  toLine({ v: 1, app: 't', id: `${writer}.${n}`, at, off: 0, k: 'set', key: 'minutes/real', value } as Entry);
