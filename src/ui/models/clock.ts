import { type Suspicion, suspectClock } from '../../log/clock.ts';
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
