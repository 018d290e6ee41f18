import { signal } from '@preact/signals';
import type { Store } from '../../model/ports.ts';
import type { Device } from '../device.ts';

/** May the device buzz at a verdict? Off unless the learner says so. */
export const buzzing = signal(false);

export const loadTouch = async (store: Store): Promise<void> => {
  buzzing.value = (await store.device.get('buzz')) === true;
};

export const setBuzzing = (store: Store, on: boolean): void => {
  buzzing.value = on;
  // Not kept: it is still next time.
  store.device.put('buzz', on).catch(() => undefined);
};

/** Once short where all was right, twice where not: the screen says the same. ms, with the pause between. */
const RIGHT = [30];
const WRONG = [60, 80, 60];

export const buzz = (device: Device, right: boolean): void => {
  if (buzzing.value) device.vibrate?.(right ? RIGHT : WRONG);
};
