import type { Exchange, ImportReport, Progress, Store } from '../model/ports.ts';
import type { Connection } from './connection.ts';
import type { DeckStore } from './decks.ts';
import { allLines } from './log.ts';

interface Saving {
  readonly connection: Connection;
  readonly decks: DeckStore;
  readonly exchange: Exchange;
  readonly app: string;
  readonly onProgress?: Progress | undefined;
}

/** Everything as one text. @throws StoreProblem */
export const saveAll = async ({ connection, decks, exchange, app, onProgress }: Saving): Promise<string> => {
  const lines: string[] = [];
  await allLines(connection, (part) => {
    lines.push(...part);
    onProgress?.(0.5);
  });
  const text = exchange.writeCopy({ decks: await decks.port.list(), lines }, { app, at: Date.now() });
  onProgress?.(1);
  return text;
};

/** Share of the work that reading is. */
const READ = 0.4;

interface Taking {
  readonly text: string;
  readonly decks: DeckStore;
  readonly exchange: Exchange;
  readonly merge: Store['log']['merge'];
  readonly onProgress?: Progress | undefined;
}

/** Union of a saved copy with what is here. @throws StoreProblem, or RangeError where it is no copy at all */
export const takeIn = async ({ text, decks, exchange, merge, onProgress }: Taking): Promise<ImportReport> => {
  const copy = await exchange.readCopy(text, (share) => onProgress?.(share * READ));
  let fresh = 0;
  // Decks first: entries cite them.
  for (const deck of copy.decks) if (await decks.restore(deck)) fresh += 1;
  const report = await merge(copy.lines, (share) => onProgress?.(READ + (1 - READ) * share));
  const { bad, badLines, complete } = copy;
  return { ...report, decks: fresh, bad, badLines, complete };
};
