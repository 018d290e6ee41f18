import type { Journal } from '../model/ports.ts';
import { deckLine, entryLine } from './format.ts';
import type { Answered, Answers, Asked, Request } from './messages.ts';
import { noJournal } from './none.ts';

/** The part of a Worker that is used here. */
export type JournalWorker = Pick<Worker, 'postMessage' | 'addEventListener' | 'terminate'>;

const startWorker = (): JournalWorker =>
  new Worker(new URL('./journal.worker.ts', import.meta.url), { type: 'module', name: 'journal' });

/**
 * The journal in the origin private file system; a journal that keeps nothing, and says so (`kind`), where the browser
 * has no such storage or its worker does not run. Never rejects.
 */
export const openJournal = async (folder = 'recency', start: () => JournalWorker = startWorker): Promise<Journal> => {
  if (typeof Worker === 'undefined' && start === startWorker) return noJournal;
  const waiting = new Map<number, { done: (value: unknown) => void; failed: (error: Error) => void }>();
  let calls = 0;
  let gone: Error | null = null;
  const worker = start();

  worker.addEventListener('message', (event) => {
    const { call, value, error } = (event as MessageEvent<Answered>).data;
    const one = waiting.get(call);
    waiting.delete(call);
    if (error === undefined) one?.done(value);
    else one?.failed(new Error(error));
  });
  const fail = () => {
    gone = new Error('the worker of the journal ended');
    for (const { failed } of waiting.values()) failed(gone);
    waiting.clear();
  };
  worker.addEventListener('error', fail);

  const ask = <K extends Request['do']>(request: Extract<Request, { do: K }>): Promise<Answers[K]> =>
    new Promise((done, failed) => {
      if (gone !== null) return failed(gone);
      calls += 1;
      waiting.set(calls, { done: done as (value: unknown) => void, failed });
      worker.postMessage({ call: calls, request } satisfies Asked);
    });

  const there = await ask({ do: 'open', folder }).catch(() => false);
  if (!there) {
    worker.terminate();
    return noJournal;
  }
  let last: Promise<unknown> = Promise.resolve();
  const write = (request: Extract<Request, { do: 'append' | 'replace' }>) => {
    // A failure shows as a difference in number at the next tidying, which writes what is missing.
    last = ask(request).catch(() => undefined);
    return last;
  };
  return {
    kind: 'opfs',
    append: (lines) => void write({ do: 'append', text: lines.map(entryLine).join('') }),
    deck: (deck) => void write({ do: 'append', text: deckLine(deck) }),
    count: () => ask({ do: 'count' }),
    read: () => ask({ do: 'read' }),
    replace: async ({ lines, decks }) => {
      await write({ do: 'replace', text: decks.map(deckLine).join('') + lines.map(entryLine).join('') });
    },
    settled: async () => void (await last),
    close: async () => {
      await ask({ do: 'close' }).catch(() => undefined);
      fail();
      worker.terminate();
    },
  };
};
