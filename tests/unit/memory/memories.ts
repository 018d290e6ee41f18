import { emptyMemory, type Folding } from '../../../src/memory/step.ts';
import type { ItemMemory } from '../../../src/memory/types.ts';
import type { Item } from '../../../src/model/item.ts';

/** Any study day. */
export const DAY = 20_000;

export const itemAt = (rank: number, more: Partial<Item> = {}): Item => ({
  key: `calder/small#thing-${rank}.value.standard~0`,
  deck: 'calder/small',
  thing: `thing-${rank}`,
  facet: 'value',
  group: `thing-${rank}`,
  groupKind: 'limit',
  critical: false,
  label: `Thing ${rank}`,
  rank,
  views: [''],
  ...more,
});

/** Answered `ago` days before DAY, with a stability of `s` days. */
export const known = (s: number, ago: number, more: Partial<ItemMemory> = {}): ItemMemory => ({
  s,
  d: 5,
  day: DAY - ago,
  at: (DAY - ago) * 86_400_000,
  n: 2,
  rightDays: 2,
  lastRightDay: DAY - ago,
  first: DAY - 30,
  verdict: 'sound',
  alert: null,
  ...more,
});

export const memoryOf = (list: readonly (readonly [Item, ItemMemory])[], more: Partial<Folding> = {}): Folding => ({
  ...emptyMemory(),
  items: new Map(list.map(([{ key }, memory]) => [key, memory])),
  ...more,
});
