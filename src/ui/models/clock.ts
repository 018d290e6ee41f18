import { type ReadonlySignal, signal } from '@preact/signals';
import { type Suspicion, suspectClock } from '../../log/clock.ts';
import type { ClockEntry } from '../../model/entry.ts';
import type { Store } from '../../model/ports.ts';
import type { Device } from '../device.ts';

const DAY = 86_400_000;

/** Entries written while the date of this device was in doubt: numbers of one writer. */
export interface Doubted {
  readonly writer: string;
  readonly from: number;
  readonly to: number;
  /** Time of the last entry before them, UTC ms; null where there was none. */
  readonly last: number | null;
}

export type Covering = Pick<ClockEntry, 'k' | 'writer' | 'from' | 'to' | 'shift'>;

/** Kept on this device until they are settled; `put` null then. */
export const doubtedIn = {
  get: async (store: Store): Promise<Doubted | null> =>
    ((await store.device.get('doubted')) as Doubted | null | undefined) ?? null,
  put: (store: Store, doubted: Doubted | null): Promise<void> => store.device.put('doubted', doubted),
};

/** The device's date, as far as it can be believed. While it cannot, no time passes and no day begins. */
export interface Clock {
  /** Why it cannot be right; null when nothing speaks against it, or when the learner said that it is. */
  readonly suspicion: ReadonlySignal<Suspicion | null>;
  /**
   * Looks at it again.
   * @param lastAt effective time of the latest entry, UTC ms; null when there is none
   * @returns what is to be written, before `doubtedIn.put` null, now that the date is right again
   */
  look(lastAt: number | null): Promise<Covering | null>;
}

export const createClock = (store: Store, device: Device): Clock => {
  const suspicion = signal<Suspicion | null>(null);
  return {
    suspicion,
    look: async (lastAt) => {
      const now = device.now();
      const [accepted, open] = await Promise.all([store.device.get('clock-right'), doubtedIn.get(store)]);
      // Said to be right within the last day: it has not become wrong meanwhile.
      const said = typeof accepted === 'number' && Math.abs(now - accepted) < DAY;
      suspicion.value = said ? null : suspectClock(now, open === null ? lastAt : open.last, device.build.at);
      if (suspicion.value !== null || open === null) return null;
      const { writer, from, to } = open;
      return { k: 'clock', writer, from, to, shift: null };
    },
  };
};
