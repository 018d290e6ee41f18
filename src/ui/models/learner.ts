import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { studyDay } from '../../log/study-day.ts';
import type { MemoryModel } from '../../memory/fsrs.ts';
import { createKeeper, type Keeper } from '../../memory/keeper.ts';
import { ownModel } from '../../memory/own-weights.ts';
import type { Memory, Outcome } from '../../memory/types.ts';
import type { Deck } from '../../model/deck.ts';
import type { Entry, NewEntry } from '../../model/entry.ts';
import type { NewDeck, Store, StoredDeck } from '../../model/ports.ts';
import type { Flown } from '../../subjects/resolved.ts';
import type { Device } from '../device.ts';
import { type Course, courseOf } from '../words.ts';
import { type Clock, createClock, doubtedIn } from './clock.ts';
import { createDayTurn } from './day-turn.ts';
import {
  type FactsData,
  factsInSteps,
  factsKept,
  factsName,
  factsOf,
  joinFacts,
  keptFacts,
  lazyFacts,
} from './facts.ts';
import { inPieces } from './in-pieces.ts';
import { flownOf, leftOutOf, minutesOf } from './own-settings.ts';
import { createRevisions, type Practised } from './revisions.ts';

export type { Practised };

type Bare = NewEntry extends infer E ? (E extends unknown ? Omit<E, 'at' | 'off'> : never) : never;
/** An entry without its time: the learner model says when. */
export type Said = Bare;

/** Answers after which the checkpoint is written. */
const CHECKPOINT_EVERY = 20;

/** Everything about one learner on this device: decks, settings, memory; all writing goes through here. */
export interface Learner {
  readonly store: Store;
  readonly device: Device;
  readonly clock: Clock;
  /** Is the device's date right? It may have been set meanwhile, right or wrong. */
  lookAtClock(): Promise<void>;
  /** All revisions that are here. */
  readonly decks: ReadonlySignal<readonly StoredDeck[]>;
  /** Decks in practice, each by the revision that is asked today. */
  readonly practised: ReadonlySignal<readonly Practised[]>;
  readonly course: ReadonlySignal<Course>;
  /** Courses with a deck in practice. */
  readonly courses: ReadonlySignal<readonly Course[]>;
  setCourse(course: Course): void;
  /** The fold of the log; the signal tells of each change. */
  readonly memory: ReadonlySignal<Memory>;
  /** Study day now; while the device's date is in doubt the last one that is known. */
  today(): number;
  setting(key: string): unknown;
  minutes(course: Course): number;
  /** Study day of the check, or null. */
  checkDay(course: Course): number | null;
  /** Variants of a deck, and under `LEFT_OUT` what of it is not asked, or not yet. */
  flown(deckId: string): Flown;
  /** Facets of steps that are not asked: cue, crew, words. */
  leftOut(course: Course): readonly string[];
  /** Of all decks that are here. */
  facts(): FactsData;
  /** Writes an entry, and folds it. @throws StoreProblem: nothing is lost, `problem` says so, `retry` writes it */
  append(said: Said): Promise<{ entry: Entry; outcome: Outcome | null }>;
  /** What an answer did; null where there is no such answer. */
  outcomeOf(entry: string): Promise<Outcome | null>;
  set(key: string, value: unknown): Promise<void>;
  install(deck: NewDeck): Promise<StoredDeck>;
  setActive(deck: StoredDeck, active: boolean): Promise<void>;
  /** For the learner: what could not be written, and what to do. */
  readonly problem: ReadonlySignal<string | null>;
  retry(): Promise<void>;
  saveCheckpoint(): Promise<void>;
  /** Reads everything again: another tab wrote, a copy was taken in, or other weights of memory were found. */
  reload(): Promise<void>;
  readonly writing: ReadonlySignal<boolean>;
  takeOver(): Promise<void>;
  dispose(): void;
}

/** @throws StoreProblem */
export const createLearner = async (device: Device, store: Store): Promise<Learner> => {
  const decks = signal<readonly StoredDeck[]>([]);
  const course = signal<Course>('fictional');
  const problem = signal<string | null>(null);
  const writing = signal(store.lock.state !== 'other');
  const version = signal(0);
  const parsed = new Map<string, Deck>();
  const facts = new Map<string, FactsData>();
  let keeper: Keeper;
  /** With the learner's own weights, where there are any. */
  let own: MemoryModel | null = null;
  let sinceCheckpoint = 0;
  const clock = createClock(store, device);
  /** Effective time of the last entry, UTC ms. */
  const lastAt = (): number | null => keeper.memory.upTo?.[0] ?? null;

  /** What writes and folds goes one after the other: a fold of the whole log must miss nothing and take nothing twice. */
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(work: () => Promise<T>): Promise<T> => {
    const done = turn.then(work);
    turn = done.catch(() => undefined);
    return done;
  };

  const deckOf = (stored: StoredDeck): Deck => {
    let deck = parsed.get(stored.ref);
    if (deck === undefined) {
      deck = JSON.parse(stored.text) as Deck;
      parsed.set(stored.ref, deck);
    }
    return deck;
  };
  /** The revision practised, or the one that came last. */
  const revision = (id: string): StoredDeck | undefined => {
    const all = decks.value.filter((one) => one.id === id);
    return all.find(({ active }) => active) ?? all.at(-1);
  };
  /** Revisions as they were when the log was folded last, those of decks with several: the one asked first. */
  let foldedFor: Readonly<Record<string, readonly string[]>> = {};
  const factsFor = (id: string): FactsData | undefined => {
    const several = foldedFor[id]?.flatMap((ref) => decks.value.find((one) => one.ref === ref) ?? []) ?? [];
    const [first, ...others] = several.length > 0 ? several : [revision(id) ?? []].flat();
    return first === undefined ? undefined : revisions.facts([first, ...others].map(factsIn));
  };
  const factsIn = (stored: StoredDeck): FactsData => {
    const data = facts.get(stored.ref) ?? factsOf(deckOf(stored), stored.contentId);
    keepFacts(stored, data);
    return data;
  };
  const keepFacts = (stored: StoredDeck, data: FactsData): void => {
    if (facts.has(stored.ref)) return;
    facts.set(stored.ref, data);
    // What is not kept is worked out once more.
    if (writing.value)
      void store.device.put(factsName(stored), keptFacts(device.build.at, data)).catch(() => undefined);
  };
  /** Working them out takes a small phone a quarter of a second: not at once, and not in the middle of the first answer. */
  const factsAhead = async (stored: StoredDeck): Promise<void> => {
    if (!facts.has(stored.ref))
      keepFacts(stored, await inPieces(factsInSteps(deckOf(stored), stored.contentId), device.elapsed));
  };
  const readFacts = (): Promise<unknown> =>
    Promise.all(
      decks.value.map(async (stored) => {
        const data = factsKept(await store.device.get(factsName(stored)).catch(() => undefined), device.build.at);
        if (data !== null) facts.set(stored.ref, data);
      }),
    );

  const allFacts = (): FactsData =>
    joinFacts([...new Set(decks.value.map(({ id }) => id))].flatMap((id) => factsFor(id) ?? []));

  const startKeeper = async (): Promise<void> => {
    const [kept, resumed] = await Promise.all([store.device.get('weights'), store.checkpoint.get()]);
    own = ownModel(kept);
    const made =
      resumed === null
        ? null
        : createKeeper({
            checkpoint: resumed.value,
            entries: resumed.entries,
            tail: resumed.tail,
            facts: lazyFacts(factsFor),
            own,
          });
    if (made === null) return void (await refold());
    keeper = made;
    version.value += 1;
  };
  /** @param tell entry whose outcome is returned */
  const refold = async (tell?: string): Promise<Outcome | null> => {
    const folded =
      (await store.log.count()) === 0
        ? { value: null, entries: 0, outcome: null }
        : await device.refold(store, allFacts(), {
            ...(tell !== undefined && { tell }),
            ...(own !== null && { weights: own.weights }),
          });
    const made = createKeeper({
      checkpoint: folded.value,
      entries: folded.entries,
      tail: [],
      facts: lazyFacts(factsFor),
      own,
    });
    if (made === null) throw new Error('The practice log was folded by another version of the app. Reload the page.');
    keeper = made;
    version.value += 1;
    if (folded.entries > 0) await saveCheckpoint();
    return folded.outcome;
  };
  const saveCheckpoint = async (): Promise<void> => {
    if (!writing.value) return;
    sinceCheckpoint = 0;
    // A lost checkpoint costs a fold, nothing else.
    await store.checkpoint.put(keeper.checkpoint()).catch(() => undefined);
  };
  /** The log is folded with what the revisions say that are asked today: where these are others by now, it is folded anew. */
  const settleRevisions = async (): Promise<void> => {
    const now = revisions.order.value;
    if (JSON.stringify(now) === JSON.stringify(foldedFor)) return;
    foldedFor = now;
    // A checkpoint of the one must not pass for one of the other: until the new one is stored, there is none.
    const note = (value: unknown) => (writing.value ? store.device.put('folded-for', value) : Promise.resolve());
    await note(null).catch(() => undefined);
    await refold();
    await note(now).catch(() => undefined);
  };
  const listDecks = async (): Promise<void> => {
    const all = await store.decks.list();
    await revisions.readyFor(all);
    decks.value = all;
  };
  const lookAtDay = async (): Promise<void> => {
    const before = day.value;
    day.value = today();
    if (day.value !== before) await settleRevisions();
  };
  const load = async (): Promise<void> => {
    const folded = await store.device.get('folded-for');
    foldedFor = typeof folded === 'object' && folded !== null ? (folded as typeof foldedFor) : {};
    await listDecks();
    const kept = await store.device.get('course');
    if (kept === 'fictional' || kept === 'real') course.value = kept;
    await readFacts();
    await startKeeper();
    day.value = today();
    await lookAtClock();
    await settleRevisions();
  };

  const fail = (error: unknown): never => {
    problem.value = error instanceof Error ? error.message : String(error);
    throw error;
  };
  const fold = async (entry: Entry): Promise<Outcome | null> => {
    const { outcome, needsRefold } = keeper.add(entry);
    // What it did is known in its place alone.
    if (needsRefold) return refold(entry.id);
    version.value += 1;
    sinceCheckpoint += 1;
    if (sinceCheckpoint >= CHECKPOINT_EVERY) void saveCheckpoint();
    return outcome;
  };
  const write = (said: Said): Promise<Entry> => {
    const at = device.now();
    return store.log.append({ ...said, at, off: device.off(at) } as NewEntry).catch(fail);
  };
  const settled = async (entry: Entry): Promise<Outcome | null> => {
    if (clock.suspicion.value === null || entry.k === 'clock') return fold(entry);
    const { doubt } = await import('./clock-doubt.ts');
    const covering = await doubt(store, entry.id, lastAt());
    // The entry is safe; where its cover cannot be written, `problem` says so and `retry` writes it.
    await write(covering).catch(() => undefined);
    return refold(entry.id);
  };
  const append = async (said: Said): Promise<{ entry: Entry; outcome: Outcome | null }> => {
    const entry = await write(said);
    const outcome = await settled(entry);
    // Dates are set by these.
    if (entry.k === 'set' || entry.k === 'clock') await settleRevisions();
    await lookAtDay();
    return { entry, outcome };
  };
  async function lookAtClock(): Promise<void> {
    const due = await clock.look(lastAt());
    if (due !== null && writing.value) {
      await append(due);
      await doubtedIn.put(store, null);
    }
    await lookAtDay();
  }

  const memory = computed((): Memory => {
    version.value;
    // A new object for each version, so that readers see a change; the maps within are the keeper's own.
    return { ...keeper.memory };
  });
  const setting = (key: string): unknown => memory.value.settings.get(key)?.value;
  const flown = (deckId: string): Flown =>
    flownOf(setting, deckId, decks.value.find(({ id }) => id === deckId)?.nature, day.value);

  const today = (): number => {
    const { days } = memory.value;
    if (clock.suspicion.value !== null && days.size > 0) return Math.max(...days);
    const now = device.now();
    return studyDay(now, device.off(now));
  };
  const checkDay = (which: Course): number | null => {
    const value = setting(`check-date/${which}`);
    const at = typeof value === 'string' ? Date.parse(`${value}T00:00:00Z`) : Number.NaN;
    return Number.isNaN(at) ? null : at / 86_400_000;
  };
  /** Study day, as far as is known to signals. */
  const day = signal(Number.NaN);
  const active = computed(() => decks.value.filter(({ active }) => active));
  const revisions = createRevisions({
    decks,
    deckOf,
    flown,
    dates: { checkDay, setting, today: () => day.value },
    memory: () => memory.value,
    elapsed: device.elapsed,
  });
  const { practised } = revisions;

  await load();
  await revisions.resolveAhead();
  // Of another build than the one that kept them: while the first screen is read.
  void active.value.reduce((before, one) => before.then(() => factsAhead(one)), Promise.resolve());
  const dayTurn = createDayTurn(device, () => void inTurn(lookAtClock).catch(() => undefined));

  const courses = computed(() => [...new Set(active.value.map(({ nature }) => courseOf(nature)))]);
  const chosen = computed(
    (): Course => (courses.value.includes(course.value) ? course.value : (courses.value[0] ?? course.value)),
  );

  const stopChanged = store.changed(() => {
    if (!writing.value) void inTurn(load).catch(() => undefined);
  });
  const stopLost = store.lock.onLost(() => {
    writing.value = false;
  });
  const stopCourse = effect(() => {
    const now = course.value;
    if (writing.peek()) void store.device.put('course', now).catch(() => undefined);
  });

  return {
    store,
    device,
    clock,
    lookAtClock: () => inTurn(lookAtClock),
    decks,
    practised,
    course: chosen,
    courses,
    setCourse: (next) => {
      course.value = next;
    },
    memory,
    today,
    setting,
    minutes: (which) => minutesOf(setting, which),
    checkDay,
    flown,
    leftOut: (which) => leftOutOf(setting, which),
    facts: allFacts,
    append: (said) => inTurn(() => append(said)),
    // Of those in the checkpoint only a fold of the whole log can tell.
    outcomeOf: (entry) => inTurn(async () => keeper.outcomeOf(entry) ?? (await refold(entry))),
    set: (key, value) => inTurn(async () => void (await append({ k: 'set', key, value }))),
    install: (deck) =>
      inTurn(async () => {
        const stored = await store.decks.put(deck).catch(fail);
        await factsAhead(stored);
        await listDecks();
        factsFor(stored.id);
        await append({ k: 'deck', deck: stored.ref, state: 'in' });
        course.value = courseOf(stored.nature);
        await settleRevisions();
        return stored;
      }),
    setActive: (deck, active) =>
      inTurn(async () => {
        await store.decks.setActive(deck.ref, active).catch(fail);
        await listDecks();
        await append({ k: 'deck', deck: deck.ref, state: active ? 'in' : 'out' });
        await settleRevisions();
      }),
    problem,
    retry: () =>
      inTurn(async () => {
        const written = await store.log.retry().catch(fail);
        problem.value = null;
        for (const entry of written) await settled(entry);
      }),
    saveCheckpoint,
    reload: () => inTurn(load),
    writing,
    takeOver: async () => {
      await store.lock.takeOver();
      writing.value = true;
      await inTurn(load);
    },
    dispose: () => {
      dayTurn.stop();
      stopChanged();
      stopLost();
      stopCourse();
    },
  };
};
