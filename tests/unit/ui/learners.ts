import 'fake-indexeddb/auto';
import { vi } from 'vitest';
import { lookBack } from '../../../src/drill/past.ts';
import { noJournal } from '../../../src/journal/none.ts';
import { readStored } from '../../../src/log/line.ts';
import { unionOf } from '../../../src/log/union.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { AnyEntry, Store } from '../../../src/model/ports.ts';
import { openStore } from '../../../src/store/open.ts';
import type { Device } from '../../../src/ui/device.ts';
import { createLearner, type Learner, type Said } from '../../../src/ui/models/learner.ts';
import { foldLines } from '../../../src/workers/fold.ts';

// Without locks every store of this process may write, whatever the version of Node.
vi.stubGlobal('navigator', {});

export const DAY = 86_400_000;
export const AT = Date.parse('2026-11-25T10:00:00Z');
export const BUILT = Date.parse('2026-11-20T10:00:00Z');

/** A learner with a store and a clock of their own. */
export interface Bench {
  readonly learner: Learner;
  readonly store: Store;
  readonly device: { -readonly [K in keyof Device]: Device[K] };
  /** What the device says, UTC ms. */
  at: number;
  /** How often the whole log was folded. */
  refolds: number;
  /** As after a reload of the page. */
  again(): Promise<Learner>;
  entries(): Promise<AnyEntry[]>;
}

/** A device on which only the clock, the fold and what `more` brings is real. */
export const benchOf = async (deck: Deck, more: Partial<Device> = {}, at = AT): Promise<Bench> => {
  const store = await openStore({
    app: 'test',
    // Other files of tests share this process, and what is stored in it.
    name: `learner-${crypto.randomUUID()}`,
    journal: async () => noJournal,
    exchange: () => import('../../../src/exchange/saved-copy.ts'),
    union: async (...input) => unionOf(...input),
  });
  const lines = async () => {
    const all: string[] = [];
    await store.log.all((part) => void all.push(...part));
    return all;
  };
  const never = () => {
    throw new Error('Not on this bench.');
  };
  const device: Bench['device'] = {
    build: { version: 'test', at: BUILT },
    now: () => bench.at,
    off: () => 0,
    seed: () => 1,
    elapsed: () => 0,
    demoDecks: never,
    demoText: never,
    check: never,
    contentId: never,
    classDoor: never,
    refold: async (_, facts, how) => {
      bench.refolds += 1;
      const all = await lines();
      return { ...foldLines({ ...facts, ...how, lines: all }), entries: all.length };
    },
    lookBack: async (_, input) => lookBack({ ...input, lines: await lines() }),
    workshop: never,
    planner: never,
    calendar: never,
    fit: never,
    readRows: never,
    writeRows: never,
    save: never,
    signing: never,
    qrCode: never,
    handing: never,
    assigning: never,
    secondDevice: never,
    wakeLock: () => () => undefined,
    vibrate: null,
    updates: { subscribe: () => () => undefined, setBusy: never, accept: never, reload: never },
    ...more,
  };
  const bench: Bench = {
    store,
    device,
    at,
    refolds: 0,
    again: () => createLearner(device, store),
    entries: async () => (await lines()).map(readStored),
    learner: undefined as unknown as Learner,
  };
  const learner = await createLearner(device, store);
  const { id, version, title, nature } = deck;
  await learner.install({ id, version, title, nature, contentId: 'c'.repeat(64), text: JSON.stringify(deck) });
  return Object.assign(bench, { learner });
};

/** Four limits of an invented deck. */
export const LIMITS: Deck = {
  format: 1,
  id: 'calder/small',
  version: '1.0.0',
  title: 'Small',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 'inv', title: 'Invented manual', basis: 'invented' }],
  limits: ['one', 'two', 'three', 'four'].map((id, i) => ({
    id,
    ask: `Speed ${id}?`,
    unit: 'kt' as const,
    sense: 'exactly' as const,
    value: 100 + i,
    critical: i === 0,
  })),
} as Deck;

/** An answer about one limit of it. */
export const answered = (learner: Learner, thing: string, mark: 'right' | 'wrong', sure = true): Said => {
  const { resolved, stored } = learner.practised.value[0] ?? never();
  const item = [...resolved.items.values()].find((one) => one.thing === thing) ?? never();
  return {
    k: 'answer',
    deck: stored.ref,
    form: 'limit',
    about: { thing, case: 'standard' },
    variant: '',
    shown: {},
    given: null,
    sure,
    ms: 3000,
    marks: { [item.key]: mark },
    g: 0,
    mv: 1,
  };
};
const never = (): never => {
  throw new Error('Not in the deck.');
};
