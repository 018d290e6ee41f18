const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** Why the device's date cannot be right, or the dates of earlier entries cannot. */
export type Suspicion = 'before-last' | 'before-build' | 'long-after';

/**
 * @param now UTC ms by the device
 * @param lastAt UTC ms of the latest entry; null when there is none
 * @param builtAt UTC ms at which this app was built
 * @returns null when nothing speaks against it
 */
export const suspectClock = (now: number, lastAt: number | null, builtAt: number): Suspicion | null => {
  if (lastAt !== null && now < lastAt - HOUR) return 'before-last';
  if (now < builtAt - DAY) return 'before-build';
  if (lastAt !== null && now > lastAt + 400 * DAY) return 'long-after';
  return null;
};
