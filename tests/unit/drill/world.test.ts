import { expect, test } from 'vitest';
import { checkDayOf, type World } from '../../../src/drill/world.ts';
import { emptyMemory } from '../../../src/memory/step.ts';
import type { Item } from '../../../src/model/item.ts';

const world = (checkDay: number | null, own?: World['ownCheckDays']): World => ({
  decks: [],
  memory: emptyMemory(),
  day: 100,
  checkDay,
  ...(own !== undefined && { ownCheckDays: own }),
});
const item = (group: string, groupKind: Item['groupKind']): Item => ({ deck: 'd/x', group, groupKind }) as Item;

test('a procedure may be checked before all else; limits and scenarios wait for the check of all', () => {
  const own = new Map([['d/x#roll', 105]]);
  expect(checkDayOf(world(120, own), item('roll', 'procedure'))).toBe(105);
  expect(checkDayOf(world(120, own), item('climb', 'procedure'))).toBe(120);
  expect(checkDayOf(world(120, own), item('roll', 'limit'))).toBe(120);
  expect(checkDayOf(world(120), item('roll', 'procedure'))).toBe(120);
  expect(checkDayOf(world(null), item('roll', 'procedure'))).toBeNull();
});
