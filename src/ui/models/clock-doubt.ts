import type { Suspicion } from '../../log/clock.ts';
import { readStored } from '../../log/line.ts';
import { parseId } from '../../log/order.ts';
import type { Store } from '../../model/ports.ts';
import { type Covering, doubtedIn } from './clock.ts';
import type { Learner } from './learner.ts';

/**
 * Notes that an entry, and the `clock` entry that follows it, are of unknown time.
 * @param lastAt effective time of the latest entry before it, UTC ms
 * @returns what is to be written
 */
export const doubt = async (store: Store, entry: string, lastAt: number | null): Promise<Covering> => {
  const { writer, n } = parseId(entry) ?? { writer: store.writer, n: 0 };
  const open = await doubtedIn.get(store);
  const known = open?.writer === writer ? open : null;
  // The clock entry has the next number.
  const to = n + 1;
  const doubted = { writer, from: known?.from ?? n, to, last: known === null ? lastAt : known.last };
  // Kept to mend them all at once later; each is covered without it.
  await doubtedIn.put(store, doubted).catch(() => undefined);
  return { k: 'clock', writer, from: n, to, shift: null };
};

/**
 * The device's date is right. What was written while it was in doubt counts at its own time then. Entries that lie in
 * the future were dated wrongly: nobody knows by how much, so no time passes between them.
 * @throws StoreProblem
 */
export const clockIsRight = async (learner: Learner, suspicion: Suspicion): Promise<void> => {
  const { store, device } = learner;
  const now = device.now();
  const doubted = await doubtedIn.get(store);
  if (doubted !== null) {
    const { writer, from, to } = doubted;
    await learner.append({ k: 'clock', writer, from, to, shift: 0 });
    await doubtedIn.put(store, null);
  }
  if (suspicion === 'before-last') {
    const ranges = new Map<string, { from: number; to: number }>();
    await store.log.all((lines) => {
      for (const line of lines) {
        const { id, at } = readStored(line);
        const parts = parseId(id);
        if (parts === undefined || at <= now) continue;
        const range = ranges.get(parts.writer) ?? { from: parts.n, to: parts.n };
        ranges.set(parts.writer, { from: Math.min(range.from, parts.n), to: Math.max(range.to, parts.n) });
      }
    });
    for (const [writer, { from, to }] of ranges) await learner.append({ k: 'clock', writer, from, to, shift: null });
  }
  await store.device.put('clock-right', now);
  await learner.lookAtClock();
};
