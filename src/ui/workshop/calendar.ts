import type { Device } from '../device.ts';

/** The date that the device's calendar shows, ISO; a study day goes on until four in the morning, a date does not. */
export const calendarDate = ({ now, off }: Pick<Device, 'now' | 'off'>): string => {
  const at = now();
  return new Date(at + off(at) * 60_000).toISOString().slice(0, 10);
};
