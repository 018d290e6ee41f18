import { describe, expect, test } from 'vitest';
import { resolveInSteps } from '../../../src/deck/resolve.ts';
import { allOffers, checkDayOf, offersAhead, type World } from '../../../src/drill/world.ts';
import { offers } from '../../../src/forms/registry.ts';
import { emptyMemory } from '../../../src/memory/step.ts';
import type { Item } from '../../../src/model/item.ts';
import { resolvedDeck } from './practice.ts';

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

describe.each(['merrow-takeoff', 'wind-altimetry'])('questions of %s made ahead', (name) => {
  const whole = offers(resolvedDeck(name), null, 1);
  const asked = (decks: World['decks']) => allOffers({ decks, memory: emptyMemory() }).map(({ offer }) => offer);
  const plain = (list: readonly unknown[]) => list.map((one) => ({ ...(one as object), seconds: 0 }));

  test.each([
    ['not at all', 0],
    ['one step', 1],
    ['some', 40],
    ['all', Number.POSITIVE_INFINITY],
  ])('%s: those made at once, in their order', (_, steps) => {
    const resolved = resolvedDeck(name);
    const ahead = offersAhead([resolved]);
    for (let i = 0; i < steps && ahead.next().done !== true; i++);
    expect(plain(asked([resolved]))).toEqual(plain(whole));
    // Whoever was at it finds nothing left.
    expect(ahead.next().done).toBe(true);
    expect(asked([resolved])).toHaveLength(whole.length);
  });

  test('two at it at once make each once', () => {
    const resolved = resolvedDeck(name);
    const [one, other] = [offersAhead([resolved]), offersAhead([resolved])];
    for (let over = false; !over; ) {
      const [a, b] = [one.next(), other.next()];
      over = a.done === true && b.done === true;
    }
    expect(plain(asked([resolved]))).toEqual(plain(whole));
  });
});

test('a deck is resolved in many steps, none of them much of the whole', () => {
  const { deck } = resolvedDeck('merrow-takeoff');
  const steps = resolveInSteps(deck, 'a'.repeat(64), { engine: ['tk11'], operator: ['calder'] });
  let count = 0;
  for (let next = steps.next(); ; next = steps.next()) {
    if (next.done === true) {
      expect([...next.value.items]).toEqual([
        ...resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] }).items,
      ]);
      break;
    }
    count += 1;
  }
  const things = [...(deck.procedures ?? []), ...(deck.limits ?? []), ...(deck.scenarios ?? [])];
  expect(count).toBe(things.length);
});
