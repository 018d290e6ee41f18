import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { type Rehearsable, type Rehearsal, rehearsables, rehearse, type Wish } from '../../drill/rehearsal.ts';
import { answerIn, isOf, toldOf } from '../../drill/rehearsal-told.ts';
import type { Draft, Told } from '../../drill/types.ts';
import { readStored } from '../../log/line.ts';
import { compareOrder, orderOf } from '../../log/order.ts';
import { recallChance } from '../../memory/fsrs.ts';
import type { ItemKey, Sure } from '../../model/item.ts';
import type { AnyEntry } from '../../model/ports.ts';
import { givenOf } from '../forms/given.ts';
import { courseOf } from '../words.ts';
import type { Learner, Practised } from './learner.ts';

/** Under which the device keeps the rehearsal under way; what was answered is in the log. */
const KEPT = 'rehearsal';
const KEPT_SEAT = 'seat';

/** Time on the clock of one question counts no longer than this, ms: the phone lay aside. */
const MOST_PAUSE = 120_000;

export interface RehearsalModel {
  readonly rehearsal: ReadonlySignal<Rehearsal | null>;
  /** One a question; null: not answered yet. */
  readonly told: ReadonlySignal<readonly (Told | null)[]>;
  /** The question that is put: the first not answered; -1: all are, and the verdicts are told. */
  readonly at: ReadonlySignal<number>;
  /** The deck of it, as it is flown. */
  readonly practised: ReadonlySignal<Practised | null>;
  readonly draft: ReadonlySignal<Draft>;
  readonly busy: ReadonlySignal<boolean>;
  /** What can be rehearsed of the course, deck after deck. */
  readonly choice: ReadonlySignal<readonly Rehearsable[]>;
  /** Crew id of the seat taken last. */
  readonly seat: ReadonlySignal<string | null>;
  /** @returns false where nothing of it can be asked */
  begin(deck: string, wish: Pick<Wish, 'procedure' | 'variant' | 'situation' | 'seat'>): Promise<boolean>;
  /** What a procedure that was not read yet holds has been read. @param steps ids */
  read(deck: string, steps: readonly string[]): Promise<boolean>;
  put(draft: Draft): void;
  answer(sure: Sure, unsure: readonly string[]): Promise<void>;
  query(told: Told, note: string): Promise<void>;
  /** Verdicts read, or given up: what was answered counts. */
  end(): Promise<void>;
  /** Counts visible time while a question is on the screen. @returns how to stop */
  watchTime(): () => void;
  dispose(): void;
}

/** @param learner the rehearsal under way on this device is taken up again, behind the last answer in the log */
export const createRehearsalModel = async (learner: Learner): Promise<RehearsalModel> => {
  const { store, device } = learner;
  const rehearsal = signal<Rehearsal | null>(null);
  const told = signal<readonly (Told | null)[]>([]);
  const draft = signal<Draft>({});
  const busy = signal(false);
  const keptSeat = await store.device.get(KEPT_SEAT);
  const seat = signal<string | null>(typeof keptSeat === 'string' ? keptSeat : null);
  /** Visible ms on the question so far, and monotonic ms since when more was not yet added; null while hidden. */
  let spent = 0;
  let since: number | null = null;
  /** Something could not be stored; perhaps it is by now. */
  let failed = false;

  const deckOf = (ref: string): Practised | null =>
    learner.practised.value.find(({ resolved }) => resolved.ref === ref) ?? null;
  const practised = computed(() => (rehearsal.value === null ? null : deckOf(rehearsal.value.deck)));

  const passTime = (): void => {
    if (since === null) return;
    const now = device.elapsed();
    spent += Math.min(MOST_PAUSE, now - since);
    since = now;
  };
  const nextQuestion = (): void => {
    passTime();
    spent = 0;
    draft.value = {};
  };

  /** The log is the truth: also of what was written while a record was not. */
  const look = async (of: Rehearsal): Promise<void> => {
    const found = deckOf(of.deck);
    // The deck was amended, rests, or is flown otherwise: what was answered counts, the rest is begun again.
    if (found === null || found.resolved.views.every(({ id }) => id !== of.variant)) return drop();
    const entries: AnyEntry[] = [];
    await store.log.all((lines) => {
      for (const line of lines) {
        if (!line.includes(of.id)) continue;
        const entry = readStored(line);
        if (isOf(of, entry)) entries.push(entry);
      }
    });
    entries.sort((a, b) => compareOrder(orderOf(a), orderOf(b)));
    told.value = toldOf(found.resolved, of, entries);
    rehearsal.value = of;
  };
  const drop = async (): Promise<void> => {
    rehearsal.value = null;
    told.value = [];
    nextQuestion();
    await store.device.put(KEPT, null);
  };
  const whileBusy = async (work: () => Promise<void>): Promise<boolean> => {
    if (busy.value) return false;
    busy.value = true;
    try {
      await work();
      return true;
    } catch {
      // `learner.problem` says so on the screen, with a button that tries again.
      failed = true;
      return false;
    } finally {
      busy.value = false;
    }
  };

  const kept = (await store.device.get(KEPT)) as Rehearsal | null | undefined;
  if (kept?.v === 1) await look(kept);

  // What could not be stored was written after all.
  const dispose = effect(() => {
    const of = rehearsal.peek();
    if (learner.problem.value !== null || !failed || of === null) return;
    failed = false;
    void whileBusy(async () => {
      await look(of);
      nextQuestion();
    });
  });

  return {
    rehearsal,
    told,
    at: computed(() => told.value.indexOf(null)),
    practised,
    draft,
    busy: computed(() => busy.value || learner.problem.value !== null),
    choice: computed(() =>
      learner.practised.value
        .filter(({ stored }) => courseOf(stored.nature) === learner.course.value)
        .flatMap(({ resolved }) => rehearsables(resolved, learner.memory.value)),
    ),
    seat,
    begin: async (deck, wish) => {
      let begun = false;
      await whileBusy(async () => {
        const found = deckOf(deck);
        if (found === null) return;
        const id = `${store.writer}-r${device.now().toString(36)}`;
        const of = rehearse(found.resolved, learner.memory.value, { ...wish, id, seed: device.seed() });
        if (of === null) return;
        await store.device.put(KEPT, of);
        if (wish.seat !== null) {
          seat.value = wish.seat;
          await store.device.put(KEPT_SEAT, wish.seat);
        }
        told.value = of.questions.map(() => null);
        rehearsal.value = of;
        nextQuestion();
        begun = true;
      });
      return begun;
    },
    read: (deck, steps) => whileBusy(async () => void (await learner.append({ k: 'read', deck, about: [...steps] }))),
    put: (next) => {
      draft.value = next;
    },
    answer: async (sure, unsure) => {
      await whileBusy(async () => {
        const of = rehearsal.value;
        const at = told.value.indexOf(null);
        const question = of?.questions[at];
        const found = practised.value;
        if (of === null || question === undefined || found === null) return;
        passTime();
        const given = sure === null ? null : givenOf(question.shown, draft.value);
        if (sure !== null && given === null) return;
        const { memory } = learner;
        const day = learner.today();
        const chance = (key: ItemKey): number => {
          const known = memory.value.items.get(key);
          return known === undefined ? 0 : recallChance(known, day, memory.value.model);
        };
        const entry = answerIn(found.resolved, of, at, { given, sure, unsure, ms: spent }, chance);
        if (entry === null) return drop();
        const written = await learner.append(entry);
        const [one = null] = toldOf(found.resolved, { ...of, questions: [question] }, [written.entry]);
        const verdicts = written.outcome?.verdicts ?? {};
        told.value = told.value.map((before, i) => (i === at && one !== null ? { ...one, verdicts } : before));
        nextQuestion();
      });
    },
    query: async ({ entry }, note) => {
      const of = rehearsal.value;
      if (entry === null || of === null) return;
      await whileBusy(async () => {
        const said = note.trim();
        await learner.append({ k: 'void', drill: of.id, of: entry, why: 'query', ...(said !== '' && { note: said }) });
        told.value = told.value.map((one) => (one?.entry === entry ? { ...one, voided: 'query' } : one));
      });
    },
    end: async () => {
      await whileBusy(async () => {
        await drop();
        await learner.saveCheckpoint();
        void store.tidy().catch(() => undefined);
      });
    },
    watchTime: () => {
      const onChange = () => {
        passTime();
        since = document.visibilityState === 'visible' ? device.elapsed() : null;
      };
      onChange();
      document.addEventListener('visibilitychange', onChange);
      return () => {
        passTime();
        since = null;
        document.removeEventListener('visibilitychange', onChange);
      };
    },
    dispose,
  };
};
