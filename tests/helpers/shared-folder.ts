/** A folder in memory, and devices with a log alone: what an exchange needs, with whatever may go wrong. */
import { toLine } from '../../src/log/line.ts';
import { unionOf } from '../../src/log/union.ts';
import type { Entry } from '../../src/model/entry.ts';
import type { StoredDeck } from '../../src/model/ports.ts';
import type { FolderFault } from '../../src/model/second-device.ts';
import { type Folder, FolderProblem } from '../../src/sync/folder.ts';
import { exchangeOnce, type Notes, type PassPorts } from '../../src/sync/pass.ts';
import { openVault } from '../../src/sync/vault.ts';

export interface SharedFolder extends Folder {
  readonly files: Map<string, Uint8Array<ArrayBuffer>>;
  /** Verbs until one fails, and how: not at all, before it was done, after it was, or a file written by half. */
  fail: { after: number; how: 'before' | 'after' | 'half'; fault?: FolderFault } | null;
}

export const sharedFolder = (): SharedFolder => {
  const files = new Map<string, Uint8Array<ArrayBuffer>>();
  const folder: SharedFolder = {
    files,
    fail: null,
    list: () =>
      verb(() => [...files].map(([name, bytes]) => ({ name, size: bytes.length, etag: `"${bytes.length}"` }))),
    get: (name) =>
      verb(() => {
        const found = files.get(name);
        if (found === undefined) throw new FolderProblem('gone', 'gone');
        return found;
      }),
    put: (name, bytes) =>
      verb(
        () => {
          if (files.has(name)) return 'there' as const;
          files.set(name, bytes);
          return 'put' as const;
        },
        () => void (files.has(name) || files.set(name, bytes.slice(0, bytes.length >> 1))),
      ),
  };
  const verb = async <T>(work: () => T, half?: () => void): Promise<T> => {
    const { fail } = folder;
    if (fail === null) return work();
    fail.after -= 1;
    if (fail.after >= 0) return work();
    folder.fail = null;
    if (fail.how === 'after') work();
    if (fail.how === 'half') half?.();
    throw new FolderProblem(fail.fault ?? 'network', 'The server does not answer.');
  };
  return folder;
};

/** A device: its log, what it knows of the folder. */
export interface Device {
  readonly log: Set<string>;
  readonly decks: StoredDeck[];
  notes: Notes;
  /** Times that anything came in. */
  merges: number;
  mayTakeIn: boolean;
  answer(at: number, value?: unknown): string;
  pass(folder: Folder, more?: Partial<PassPorts>): ReturnType<typeof exchangeOnce>;
}

export const entryLine = (id: string, at: number, value: unknown = null): string =>
  toLine({ v: 1, id, app: 'test', k: 'set', key: 'minutes/real', value, at, off: 0 } as Entry);

let writers = 0;

export const deviceOf = (first: string): Device => {
  let writer = first;
  let n = 0;
  const device: Device = {
    log: new Set(),
    decks: [],
    notes: {},
    merges: 0,
    mayTakeIn: true,
    answer: (at, value = n) => {
      n += 1;
      const line = entryLine(`${writer}.${n}`, at, value);
      device.log.add(line);
      return line;
    },
    pass: (folder, more = {}) =>
      exchangeOnce({
        folder,
        vault: openVault,
        log: {
          count: async () => device.log.size,
          all: async (onChunk) => {
            const lines = [...device.log].reverse();
            for (let from = 0; from < lines.length; from += 5)
              if ((await onChunk(lines.slice(from, from + 5))) === false) return;
          },
        },
        decks: { list: async () => device.decks },
        takeIn: async (text) => {
          device.merges += 1;
          const lines = text.split('\n').slice(0, -1);
          const found = lines.filter((line) => line.startsWith('{"file":"deck"')).map((line) => JSON.parse(line));
          let fresh = 0;
          for (const deck of found) {
            const ref = `${deck.id}@${deck.contentId.slice(0, 16)}`;
            if (deck.text === 'unusable' || device.decks.some((one) => one.ref === ref)) continue;
            device.decks.push({ ...deck, ref });
            fresh += 1;
          }
          const incoming = lines.filter((line) => !line.startsWith('{"file":"deck"')).join('\n');
          const union = unionOf({ here: [...device.log].join('\n'), incoming });
          // As the store does: numbers that another gave as well are given no more.
          if (union.writers.includes(writer)) {
            writers += 1;
            writer = `new${writers}`;
            n = 0;
          }
          for (const line of union.renamed) device.log.delete(line);
          for (const line of [...union.first, ...union.rest]) device.log.add(line);
          const { first, rest, renamed, doubled, clashes, unknown, answers, days } = union;
          const added = first.length + rest.length - renamed.length;
          return {
            added,
            doubled,
            clashes,
            unknown,
            answers,
            days,
            decks: fresh,
            bad: [],
            badLines: 0,
            complete: true,
          };
        },
        notes: device.notes,
        keep: async (notes) => {
          device.notes = structuredClone(notes);
        },
        mayTakeIn: () => device.mayTakeIn,
        ...more,
      }),
  };
  return device;
};
