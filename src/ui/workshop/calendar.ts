import type { Device } from '../device.ts';

/**
 * The date that the device's calendar shows, ISO; a study day goes on until four in the morning, a date does not.
 * @param at UTC ms
 */
export const calendarDate = ({ now, off }: Pick<Device, 'now' | 'off'>, at = now()): string =>
  new Date(at + off(at) * 60_000).toISOString().slice(0, 10);
