/** In the browser: the store of the app, and a bare put beside it. */
import { openDB } from 'idb';
import { openJournal } from '../src/journal/client.ts';
import { unionOf } from '../src/log/union.ts';
import type { NewEntry } from '../src/model/entry.ts';
import { openStore } from '../src/store/open.ts';

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1] ?? 0;

const entry = (n: number): NewEntry => ({
  k: 'answer',
  at: Date.UTC(2026, 0, 1, 18) + n * 30_000,
  off: 0,
  deck: 'bench/deck@0123456789abcdef',
  form: 'run',
  about: { thing: 'p' },
  variant: '',
  shown: {
    form: 'run',
    chips: Array.from({ length: 8 }, (_, i) => ({ id: `step-${i}`, text: 'Thrust levers to idle' })),
  },
  given: { order: Array.from({ length: 8 }, (_, i) => `step-${i}`) },
  sure: true,
  ms: 9000,
  marks: Object.fromEntries(Array.from({ length: 8 }, (_, i) => [`bench/deck#step-${i}.place~x`, 'right' as const])),
  g: 0.01,
  mv: 1,
});

const measure = async (times: number, behind: number) => {
  const store = await openStore({
    app: 'bench',
    name: 'bench',
    journal: () => openJournal('bench', () => new Worker('./journal.js', { type: 'module' })),
    exchange: () => Promise.reject(new Error('not measured')),
    union: async (...input) => unionOf(...input),
  });
  const bare = await openDB('bare', 1, { upgrade: (database) => void database.createObjectStore('log') });
  const line = JSON.stringify(entry(0));
  const ours: number[] = [];
  const theirs: number[] = [];
  for (let n = 0; n < times; n++) {
    const from = performance.now();
    await store.log.append(entry(n));
    const between = performance.now();
    const transaction = bare.transaction('log', 'readwrite', { durability: 'strict' });
    await transaction.store.put(line, n);
    await transaction.done;
    ours.push(between - from);
    theirs.push(performance.now() - between);
    // What either leaves to do, the journal's flush, is not in the other's way.
    await new Promise((done) => setTimeout(done, 10));
  }
  // A long log behind a checkpoint, of some 60 answers a day: what a start reads must not grow with it.
  const lines: string[] = [];
  for (let n = 0; n < behind; n++) {
    const at = entry(0).at - Math.ceil((behind - n) / 60) * 86_400_000 + (n % 60) * 30_000;
    lines.push(JSON.stringify({ v: 1, id: `other.${n + 1}`, app: 'bench', ...entry(0), at }));
  }
  await store.log.merge(lines);
  const entries = await store.log.count();
  const items = Array.from({ length: 600 }, (_, i) => [
    `bench/deck#step-${i}.place~x`,
    {
      s: 3.1,
      d: 5,
      day: 20_000,
      at: 1,
      n: 3,
      rightDays: 2,
      lastRightDay: 19_999,
      first: 1,
      verdict: 'sound',
      alert: null,
    },
  ]);
  await store.checkpoint.put({ value: { items }, entries });
  for (let n = 0; n < 20; n++) await store.log.append(entry(times + n));
  const reading = async () => {
    const reads: number[] = [];
    for (let i = 0; i < 15; i++) {
      const from = performance.now();
      const resumed = await store.checkpoint.get();
      reads.push(performance.now() - from);
      if (resumed?.tail.length !== 20) throw new Error(`a tail of ${resumed?.tail.length ?? 'nothing'}`);
    }
    return median(reads);
  };
  const unsealed = await reading();
  // As the app does after each drill: old days are sealed.
  await store.tidy();
  return { ours: median(ours), theirs: median(theirs), unsealed, sealed: await reading(), entries };
};
Object.assign(globalThis, { measure });
