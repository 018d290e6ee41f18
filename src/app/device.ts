import { contentId } from '../exchange/content-id.ts';
import type { Device } from '../ui/device.ts';
import { build } from './build.ts';
import type { later } from './device-later.ts';
import { laterUpdates } from './later-updates.ts';

type Later = typeof later;

const whenAsked =
  <K extends keyof Later>(name: K) =>
  async (...args: Parameters<Later[K]>): Promise<Awaited<ReturnType<Later[K]>>> => {
    const { later } = await import('./device-later.ts');
    return (later[name] as (...args: unknown[]) => Promise<Awaited<ReturnType<Later[K]>>>)(...args);
  };

/** The device as this browser is one. */
export const browserDevice = (): Device => ({
  build,
  now: () => Date.now(),
  off: (at) => -new Date(at).getTimezoneOffset(),
  seed: () => crypto.getRandomValues(new Uint32Array(1))[0] ?? 0,
  elapsed: () => performance.now(),
  contentId,
  updates: laterUpdates(),
  wakeLock: () => {
    const held = import('./wake-lock.ts').then(({ holdAwake }) => holdAwake());
    return () => void held.then((letGo) => letGo());
  },
  // A page may not before it was tapped, and says so itself.
  vibrate: 'vibrate' in navigator ? (ms) => void navigator.vibrate([...ms]) : null,
  demoDecks: whenAsked('demoDecks'),
  demoText: whenAsked('demoText'),
  check: whenAsked('check'),
  workshop: whenAsked('workshop'),
  refold: whenAsked('refold'),
  fit: whenAsked('fit'),
  calendar: whenAsked('calendar'),
  lookBack: whenAsked('lookBack'),
  planner: whenAsked('planner'),
  readRows: whenAsked('readRows'),
  writeRows: whenAsked('writeRows'),
  save: whenAsked('save'),
  signing: whenAsked('signing'),
  handing: whenAsked('handing'),
  secondDevice: whenAsked('secondDevice'),
  qrCode: whenAsked('qrCode'),
  classDoor: whenAsked('classDoor'),
  assigning: whenAsked('assigning'),
});
