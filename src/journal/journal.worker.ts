/**
 * Keeps the journal in files of the origin private file system: `journal-1`, `journal-2`, …, of which all are read and
 * the last is written. A new one is begun when the journal is written anew, and when another page holds the last.
 * Synchronous access handles exist in workers only; they alone append and flush in place.
 */
import { readJournal } from './format.ts';
import type { Answered, Asked, Request } from './messages.ts';

let folder: FileSystemDirectoryHandle | null = null;
let handle: FileSystemSyncAccessHandle | null = null;
let current = 0;

const encoder = new TextEncoder();
const LINE_FEED = 10;
/** The page that held the file before may need this long to let go, ms. */
const PATIENCE = 1500;
const STEP = 50;

const opened = (): FileSystemDirectoryHandle => {
  if (folder === null) throw new Error('the journal is not open');
  return folder;
};

/** Numbers of the files there are, rising. */
const numbers = async (): Promise<number[]> => {
  const found: number[] = [];
  for await (const name of opened().keys()) {
    const match = /^journal-(\d+)$/.exec(name);
    if (match !== null) found.push(Number(match[1]));
  }
  return found.sort((a, b) => a - b);
};

const handleOf = async (number: number): Promise<FileSystemSyncAccessHandle> => {
  const file = await opened().getFileHandle(`journal-${number}`, { create: true });
  return file.createSyncAccessHandle();
};

const open = async (name: string): Promise<boolean> => {
  if (typeof navigator.storage?.getDirectory !== 'function') return false;
  try {
    const root = await navigator.storage.getDirectory();
    folder = await root.getDirectoryHandle(name, { create: true });
    current = (await numbers()).at(-1) ?? 1;
    for (let waited = 0; handle === null; waited += STEP) {
      try {
        handle = await handleOf(current);
      } catch (error) {
        if (!(error instanceof DOMException) || error.name !== 'NoModificationAllowedError') throw error;
        // Held by a page that was put to sleep: write beside it; all files are read.
        if (waited >= PATIENCE) current += 1;
        else await new Promise((done) => setTimeout(done, STEP));
      }
    }
  } catch {
    // No such storage in this browser or window, or no room for it.
    folder = null;
    return false;
  }
  const size = handle.getSize();
  const last = new Uint8Array(1);
  // A line that a kill tore must not swallow the next one.
  if (size > 0 && handle.read(last, { at: size - 1 }) === 1 && last[0] !== LINE_FEED) append('\n');
  return true;
};

const append = (text: string): void => {
  if (handle === null) throw new Error('the journal is not open');
  const bytes = encoder.encode(text);
  const size = handle.getSize();
  let at = 0;
  // A write may take only a part.
  while (at < bytes.length) {
    const written = handle.write(bytes.subarray(at), { at: size + at });
    if (written <= 0) {
      handle.truncate(size);
      throw new Error('no room for the journal');
    }
    at += written;
  }
  handle.flush();
};

const ownText = (): string => {
  if (handle === null) return '';
  const bytes = new Uint8Array(handle.getSize());
  handle.read(bytes, { at: 0 });
  return new TextDecoder().decode(bytes);
};

const read = async () => {
  const texts: string[] = [];
  for (const number of await numbers()) {
    if (number === current) texts.push(ownText());
    else {
      const file = await opened().getFileHandle(`journal-${number}`);
      // Held by another page: what is in it is in the database too, and comes along next time.
      const text = await file.getFile().then(
        (blob) => blob.text(),
        () => '',
      );
      texts.push(text);
    }
  }
  return readJournal(texts);
};

const replace = async (text: string): Promise<void> => {
  const older = await numbers();
  const next = Math.max(current, ...older) + 1;
  const fresh = await handleOf(next);
  const before = handle;
  const was = current;
  handle = fresh;
  current = next;
  try {
    append(text);
  } catch (error) {
    handle = before;
    current = was;
    fresh.close();
    await opened().removeEntry(`journal-${next}`);
    throw error;
  }
  before?.close();
  // One that another page holds stays until the next time.
  for (const number of older)
    await opened()
      .removeEntry(`journal-${number}`)
      .catch(() => undefined);
};

const answer = async (request: Request): Promise<unknown> => {
  switch (request.do) {
    case 'open':
      return open(request.folder);
    case 'append':
      return append(request.text);
    case 'count': {
      const { lines, decks, damaged } = await read();
      return { entries: lines.length, decks: decks.length, damaged };
    }
    case 'read':
      return read();
    case 'replace':
      return replace(request.text);
    case 'close':
      handle?.close();
      handle = null;
      return undefined;
  }
};

// One after the other: a replacement must not run beside an append.
let queue: Promise<unknown> = Promise.resolve();
addEventListener('message', ({ data }: MessageEvent<Asked>) => {
  queue = queue
    .then(() => answer(data.request))
    .then(
      (value): Answered => ({ call: data.call, value }),
      (error: unknown): Answered => ({ call: data.call, error: String(error) }),
    )
    .then((answered) => postMessage(answered));
});
