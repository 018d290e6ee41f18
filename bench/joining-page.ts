/** In the browser: a saved copy joined to what is here, as the app does it. */
import { noJournal } from '../src/journal/none.ts';
import { toLine } from '../src/log/line.ts';
import type { Entry } from '../src/model/entry.ts';
import { openStore } from '../src/store/open.ts';
import { exchangeAway, unionAway } from '../src/workers/joining-client.ts';

const line = (n: number): string =>
  toLine({
    v: 1,
    id: `other.${n + 1}`,
    app: 'bench',
    k: 'answer',
    at: Date.UTC(2026, 0, 1, 18) - Math.ceil(n / 60) * 86_400_000 + (n % 60) * 30_000,
    off: 0,
    deck: 'bench/deck@0123456789abcdef',
    form: 'run',
    about: { thing: 'p' },
    variant: '',
    shown: { form: 'run', chips: ['a', 'b', 'c', 'd', 'e'].map((id) => ({ id, text: 'Thrust levers to idle' })) },
    given: { order: ['a', 'b', 'c', 'd', 'e'] },
    sure: true,
    ms: 9000,
    marks: Object.fromEntries([0, 1, 2, 3, 4].map((i) => [`bench/deck#step-${i}.place~x`, 'right' as const])),
    g: 0.01,
    mv: 1,
  } as Entry);

const measure = async (entries: number) => {
  const store = await openStore({
    app: 'bench',
    name: 'joining',
    journal: async () => noJournal,
    exchange: async () => exchangeAway,
    union: unionAway,
  });
  const lines = Array.from({ length: entries }, (_, n) => line(n));
  await store.log.merge(lines.slice(0, entries / 2));
  const copy = exchangeAway.writeCopy({ decks: [], lines }, { app: 'bench', at: 0 });
  let held = 0;
  let last = performance.now();
  const beat = setInterval(() => {
    const now = performance.now();
    held = Math.max(held, now - last);
    last = now;
  }, 5);
  const timed = async (work: () => Promise<unknown>) => {
    const from = performance.now();
    await work();
    return performance.now() - from;
  };
  const parsed = await timed(async () => lines.map((one) => JSON.parse(one) as unknown));
  held = 0;
  last = performance.now();
  const read = await timed(() => exchangeAway.readCopy(copy));
  const merged = await timed(async () => {
    const report = await store.log.merge(lines);
    if (report.answers !== entries / 2) throw new Error(`${report.answers} answers came in`);
  });
  const again = await timed(() => store.log.merge(lines));
  clearInterval(beat);
  return { parsed, read, merged, again, held };
};
Object.assign(globalThis, { measure });
