import type { Journal } from '../model/ports.ts';
import type { Connection } from './connection.ts';
import type { DeckStore } from './decks.ts';
import { allLines } from './log.ts';
import { readable } from './readable.ts';
import { seal } from './seal.ts';

interface Tidying {
  readonly connection: Connection;
  readonly decks: DeckStore;
  readonly journal: () => Promise<Journal>;
  /** Union of the log with lines of the journal. */
  readonly merge: (lines: readonly string[]) => Promise<unknown>;
  /** Study day now. */
  readonly today: number;
}

/** Seals old days, and makes journal and database hold the same. @throws StoreProblem */
export const tidy = async ({ connection, decks, journal, merge, today }: Tidying): Promise<void> => {
  await seal(connection, today);
  const keeper = await journal();
  if (keeper.kind === 'none') return;
  await keeper.settled();
  const here: string[] = [];
  await allLines(connection, (part) => void here.push(...part));
  let all = await decks.port.list();
  const { entries, decks: kept, damaged } = await keeper.count();
  if (entries === here.length && kept === all.length && damaged === 0) return;
  const content = await keeper.read();
  const there = new Set(readable(content.lines));
  const known = new Set(here);
  // The database lost its last records, as after a power cut: the journal has them. Decks first: entries cite them.
  const refs = new Set(all.map(({ ref }) => ref));
  for (const deck of content.decks) if (!refs.has(deck.ref)) await decks.restore(deck);
  all = await decks.port.list();
  const missing = [...there].filter((line) => !known.has(line));
  if (missing.length > 0) {
    await merge(missing);
    here.length = 0;
    await allLines(connection, (part) => void here.push(...part));
  }
  const spoilt = damaged + content.lines.length - there.size;
  if (here.some((line) => !there.has(line)) || kept !== all.length || spoilt > 0)
    await keeper.replace({ lines: here, decks: all });
};
