import { type ReadonlySignal, signal } from '@preact/signals';
import { type KnownDecks, knowInSteps, reportedIn } from '../../class/known.ts';
import { expectedOf, type Person, peopleOf } from '../../class/people.ts';
import { type ClassTable, classTable } from '../../class/table.ts';
import { type ClassQuery, type ClassSlips, commonSlips, queriesOf } from '../../class/told.ts';
import type {
  ClassDoor,
  ClassRecords,
  ClassSettings,
  ClassStore,
  FileResult,
  FlownDeck,
  Packed,
} from '../../class/types.ts';
import type { IsoDate } from '../../model/deck.ts';
import { assignedRevisions, handedNumbers, readDrafts } from '../assign/drafts.ts';
import { inPieces } from '../models/in-pieces.ts';
import type { Learner } from '../models/learner.ts';
import { calendarDay, dayIn } from './words.ts';

const DAY = 86_400_000;
/** A file of a report is never larger: so much text a device takes in at once. */
const MOST_BYTES = 2_000_000;
/** So long before reports go, that is said. */
const WARNED_DAYS = 14;

/** Everything that the pages show. */
export interface ClassView {
  readonly records: ClassRecords;
  readonly people: readonly Person[];
  /** Newest reports, by hash. */
  readonly reports: ReadonlyMap<string, Packed>;
  readonly decks: KnownDecks;
  readonly table: ClassTable;
  readonly slips: ClassSlips;
  readonly queries: readonly ClassQuery[];
  /** Of the assignments that this device handed out: id → number. */
  readonly handed: ReadonlyMap<string, number>;
  readonly today: IsoDate;
  /** Reports that go within the next days, and when the first of them does. */
  readonly going: { readonly reports: number; readonly first: IsoDate } | null;
}

/** Reports that have been here for longer than the instructor keeps them; nothing is shown of them. */
export interface Due {
  readonly reports: number;
  readonly people: readonly Person[];
  readonly keepDays: number;
}

export interface ClassModel {
  readonly door: ClassDoor;
  readonly view: ReadonlySignal<ClassView | null>;
  /** Asked before anything else is shown; null where none is. */
  readonly due: ReadonlySignal<Due | null>;
  /** What became of the files opened last, and how many are still to be opened. */
  readonly results: ReadonlySignal<readonly FileResult[]>;
  readonly waiting: ReadonlySignal<number>;
  readonly problem: ReadonlySignal<string | null>;
  takeFiles(files: readonly File[]): Promise<void>;
  /** Deletes what is due. */
  letGo(): Promise<void>;
  putSettings(settings: ClassSettings): Promise<void>;
  putNote(person: Person, note: string): Promise<void>;
  /** A query was answered, today, or is open again. */
  putAnswered(query: ClassQuery, answered: boolean): Promise<void>;
  join(person: Person, to: Person): Promise<void>;
  part(key: string): Promise<void>;
  remove(person: Person): Promise<void>;
  clear(): Promise<void>;
  /** All reports of a trainee, the newest first. */
  history(person: Person): Promise<readonly Packed[]>;
  close(): void;
}

/** @throws StoreProblem, or where its code cannot be had */
export const openClass = async (learner: Learner): Promise<ClassModel> => {
  const { device } = learner;
  const door = await device.classDoor();
  const store: ClassStore = await door.store();
  const view = signal<ClassView | null>(null);
  const due = signal<Due | null>(null);
  const results = signal<readonly FileResult[]>([]);
  const waiting = signal(0);
  const problem = signal<string | null>(null);
  const today = () => calendarDay(device, device.now());
  /** A gain of speed alone: the decks are looked up anew when others are reported or installed. */
  let known: { readonly of: string; readonly decks: KnownDecks } | null = null;

  const knownDecks = async (reports: Iterable<{ readonly decks: readonly FlownDeck[] }>): Promise<KnownDecks> => {
    const reported = reportedIn(reports);
    const here = learner.decks.value.filter(({ id }) => reported.has(id));
    const of = JSON.stringify([
      here.map(({ ref }) => ref),
      [...reported].map(([id, all]) => [id, [...all].map(([one, views]) => [one, [...views].sort()])]),
    ]);
    if (known?.of !== of) known = { of, decks: await inPieces(knowInSteps(here, reported), device.elapsed) };
    return known.decks;
  };

  const load = async (): Promise<void> => {
    const all = await store.read();
    const { settings, trainees } = all;
    const limit = device.now() - settings.keepDays * DAY;
    const old = all.heads.filter(({ taken }) => taken < limit);
    due.value =
      old.length === 0 ? null : { reports: old.length, people: peopleOf(old, trainees), keepDays: settings.keepDays };
    const heads = all.heads.filter(({ taken }) => taken >= limit);
    const people = peopleOf(heads, trainees);
    const newest = people.map((person) => person.newest);
    const reading = store.reports(newest.map(({ hash }) => hash));
    // Decks are looked up while the reports are still being read, where their heads say of which.
    const flown = newest.flatMap((head) => (head.flown === undefined ? [] : [{ decks: head.flown }]));
    const early = flown.length === newest.length ? knownDecks(flown) : null;
    early?.catch(() => undefined);
    const reports = await reading;
    const decks = await (early ?? knownDecks(reports.values()));
    const soon = heads.filter(({ taken }) => taken < limit + WARNED_DAYS * DAY);
    const drafts = await readDrafts(learner.store);
    const assigned = assignedRevisions(drafts);
    const told = { people, reports, only: new Set(settings.decks.map(({ id }) => id)) };
    view.value = {
      records: { ...all, heads },
      people,
      reports,
      decks,
      table: classTable({ people, reports, decks, settings, assigned, today: today() }),
      slips: commonSlips(told, decks),
      queries: queriesOf(told, decks),
      handed: handedNumbers(drafts),
      today: today(),
      going:
        soon.length === 0
          ? null
          : {
              reports: soon.length,
              first: calendarDay(device, Math.min(...soon.map(({ taken }) => taken)) + settings.keepDays * DAY),
            },
    };
  };
  /** One after the other: files are judged by the settings kept before them, and what is shown is what was read last. */
  let before: Promise<void> = Promise.resolve();
  const change = (work: () => Promise<unknown>): Promise<void> => {
    before = before.then(async () => {
      problem.value = null;
      try {
        await work();
        await load();
      } catch (error) {
        problem.value = error instanceof Error ? error.message : String(error);
      }
    });
    return before;
  };

  const takeText = async (name: string, text: string): Promise<FileResult> => {
    const received = await door.open(text);
    const { trainee, n, decks, made } = received.report;
    const expected = view.value?.records.settings.decks ?? [];
    if (expected.length > 0 && !decks.some(({ id }) => expected.some((one) => one.id === id))) {
      const titles = decks.map(({ title }) => title).join(', ') || 'no deck';
      return {
        name,
        outcome: 'refused',
        words: `A report of ${trainee} on another deck: ${titles}. Expected are the decks named under “What is kept”.`,
      };
    }
    const outcome = await store.take(received, door.letters(received.key), device.now());
    const whose = `Report ${n} of ${trainee}, made on ${dayIn(today(), made)}`;
    return {
      name,
      outcome,
      words: outcome === 'twice' ? `${whose}: it was here already, and counts once.` : `${whose}.`,
    };
  };
  const takeFile = async (file: File): Promise<FileResult> => {
    const name = file.webkitRelativePath || file.name;
    if (file.size > MOST_BYTES)
      return { name, outcome: 'refused', words: 'The file is larger than 2 MB: no report is.' };
    try {
      return await takeText(name, await file.text());
    } catch (error) {
      return { name, outcome: 'refused', words: error instanceof Error ? error.message : String(error) };
    }
  };

  await load();
  const refsHere = () => learner.decks.value.map(({ ref }) => ref).join();
  let refs = refsHere();
  // What is installed or removed elsewhere meanwhile, in another tab too, is seen at once.
  const unfollow = learner.decks.subscribe(() => {
    const now = refsHere();
    if (now === refs) return;
    refs = now;
    void change(async () => undefined);
  });
  return {
    door,
    view,
    due,
    results,
    waiting,
    problem,
    takeFiles: (files) =>
      change(async () => {
        results.value = [];
        waiting.value = files.length;
        const found: FileResult[] = [];
        for (const file of files) {
          found.push(await takeFile(file));
          waiting.value -= 1;
        }
        results.value = found;
      }),
    letGo: () => change(() => store.expire(device.now() - (view.value?.records.settings.keepDays ?? Number.NaN) * DAY)),
    putSettings: (settings) => change(() => store.putSettings(settings)),
    putNote: (person, note) => change(() => store.putNote(person.id, note)),
    putAnswered: ({ person, id }, answered) =>
      change(() =>
        store.putAnswered(
          person.devices.map(({ key }) => key),
          id,
          answered ? calendarDay(device, device.now()) : null,
        ),
      ),
    join: (person, to) => change(() => store.join(person.id, to.id)),
    part: (key) => change(() => store.part(key)),
    remove: (person) =>
      change(async () => {
        // Nothing of the trainee stays: neither what was said of the files, nor the name among those expected.
        results.value = [];
        const { settings } = await store.read();
        const theirs = expectedOf(settings, person);
        const expected = settings.expected.filter((name) => !theirs.includes(name));
        if (theirs.length > 0) await store.putSettings({ ...settings, expected });
        // Last: what breaks off before it is done by deleting once more.
        await store.remove(person.devices.map(({ key }) => key));
      }),
    clear: () => change(() => store.clear()),
    history: async ({ heads }) => {
      const found = await store.reports(heads.map(({ hash }) => hash));
      return heads.flatMap(({ hash }) => found.get(hash) ?? []);
    },
    close: () => {
      unfollow();
      store.close();
    },
  };
};
