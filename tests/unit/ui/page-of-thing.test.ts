import { expect, test } from 'vitest';
import { pageOfThing } from '../../../src/ui/class/page-of-thing.ts';

const DRAFT = {
  id: 'calder/try',
  procedures: [
    { id: 'one', steps: [{ id: 'first' }] },
    { id: 'two', steps: [{ lanes: [[{ id: 'left' }], [{ steps: [{ id: 'deep' }] }]] }] },
  ],
  limits: [{ id: 'flaps' }],
  scenarios: [{ id: 'wind' }],
};

test.each([
  ['first', 'procedures/0'],
  ['deep', 'procedures/1'],
  ['left', 'procedures/1'],
  ['flaps', 'limits/0'],
  ['wind', 'scenarios/0'],
  ['gone', null],
])('%s stands on %s', (thing, page) => {
  expect(pageOfThing(DRAFT, 'calder/try', [thing])).toBe(page);
});

test('not in a draft of another deck, nor in one that is not yet a deck', () => {
  expect(pageOfThing(DRAFT, 'else/where', ['first'])).toBeNull();
  expect(pageOfThing({}, 'calder/try', ['first'])).toBeNull();
  expect(pageOfThing({ id: 'calder/try', procedures: 'none' }, 'calder/try', ['first'])).toBeNull();
});
