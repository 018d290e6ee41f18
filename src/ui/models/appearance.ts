import { signal } from '@preact/signals';
import type { Store } from '../../model/ports.ts';

export type Appearance = 'device' | 'light' | 'dark';

export const appearance = signal<Appearance>('device');

const show = (look: Appearance): void => {
  appearance.value = look;
  if (look === 'device') delete document.documentElement.dataset.light;
  else document.documentElement.dataset.light = look;
};

export const loadAppearance = async (store: Store): Promise<void> => {
  const kept = await store.device.get('appearance');
  if (kept === 'light' || kept === 'dark') show(kept);
};

export const setAppearance = (store: Store, look: Appearance): void => {
  show(look);
  // Not kept: it is as the device next time.
  store.device.put('appearance', look).catch(() => undefined);
};
