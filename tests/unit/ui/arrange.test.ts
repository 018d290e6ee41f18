import fc from 'fast-check';
import { expect, test } from 'vitest';
import { move, toggle } from '../../../src/ui/forms/run/arrange.ts';

const orders = fc.uniqueArray(fc.string({ maxLength: 3 }), { minLength: 1, maxLength: 12 });

test('the next number is given; taken away, the later ones move up', () => {
  expect(toggle(['a', 'b'], 'c')).toEqual(['a', 'b', 'c']);
  expect(toggle(['a', 'b', 'c'], 'b')).toEqual(['a', 'c']);
});

test('a step goes to another place, the others keep their order; beyond the ends it stays at the end', () => {
  expect(move(['a', 'b', 'c', 'd'], 'a', 2)).toEqual(['b', 'c', 'a', 'd']);
  expect(move(['a', 'b', 'c', 'd'], 'd', 1)).toEqual(['a', 'd', 'b', 'c']);
  expect(move(['a', 'b'], 'a', 9)).toEqual(['b', 'a']);
  expect(move(['a', 'b'], 'b', -1)).toEqual(['b', 'a']);
  expect(move(['a', 'b'], 'x', 0)).toEqual(['a', 'b']);
});

test('a step that is moved arrives where it was sent, and none is lost', () => {
  fc.assert(
    fc.property(orders, fc.nat(11), fc.nat(11), (order, from, to) => {
      const id = order[from % order.length] as string;
      const place = to % order.length;
      const moved = move(order, id, place);
      expect(moved.indexOf(id)).toBe(place);
      expect(moved.filter((one) => one !== id)).toEqual(order.filter((one) => one !== id));
    }),
    { seed: 20261125 },
  );
});
