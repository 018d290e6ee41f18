import { type ReadonlySignal, signal } from '@preact/signals';
import { type Suspicion, suspectClock } from '../../log/clock.ts';
import { parseId } from '../../log/order.ts';
import type { ClockEntry } from '../../model/entry.ts';
import type { Store } from '../../model/ports.ts';
import type { Device } from '../device.ts';

const DAY = 86_400_000;

/** Entries written while the date of this device was in doubt, kept on the device: numbers of one writer. */
export interface Doubted {
  readonly writer: string;
  readonly from: number;
  readonly to: number;
  /** Time of the last entry before them, UTC ms; null where there was none. */
  readonly last: number | null;
}

export type Covering = Pick<ClockEntry, 'k' | 'writer' | 'from' | 'to' | 'shift'>;

/** The device's date, as far as it can be believed. While it cannot, no time passes and no day begins. */
export interface Clock {
  /** Why it cannot be right; null when nothing speaks against it, or when the learner said that it is. */
  readonly suspicion: ReadonlySignal<Suspicion | null>;
  /**
   * Looks at it again.
   * @param lastAt effective time of the latest entry, UTC ms; null when there is none
   * @returns what is to be written now that the date is right again
   */
  look(lastAt: number | null): Promise<Covering | null>;
  /** Notes that this entry, and the `clock` entry that follows it, are of unknown time. @returns what is to be written */
  doubt(entry: string, lastAt: number | null): Promise<Covering>;
  /** What was written in doubt, until `settle`. */
  doubted(): Promise<Doubted | null>;
  settle(): Promise<void>;
}

export const createClock = (store: Store, device: Device): Clock => {
  const suspicion = signal<Suspicion | null>(null);
  const doubted = async (): Promise<Doubted | null> =>
    ((await store.device.get('doubted')) as Doubted | undefined) ?? null;
  const put = (value: Doubted | undefined): Promise<void> => store.device.put('doubted', value);
  return {
    suspicion,
    doubted,
    look: async (lastAt) => {
      const now = device.now();
      const [accepted, open] = await Promise.all([store.device.get('clock-right'), doubted()]);
      // Said to be right within the last day: it has not become wrong meanwhile.
      const said = typeof accepted === 'number' && Math.abs(now - accepted) < DAY;
      suspicion.value = said ? null : suspectClock(now, open === null ? lastAt : open.last, device.build.at);
      if (suspicion.value !== null || open === null) return null;
      return { k: 'clock', writer: open.writer, from: open.from, to: open.to, shift: null };
    },
    doubt: async (entry, lastAt) => {
      const { writer, n } = parseId(entry) ?? { writer: store.writer, n: 0 };
      const open = await doubted();
      const known = open?.writer === writer ? open : null;
      // The clock entry has the next number.
      const to = n + 1;
      // Kept to mend them later; each is covered without it.
      await put({ writer, from: known?.from ?? n, to, last: known === null ? lastAt : known.last }).catch(
        () => undefined,
      );
      return { k: 'clock', writer, from: n, to, shift: null };
    },
    settle: () => put(undefined),
  };
};
