import { type Signal, signal } from '@preact/signals';
import type { Store } from '../../model/ports.ts';

export type Appearance = 'device' | 'light' | 'dark';
/** Of letters: as large as the device says, a quarter more, more than half more. */
export type TextSize = 'device' | 'larger' | 'largest';

export const appearance = signal<Appearance>('device');
export const textSize = signal<TextSize>('device');

/** As the rules of the look (base.css) read it. */
const show = <T extends string>(name: 'light' | 'text', shown: Signal<T>, value: T): void => {
  shown.value = value;
  const { dataset } = document.documentElement;
  if (value === 'device') delete dataset[name];
  else dataset[name] = value;
};

export const loadAppearance = async ({ device }: Store): Promise<void> => {
  const [look, size] = await Promise.all([device.get('appearance'), device.get('text-size')]);
  if (look === 'light' || look === 'dark') show('light', appearance, look);
  if (size === 'larger' || size === 'largest') show('text', textSize, size);
};

// Not kept: it is as the device next time.
export const setAppearance = (store: Store, look: Appearance): void => {
  show('light', appearance, look);
  store.device.put('appearance', look).catch(() => undefined);
};

export const setTextSize = (store: Store, size: TextSize): void => {
  show('text', textSize, size);
  store.device.put('text-size', size).catch(() => undefined);
};
