import type { Suspicion } from '../../log/clock.ts';
import { readStored } from '../../log/line.ts';
import { parseId } from '../../log/order.ts';
import type { Learner } from './learner.ts';

/**
 * The device's date is right. Entries of this device that lie in the future were dated wrongly then: nobody knows by
 * how much, so no time passes between them.
 */
export const clockIsRight = async (learner: Learner, suspicion: Suspicion): Promise<void> => {
  const { store, device } = learner;
  const now = device.now();
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
};
