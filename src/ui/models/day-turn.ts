import { studyDay } from '../../log/study-day.ts';
import type { Device } from '../device.ts';

const DAY = 86_400_000;
/** Study days turn at four in the morning. */
const TURN = 4 * 3_600_000;
/** ms: never at once again, and within what a timer can wait. */
const LEAST = 1000;
const MOST = DAY;

/** ms until the next study day by the device's own zone of now. */
export const untilTurn = (now: number, off: number): number => {
  const next = (studyDay(now, off) + 1) * DAY + TURN - off * 60_000;
  return Math.min(MOST, Math.max(LEAST, next - now));
};

/** Calls back when a study day begins while the page is open; a sleeping phone is looked at when it wakes. */
export const createDayTurn = (
  device: Pick<Device, 'now' | 'off'>,
  turned: () => void,
): { readonly stop: () => void } => {
  let timer: ReturnType<typeof setTimeout>;
  const wait = (): void => {
    const now = device.now();
    timer = setTimeout(
      () => {
        turned();
        wait();
      },
      untilTurn(now, device.off(now)),
    );
  };
  wait();
  return { stop: () => clearTimeout(timer) };
};
