/** One exchange with a folder: what is not here comes in, what is not there goes out. */
import { fromUtf8, utf8 } from '../exchange/base64url.ts';
import { readLine } from '../log/read-line.ts';
import type { ImportReport, Store, StoredDeck } from '../model/ports.ts';
import type { Exchanged } from '../model/second-device.ts';
import { type Cover, coveredBy, coverOf, readId } from './coverage.ts';
import { type Folder, FolderProblem, type Listed, MOST_BYTES, type Named, nameOf, readName } from './folder.ts';
import type { Vault } from './vault.ts';

/** What this device knows of a file of the folder. */
export type Note =
  /** Taken in, or put: it holds these entries. */
  | { readonly log: Cover }
  /** It holds this revision. */
  | { readonly deck: string }
  /** It is of no use as it is; of another size or tag it is looked at again. */
  | { readonly aside: string; readonly size: number | null; readonly etag: string | null };

/** By the names of the files. */
export type Notes = Readonly<Record<string, Note>>;

export interface PassPorts {
  readonly folder: Folder;
  readonly vault: Vault;
  readonly log: Pick<Store['log'], 'all' | 'count'>;
  readonly decks: Pick<Store['decks'], 'list'>;
  /** Union of decks and entries with what is here, as a saved copy's text. */
  readonly takeIn: (text: string) => Promise<ImportReport>;
  readonly notes: Notes;
  /** Kept before more is done: a pass that is cut off is gone on with. */
  readonly keep: (notes: Notes) => Promise<void>;
  /** Asked before anything comes in. */
  readonly mayTakeIn: () => boolean;
  /** Files and bytes that come in at most in one pass. */
  readonly most?: { readonly files: number; readonly bytes: number };
}

const MOST = { files: 200, bytes: 12_000_000 };
/** Entries and bytes of a file that is put. */
const ENTRIES = 300;
const BYTES = 1_000_000;
/** Names tried for one content, where some were written in part only. */
const ATTEMPTS = 10;
/** Files put between two keepings of the notes. */
const KEEP_EVERY = 8;

interface Read {
  readonly file: Listed;
  readonly note: Note;
  /** Lines of a saved copy. */
  readonly lines: readonly string[];
}

/** @throws FolderProblem, StoreProblem: what was done until then is kept */
export const exchangeOnce = async (ports: PassPorts): Promise<Exchanged> => {
  const { folder, log, keep, most = MOST } = ports;
  const listed = (await folder.list()).filter(({ name }) => readName(name) !== null);
  // What a folder lost is put again.
  const notes: Record<string, Note> = {};
  for (const { name } of listed) if (ports.notes[name] !== undefined) notes[name] = ports.notes[name];
  const aside: string[] = [];
  const leave = (file: Listed, why: string) => {
    notes[file.name] = { aside: why, size: file.size, etag: file.etag ?? null };
    aside.push(`${file.name.slice(0, 8)}…: ${why}`);
  };
  const came = { entries: 0, answers: 0, days: 0, decks: 0, clashes: 0 };
  let badLines = 0;
  let more = false;

  const wanted = listed
    .filter((file) => isNew(file, notes[file.name]))
    // Entries cite decks.
    .sort((a, b) => Number(b.name.endsWith('deck')) - Number(a.name.endsWith('deck')) || (a.name < b.name ? -1 : 1));
  const read: Read[] = [];
  let bytes = 0;
  for (const [place, file] of wanted.entries()) {
    if (!ports.mayTakeIn()) break;
    if ((file.size ?? 0) > MOST_BYTES) {
      leave(file, 'larger than any file of this app');
      continue;
    }
    const found = await readFile(ports, file);
    if (typeof found === 'string') leave(file, found);
    else if (found !== null) {
      read.push(found.read);
      bytes += file.size ?? 0;
      badLines += found.badLines;
    }
    more = place + 1 < wanted.length && (place + 1 >= most.files || bytes >= most.bytes);
    if (more) break;
  }
  if (read.length > 0 && ports.mayTakeIn()) {
    const lines = read.flatMap((one) => one.lines);
    if (lines.length > 0) {
      const report = await ports.takeIn(lines.map((line) => `${line}\n`).join(''));
      came.entries = report.added;
      came.answers = report.answers;
      came.days = report.days;
      came.decks = report.decks;
      came.clashes = report.clashes;
    }
    const here = new Set((await ports.decks.list()).map(({ ref }) => ref));
    for (const { file, note } of read) {
      if ('deck' in note && !here.has(note.deck)) leave(file, 'a deck that this version of the app cannot use');
      else notes[file.name] = note;
    }
  }
  await keep(notes);
  // What lies there unread may be what would be put: first all of it.
  if (more) return { came, went: { entries: 0, answers: 0, decks: 0 }, aside, badLines, more };

  let unkept = 0;
  const put = async (kind: Named['kind'], text: string, note: Note): Promise<void> => {
    const name = await putFile(ports, kind, utf8(text), (one) => {
      const known = notes[one];
      return known !== undefined && 'aside' in known;
    });
    notes[name] = note;
    unkept += 1;
    if (unkept % KEEP_EVERY === 0) await keep(notes);
  };
  const went = { entries: 0, answers: 0, decks: 0 };
  try {
    const there = new Set(Object.values(notes).flatMap((note) => ('deck' in note ? [note.deck] : [])));
    for (const deck of await ports.decks.list()) {
      if (there.has(deck.ref)) continue;
      await put('deck', deckText(deck), { deck: deck.ref });
      went.decks += 1;
    }
    const covers = Object.values(notes).flatMap((note) => ('log' in note ? [note.log] : []));
    for (const group of cut(await missing(log, covers))) {
      const text = group.map(({ line }) => `${line}\n`).join('');
      await put('log', text, { log: coverOf(group.map(({ id }) => id)) });
      went.entries += group.length;
      went.answers += group.filter(({ line }) => line.includes('"k":"answer"')).length;
    }
  } finally {
    if (unkept > 0) await keep(notes);
  }
  return { came, went, aside, badLines, more };
};

const isNew = (file: Listed, note: Note | undefined): boolean =>
  note === undefined || ('aside' in note && (note.size !== file.size || note.etag !== (file.etag ?? null)));

/** @returns a text: why it is of no use; null: not now */
const readFile = async (
  { folder, vault }: PassPorts,
  file: Listed,
): Promise<{ readonly read: Read; readonly badLines: number } | string | null> => {
  const named = readName(file.name) as Named;
  let bytes: Uint8Array<ArrayBuffer>;
  try {
    bytes = await folder.get(file.name);
  } catch (error) {
    if (error instanceof FolderProblem && error.fault === 'gone') return null;
    if (error instanceof FolderProblem && error.fault === 'too-large') return error.message;
    throw error;
  }
  // It is being written just now, or it came in part.
  if (file.size !== null && bytes.length !== file.size) return null;
  const plain = await vault.open(named.kind, named.hash, bytes);
  if (plain === null) return 'not what its name says, as when writing it was cut off';
  const text = fromUtf8(plain);
  if (text === null) return 'no text';
  if (named.kind === 'deck') {
    const deck = deckIn(text);
    if (deck === null) return 'no deck';
    return { read: { file, note: { deck: deck.ref }, lines: [deck.line] }, badLines: 0 };
  }
  const lines: string[] = [];
  const ids: string[] = [];
  let badLines = 0;
  for (const line of text.split('\n')) {
    if (line === '') continue;
    try {
      ids.push(readLine(line).id);
      lines.push(line);
    } catch {
      badLines += 1;
    }
  }
  return { read: { file, note: { log: coverOf(ids) }, lines }, badLines };
};

/** A line of a saved copy, by which the deck comes as it is here: `installed` counts for what was right until when. */
const deckText = ({ id, contentId, text, installed, active }: StoredDeck): string =>
  `${JSON.stringify({ file: 'deck', id, contentId, installed, active, text })}\n`;

const deckIn = (text: string): { readonly ref: string; readonly line: string } | null => {
  const line = text.trimEnd();
  if (line.includes('\n')) return null;
  try {
    const value = JSON.parse(line) as Readonly<Record<string, unknown>> | null;
    const { file, id, contentId } = value ?? {};
    if (file !== 'deck' || typeof id !== 'string' || typeof contentId !== 'string') return null;
    return { ref: `${id}@${contentId.slice(0, 16)}`, line };
  } catch {
    return null;
  }
};

interface Entry {
  readonly id: string;
  readonly line: string;
}

const idIn = (line: string): string => (JSON.parse(line) as { readonly id: string }).id;

/** Entries that no file holds, by id; those that share one stand together. */
const missing = async (log: PassPorts['log'], covers: readonly Cover[]): Promise<readonly Entry[]> => {
  const covered = coveredBy(covers);
  const find = async (
    isWanted: (id: string) => boolean,
    isEnough: (found: number) => boolean,
  ): Promise<Map<string, Entry>> => {
    const found = new Map<string, Entry>();
    await log.all((lines) => {
      for (const line of lines) {
        const id = idIn(line);
        if (isWanted(id)) found.set(id, { id, line });
      }
      return !isEnough(found.size);
    });
    return found;
  };
  const isUncovered = (id: string) => {
    const read = readId(id);
    return read === null || !covered.has(read, id);
  };
  // Old days are not read where what is missing was among the last.
  const total = await log.count();
  const found = await find(isUncovered, (size) => total >= covered.count && size >= total - covered.count);
  const shared = new Set([...found.keys()].flatMap((id) => (id.includes('~') ? (readId(id)?.base ?? []) : [])));
  if (shared.size > 0) {
    const groups = await find(
      (id) => shared.has(readId(id)?.base ?? ''),
      () => false,
    );
    for (const [id, entry] of groups) found.set(id, entry);
  }
  const key = ({ id }: Entry) => readId(id) ?? { writer: id, n: 0 };
  return [...found.values()].sort((a, b) => {
    const [x, y] = [key(a), key(b)];
    return x.writer === y.writer ? x.n - y.n || (a.id < b.id ? -1 : 1) : x.writer < y.writer ? -1 : 1;
  });
};

/** Into files of some hundred; entries that share an id stay together. */
const cut = function* (entries: readonly Entry[]): Generator<readonly Entry[]> {
  let group: Entry[] = [];
  let size = 0;
  let base = '';
  for (const entry of entries) {
    const next = readId(entry.id)?.base ?? entry.id;
    if (group.length > 0 && next !== base && (group.length >= ENTRIES || size + entry.line.length > BYTES)) {
      yield group;
      group = [];
      size = 0;
    }
    base = next;
    group.push(entry);
    size += entry.line.length;
  }
  if (group.length > 0) yield group;
};

/** @param isAside is the file of that name of no use? @returns the name under which the content lies there, whole */
const putFile = async (
  { folder, vault }: PassPorts,
  kind: Named['kind'],
  plain: Uint8Array<ArrayBuffer>,
  isAside: (name: string) => boolean,
): Promise<string> => {
  const hash = await vault.hash(kind, plain);
  const sealed = await vault.seal(kind, hash, plain);
  for (let attempt = 0; attempt < ATTEMPTS; attempt += 1) {
    const name = nameOf({ hash, kind }, attempt);
    if (isAside(name)) continue;
    if ((await folder.put(name, sealed)) === 'put') return name;
    // The other device's, or a try of ours that was cut off: is it whole?
    if ((await vault.open(kind, hash, await folder.get(name))) !== null) return name;
  }
  throw new FolderProblem(
    'folder',
    'The folder keeps files in part only. Use another one; nothing on this device is lost.',
  );
};
