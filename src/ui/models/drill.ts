import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import {
  afterReading,
  type DrillEntry,
  type DrillEvent,
  type Reduced,
  reduce,
  startSession,
} from '../../drill/session.ts';
import type { Draft, Session } from '../../drill/types.ts';
import { freshLines, walkOf } from '../../drill/walk.ts';
import type { Reading } from '../../drill/walk-pictures.ts';
import type { World } from '../../drill/world.ts';
import { readStored } from '../../log/line.ts';
import { compareOrder, orderOf } from '../../log/order.ts';
import type { Nature } from '../../model/deck.ts';
import { type Given, titleOf } from '../../model/form.ts';
import type { Sure } from '../../model/item.ts';
import type { AnyEntry } from '../../model/ports.ts';
import { givenOf } from '../forms/given.ts';
import type { Course } from '../words.ts';
import { ownCheckDays } from './check-groups.ts';
import type { SessionSignal } from './drill-door.ts';
import { pause } from './in-pieces.ts';
import type { Learner } from './learner.ts';
import { planModelOf } from './plan.ts';
import { decksAsked, readyToAsk } from './plan-input.ts';

/** The drill under way: state is stored at each change, so that it goes on exactly there. */
export interface DrillModel {
  readonly session: ReadonlySignal<Session | null>;
  /** An answer is being stored. */
  readonly busy: ReadonlySignal<boolean>;
  /** What is to be read now. */
  readonly reading: ReadonlySignal<Reading | null>;
  readonly title: ReadonlySignal<string>;
  /** Where the question is from. */
  readonly about: ReadonlySignal<string>;
  readonly nature: ReadonlySignal<Nature | null>;
  /** Something changed under the drill: say so once. */
  readonly gone: ReadonlySignal<string | null>;
  start(course: Course): Promise<void>;
  readDone(): Promise<void>;
  draft(draft: Draft): void;
  answer(sure: Sure, unsure: readonly string[]): Promise<void>;
  next(): Promise<void>;
  misTap(): Promise<void>;
  query(note: string): Promise<void>;
  enough(): Promise<void>;
  /** Counts visible time while the drill is on the screen. @returns how to stop */
  watchTime(): () => void;
}

/** Time on the clock of one question counts no longer than this, s: the phone lay aside. */
const MOST_PAUSE = 120;

/** Of so many items the next question is worked out within the tap: 3 ms for 1,000, four times that on a slow phone. */
const AT_ONCE = 1000;

/**
 * @param learner its stored drill is taken up again
 * @param atOnce with more items the next question is worked out in turns
 */
export const createDrillModel = async (
  learner: Learner,
  session: SessionSignal,
  atOnce = AT_ONCE,
): Promise<DrillModel> => {
  const { store, device } = learner;
  const busy = signal(false);
  const gone = signal<string | null>(null);
  /** The next question is worked out. Not drawn: a drawing on the way would keep the question waiting for a frame. */
  let isGoingOn = false;
  /** Monotonic ms since when visible time was not yet added; null while hidden or elsewhere. */
  let since: number | null = null;

  const plans = planModelOf(learner);
  const worldOf = (course: string): World => ({
    ...decksAsked(learner, course as Course),
    memory: learner.memory.value,
    day: learner.today(),
    checkDay: learner.checkDay(course as Course),
    ownCheckDays: ownCheckDays(learner, course as Course),
    plan: plans.plan(course as Course),
  });
  const keep = (next: Session): void => {
    session.value = next;
    store.drill.put(next);
  };
  const take = ({ session: next, entry, said }: Reduced): DrillEntry | undefined => {
    if (said === 'gone')
      gone.value = 'The last question was of a deck, or of a version, that is not asked any more. It was left out.';
    keep(next);
    return entry;
  };
  const act = (event: DrillEvent): DrillEntry | undefined => {
    const now = session.value;
    return now === null ? undefined : take(reduce(now, event, worldOf(now.course)));
  };
  /** What comes next is worked out in one turn and drawn in another: on a slow phone both take their time. */
  const inTurns = async (work: (now: Session) => Reduced): Promise<DrillEntry | undefined> => {
    const before = session.value;
    if (before === null) return undefined;
    await readyToAsk(learner, before.course as Course);
    const now = session.value ?? before;
    const worked = work(now);
    await pause();
    // Time may have been added to it meanwhile.
    return take(session.value === now ? worked : work(session.value ?? now));
  };
  /** Counts the visible time since it was last counted, without a drawing of its own: a tap would wait for it. */
  const withTime = (): ((now: Session, world: World) => Session) => {
    const now = device.elapsed();
    const seconds = since === null ? 0 : Math.min(MOST_PAUSE, (now - since) / 1000);
    if (since !== null) since = now;
    return (was, world) => reduce(was, { k: 'time', seconds }, world).session;
  };
  const passTime = (): void => {
    const timed = withTime();
    const was = session.value;
    const next = was && timed(was, worldOf(was.course));
    if (next !== null && next !== was) keep(next);
  };
  /** Until it is stored nothing goes on. */
  const whileBusy = async (work: () => Promise<void>): Promise<void> => {
    if (busy.value) return;
    busy.value = true;
    try {
      await work();
    } catch {
      // `learner.problem` says so on the screen, with a button that tries again; the answer is kept in memory.
    } finally {
      busy.value = false;
    }
  };
  const finish = async (): Promise<void> => {
    if (session.value?.now.kind !== 'done') return;
    await learner.saveCheckpoint();
    if (session.value.answered.length > 0) await askToKeep(learner);
    void store.tidy().catch(() => undefined);
    // Loaded only here: most drills end without it being due. Without it memory stays as it is.
    void import('./own-memory.ts').then(({ fitWhenDue }) => fitWhenDue(learner, session)).catch(() => undefined);
  };

  // A plan that is stored is there before the first question; one that is not comes when it is worked out.
  await plans.look((session.value?.course as Course | undefined) ?? learner.course.value);
  if (session.value !== null) await repair(session.value);

  /** Killed between the log and the drill's own record: the log is the truth. */
  async function repair(was: Session): Promise<void> {
    if (!learner.writing.value) return;
    if (was.now.kind === 'verdict' && was.now.entry === null) {
      const entry = await lastAnswer(was.id);
      const known = was.answered.some((one) => one.entry === entry);
      if (entry !== null && !known) act({ k: 'stored', entry, outcome: await learner.outcomeOf(entry) });
      // Never written: it is asked again.
      else act({ k: 'unstored' });
    }
    act({ k: 'resume' });
  }

  /** Id of the answer of a drill that was written last. Read from the whole log: this is rare, and a checkpoint may hold it. */
  async function lastAnswer(drill: string): Promise<string | null> {
    let last: AnyEntry | null = null;
    await store.log.all((lines) => {
      for (const line of lines) {
        if (!line.includes(drill)) continue;
        const entry = readStored(line);
        const isIts = entry.k === 'answer' && entry.drill === drill;
        if (isIts && (last === null || compareOrder(orderOf(entry), orderOf(last)) > 0)) last = entry;
      }
    });
    return (last as AnyEntry | null)?.id ?? null;
  }

  // What could not be stored was written after all: the verdict learns of it.
  effect(() => {
    const told = learner.problem.value;
    const now = session.peek()?.now;
    if (told === null && now?.kind === 'verdict' && now.entry === null && !busy.peek())
      void whileBusy(async () => {
        const was = session.peek();
        if (was !== null && learner.store.log.unsaved.length === 0) await repair(was);
      });
  });

  const resolvedNow = computed(() => {
    const now = session.value?.now;
    if (now === undefined || now.kind === 'done') return null;
    return learner.practised.value.find(({ resolved }) => resolved.ref === now.deck) ?? null;
  });

  /** Also of a verdict that outlived its revision, which is not asked any more: what it was about is said as it was. */
  const storedNow = computed(() => {
    const now = session.value?.now;
    if (now === undefined || now.kind === 'done') return null;
    return resolvedNow.value?.stored ?? learner.decks.value.find(({ ref }) => ref === now.deck) ?? null;
  });

  return {
    session,
    busy,
    gone,
    reading: computed(() => {
      const now = session.value?.now;
      const found = resolvedNow.value;
      const walk = now?.kind === 'read' && found !== null ? walkOf(found.resolved, now) : null;
      if (now?.kind !== 'read' || found === null || walk === null) return null;
      return {
        walk,
        resolved: found.resolved,
        wanted: now,
        fresh: freshLines(walk, found.resolved, learner.memory.peek()),
      };
    }),
    title: computed(() => {
      const now = session.value?.now;
      if (now === undefined || now.kind === 'done' || now.kind === 'read') return 'Drill';
      return titleOf(now.shown);
    }),
    about: computed(() => storedNow.value?.title ?? ''),
    nature: computed(() => storedNow.value?.nature ?? (session.value?.course === 'fictional' ? 'fictional' : null)),
    start: async (course) => {
      await readyToAsk(learner, course);
      const at = device.now();
      gone.value = null;
      const seed = device.seed();
      const id = `${store.writer}-${at.toString(36)}`;
      const seconds = learner.minutes(course) * 60;
      const begun = startSession({ id, course, started: at, seconds, seed }, worldOf(course));
      await pause();
      keep(begun);
    },
    readDone: () =>
      whileBusy(async () => {
        passTime();
        const entry = act({ k: 'read' });
        if (entry !== undefined) await learner.append(entry);
        await inTurns((now) => ({ session: afterReading(now, worldOf(now.course)) }));
        await finish();
      }),
    draft: (draft) => void act({ k: 'draft', draft }),
    answer: (sure, unsure) =>
      whileBusy(async () => {
        const timed = withTime();
        const before = session.value;
        const now = before && timed(before, worldOf(before.course)).now;
        if (now?.kind !== 'ask') return;
        gone.value = null;
        const given: Given | null = sure === null ? null : givenOf(now.shown, now.draft);
        if (sure !== null && given === null) return;
        const said: DrillEvent = { k: 'answer', given, sure, unsure, ms: now.elapsed };
        const entry = await inTurns((was) => {
          const world = worldOf(was.course);
          return reduce(timed(was, world), said, world);
        });
        if (entry === undefined) return;
        await pause();
        const written = await learner.append(entry);
        act({ k: 'stored', entry: written.entry.id, outcome: written.outcome });
      }),
    next: async () => {
      if (busy.value || isGoingOn) return;
      isGoingOn = true;
      try {
        const timed = withTime();
        const was = session.value;
        if (was === null) return;
        const work = (now: Session, world: World) => reduce(timed(now, world), { k: 'next' }, world);
        const world = worldOf(was.course);
        // In turns the tap's own drawing comes first, and the question waits for the one behind it.
        if (world.decks.reduce((count, { items }) => count + items.size, 0) <= atOnce) take(work(was, world));
        else await inTurns((now) => work(now, worldOf(now.course)));
      } finally {
        isGoingOn = false;
      }
      void finish();
    },
    misTap: () =>
      whileBusy(async () => {
        const entry = act({ k: 'void', why: 'mis-tap' });
        if (entry !== undefined) await learner.append(entry);
      }),
    query: (note) =>
      whileBusy(async () => {
        const entry = act({ k: 'void', why: 'query', note });
        if (entry !== undefined) await learner.append(entry);
      }),
    enough: () =>
      whileBusy(async () => {
        passTime();
        act({ k: 'enough' });
        await finish();
      }),
    watchTime: () => {
      const visible = () => document.visibilityState === 'visible';
      const look = () => {
        if (visible()) since = device.elapsed();
        else {
          passTime();
          since = null;
        }
      };
      look();
      document.addEventListener('visibilitychange', look);
      // The bar moves, and the stored drill knows the time, without a tap.
      const timer = setInterval(() => {
        if (visible()) passTime();
      }, 5000);
      return () => {
        passTime();
        since = null;
        clearInterval(timer);
        document.removeEventListener('visibilitychange', look);
      };
    },
  };
};

/** After the first finished drill: may the browser promise to keep the answers? Settings shows its answer. */
const askToKeep = async ({ store }: Learner): Promise<void> => {
  if ((await store.device.get('asked-to-keep')) !== undefined) return;
  const answer = await store.persist();
  await store.device.put('asked-to-keep', answer).catch(() => undefined);
};
