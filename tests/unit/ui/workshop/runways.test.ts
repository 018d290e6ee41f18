import { expect, test } from 'vitest';
import { apply } from '../../../../src/draft/change.ts';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import { runwaysMeant } from '../../../../src/ui/workshop/fields/runways.ts';

const after = (draw: Json): readonly [words: string, draw: Json] | null => {
  const doc: Json = { draw };
  const meant = runwaysMeant(doc, '/draw', draw);
  return meant && [meant.words, (apply(doc, meant.changes) as { draw: Json }).draw];
};

// How runways are painted (tens of degrees, two digits): ICAO Annex 14, 5.2.2 (from memory).
test.each<[string, Json, string, Json]>([
  ['as painted', [7, 25], '70 and 250', [70, 250]],
  ['one of them whole tens', [7, 10, 25], '70, 100 and 250', [70, 100, 250]],
  ['beside degrees', [7, 250, 10], '70', [70, 250, 10]],
  ['beside one that is typed only by half', ['', 7], '70', ['', 70]],
])('numbers %s', (_, oneOf, words, numbers) => {
  expect(after({ oneOf, show: 'runway' })).toEqual([`Did you mean ${words}?`, { oneOf: numbers, show: 'runway' }]);
});

test('a range from 01 to 36', () => {
  expect(after({ from: 1, to: 36, show: 'runway' })).toEqual([
    'Did you mean from 10 to 360 in steps of 10?',
    { from: 10, to: 360, show: 'runway', step: 10 },
  ]);
});

test.each<[string, Json]>([
  ['degrees', { oneOf: [70, 250], show: 'runway' }],
  ['10, which is 010 as well', { oneOf: [10, 20], show: 'runway' }],
  ['what can be no runway', { oneOf: [7, 255], show: 'runway' }],
  ['what is not shown as a runway', { oneOf: [7, 25], show: 'direction' }],
  ['a range in degrees', { from: 10, to: 360, step: 10, show: 'runway' }],
  ['nothing yet', { oneOf: [''], show: 'runway' }],
])('nothing is asked of %s', (_, draw) => {
  expect(after(draw)).toBeNull();
});
