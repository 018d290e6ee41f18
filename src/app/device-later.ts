import type { Device } from '../ui/device.ts';

/** What the device does only when it is asked to: nothing of it, not even its name, belongs into the start. */
export const later = {
  demoDecks: async () => (await fetch('./decks/index.json')).json(),
  demoText: async ({ file }) => {
    const response = await fetch(`./decks/${file}`);
    if (!response.ok) throw new Error(`${file}: ${response.status}`);
    return response.text();
  },
  check: async (text, today, signal) => {
    const { connectChecker } = await import('../workers/check-client.ts');
    const checker = connectChecker();
    try {
      return await checker.call({ text, today }, { signal });
    } finally {
      checker.dispose();
    }
  },
  workshop: async () => (await import('../workers/workshop-client.ts')).connectWorkshop(),
  refold: async (store, facts, how) => {
    const { foldAway } = await import('../workers/fold-client.ts');
    return foldAway(store, { ...facts, ...how });
  },
  fit: async (store, facts, stop) => {
    const { fitAway } = await import('../workers/fit-client.ts');
    return fitAway(store, facts, stop);
  },
  calendar: async (days) => (await import('../exchange/calendar.ts')).writeCalendar(days),
  lookBack: async (store, input) => (await import('../workers/past-client.ts')).lookBackAway(store, input),
  planner: async () => (await import('../workers/plan-client.ts')).connectPlanner(),
  readRows: async (text, as) => (await import('../exchange/rows.ts')).readRows(text, as),
  writeRows: async (rows) => (await import('../exchange/rows-out.ts')).writeRows(rows),
  save: async (name, text) => (await import('./save-text.ts')).saveText(name, text),
  signing: async () => (await import('../exchange/signing.ts')).signing,
  handing: async () => (await import('./hand-over.ts')).handing,
  classDoor: async () => (await import('./class-door.ts')).classDoor,
  assigning: async () => (await import('./assigning.ts')).assigning,
  secondDevice: async (store) =>
    (await import('../sync/second-device.ts')).secondDevice({ store, app: location.href, now: Date.now }),
  qrCode: async (text) => (await import('./qr-code.ts')).qrCode(text),
} satisfies Partial<Device>;
