import { effect, type ReadonlySignal, type Signal, signal } from '@preact/signals';
import type { NoSurvey, Survey, SurveyTask } from '../../../deck/survey/types.ts';
import type { DraftModel } from '../model/draft.ts';
import type { Live } from '../model/live.ts';

/** What an author looks at: everything of a task but where the scenario stands. */
export type Wish = Omit<SurveyTask, 'scenario'>;

export interface BenchModel {
  readonly wish: Signal<Wish>;
  /** The last that was found; null at first. */
  readonly found: ReadonlySignal<Survey | NoSurvey | null>;
  /** The draft or the wish has changed since. */
  readonly busy: ReadonlySignal<boolean>;
  /** The survey could not be made at all. */
  readonly failed: ReadonlySignal<boolean>;
  /** Changes a part of the wish. */
  want(part: Partial<Wish>): void;
  dispose(): void;
}

const FIRST: Wish = { ask: 0, variant: 0, seed: 1, x: null, y: null, around: null };

/** ms without a key after which the draws are looked at again. */
const REST = 250;

/** @param scenario its place in the deck */
export const createBench = (
  draft: Pick<DraftModel, 'value'>,
  live: Pick<Live, 'survey'>,
  scenario: number,
): BenchModel => {
  const wish = signal<Wish>(FIRST);
  const found = signal<Survey | NoSurvey | null>(null);
  const busy = signal(true);
  const failed = signal(false);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let last: object | null = null;
  let seen: unknown;
  const look = async (task: SurveyTask, mine: object): Promise<void> => {
    try {
      const survey = await live.survey(task);
      if (last !== mine || survey === null) return;
      found.value = survey;
      failed.value = false;
    } catch {
      if (last !== mine) return;
      failed.value = true;
    }
    busy.value = false;
  };
  const stop = effect(() => {
    const task = { ...wish.value, scenario };
    // What is asked for by hand is looked at at once, what is typed when the keys rest.
    const wait = draft.value.value !== seen && seen !== undefined ? REST : 0;
    seen = draft.value.value;
    busy.value = true;
    const mine = {};
    last = mine;
    clearTimeout(timer);
    timer = setTimeout(() => void look(task, mine), wait);
  });
  return {
    wish,
    found,
    busy,
    failed,
    want: (part) => {
      wish.value = { ...wish.peek(), ...part };
    },
    dispose: () => {
      last = null;
      clearTimeout(timer);
      stop();
    },
  };
};
