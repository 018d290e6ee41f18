import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Plugin } from 'vite';
import { signedText } from '../src/exchange/content-id.ts';

/** A line of decks/index.json: what the app offers before a deck is read. */
export interface DeckListing {
  /** Name of the file beside index.json. */
  readonly file: string;
  readonly id: string;
  readonly version: string;
  readonly title: string;
  /** Length of the file. */
  readonly bytes: number;
  /** As src/exchange/content-id.ts computes it. */
  readonly contentId: string;
}

/**
 * Every `*.deck.json` of a folder and their listing, by file name.
 * @throws When a file is no JSON object with text for id, version and title; the checker says the rest.
 */
export const readDecks = (folder: string): ReadonlyMap<string, string> => {
  const files = readdirSync(folder)
    .filter((name) => name.endsWith('.deck.json'))
    .sort();
  const texts = new Map<string, string>();
  const listing: DeckListing[] = [];
  for (const file of files) {
    const text = readFileSync(join(folder, file), 'utf8');
    let deck: Record<string, unknown>;
    try {
      deck = JSON.parse(text) as Record<string, unknown>;
    } catch (error) {
      throw new Error(`decks/${file}: ${error instanceof Error ? error.message : String(error)}`);
    }
    const { id, version, title } = deck;
    if (typeof id !== 'string' || typeof version !== 'string' || typeof title !== 'string') {
      throw new Error(`decks/${file}: id, version and title must be there, as text`);
    }
    // Without the white space of the authored file: the same content, and so the same content id.
    const shipped = JSON.stringify(deck);
    texts.set(file, shipped);
    const contentId = createHash('sha256').update(signedText(deck)).digest('hex');
    listing.push({ file, id, version, title, bytes: Buffer.byteLength(shipped), contentId });
  }
  texts.set('index.json', JSON.stringify(listing));
  return texts;
};

/** Ships the authored decks under decks/, in the build and in the development server. */
export const decks = (folder: string): Plugin => ({
  name: 'recency-decks',
  configureServer(server) {
    server.middlewares.use('/decks', (request, response, next) => {
      const name = (request.url ?? '').split('?')[0]?.slice(1) ?? '';
      const text = readDecks(folder).get(name);
      if (text === undefined) return next();
      response.setHeader('Content-Type', 'application/json; charset=utf-8');
      response.end(text);
    });
  },
  generateBundle() {
    for (const [file, source] of readDecks(folder)) {
      this.emitFile({ type: 'asset', fileName: `decks/${file}`, source });
    }
  },
});
