import type { Suspicion } from '../../log/clock.ts';
import { readStored } from '../../log/line.ts';
import { parseId } from '../../log/order.ts';
import type { Learner } from './learner.ts';

/**
 * The device's date is right. What was written while it was in doubt counts at its own time then. Entries that lie in
 * the future were dated wrongly: nobody knows by how much, so no time passes between them.
 * @throws StoreProblem
 */
export const clockIsRight = async (learner: Learner, suspicion: Suspicion): Promise<void> => {
  const { store, device, clock } = learner;
  const now = device.now();
  const doubted = await clock.doubted();
  if (doubted !== null) {
    const { writer, from, to } = doubted;
    await learner.append({ k: 'clock', writer, from, to, shift: 0 });
    await clock.settle();
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
