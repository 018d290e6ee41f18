import { expect, test } from 'vitest';
import { valueAt } from '../../../src/draft/change.ts';
import { pageOfPlace, placeOfThing } from '../../../src/ui/class/place-of-thing.ts';

const DRAFT = {
  id: 'calder/try',
  procedures: [
    { id: 'one', steps: [{ id: 'first' }] },
    { id: 'two', steps: [{}, { lanes: [[{ id: 'left' }], [{ id: 'right' }, { steps: [{ id: 'deep' }] }]] }] },
  ],
  limits: [{ id: 'flaps' }],
  scenarios: [{ id: 'wind' }],
};

test.each([
  ['first', '/procedures/0/steps/0', 'procedures/0'],
  ['deep', '/procedures/1/steps/1/lanes/1/1/steps/0', 'procedures/1'],
  ['left', '/procedures/1/steps/1/lanes/0/0', 'procedures/1'],
  ['two', '/procedures/1', 'procedures/1'],
  ['flaps', '/limits/0', 'limits/0'],
  ['wind', '/scenarios/0', 'scenarios/0'],
])('%s stands at %s', (thing, place, page) => {
  expect(placeOfThing(DRAFT, 'calder/try', ['gone', thing])).toBe(place);
  expect(valueAt(DRAFT, place)).toMatchObject({ id: thing });
  expect(pageOfPlace(place)).toBe(page);
});

test('what is gone, not in a draft of another deck, nor in one that is not yet a deck', () => {
  expect(placeOfThing(DRAFT, 'calder/try', ['gone'])).toBeNull();
  expect(placeOfThing(DRAFT, 'else/where', ['first'])).toBeNull();
  expect(placeOfThing({}, 'calder/try', ['first'])).toBeNull();
  expect(placeOfThing({ id: 'calder/try', procedures: 'none' }, 'calder/try', ['first'])).toBeNull();
});
