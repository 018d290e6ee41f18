import { type Suspicion, suspectClock } from '../../log/clock.ts';
import { readLine } from '../../log/line.ts';
import { parseId } from '../../log/order.ts';
import type { Learner } from './learner.ts';

const DAY = 86_400_000;

export const clockSuspicion = async ({ store, device }: Learner): Promise<Suspicion | null> => {
  const now = device.now();
  const [lastAt, accepted] = await Promise.all([store.log.lastAt(), store.device.get('clock-right')]);
  const suspicion = suspectClock(now, lastAt, device.build.at);
  // Said to be right within the last day: it has not become wrong meanwhile.
  if (typeof accepted === 'number' && Math.abs(now - accepted) < DAY) return null;
  return suspicion;
};

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
        const { id, at } = readLine(line);
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
