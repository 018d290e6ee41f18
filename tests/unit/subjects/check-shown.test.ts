import { expect, test } from 'vitest';
import { checkDeck } from '../../../src/deck/check.ts';
import { messageOf } from '../../../src/deck/messages.ts';
import { changed, type Loose } from '../../fixtures/decks/base.ts';

const said = (name: string, draw: Loose): string[] =>
  checkDeck(
    changed((d) => {
      d.scenarios[0].draw[name] = draw;
    }),
    { today: '2026-11-25' },
  ).flatMap((f) => (f.code === 'runway-degrees' || f.code === 'direction-range' ? [`${f.path} ${messageOf(f)}`] : []));

const RUNWAY = '/scenarios/0/draw/runway';

test('a runway that is not its tens of degrees is said at its place, with what is shown', () => {
  expect(said('runway', { oneOf: [70, 7, 365], show: 'runway' })).toEqual([
    `${RUNWAY}/oneOf/1 A runway is drawn in degrees, 70 for 07: 7 is shown as 01. Write tens from 10 to 360.`,
    `${RUNWAY}/oneOf/2 A runway is drawn in degrees, 70 for 07: 365 is shown as 01. Write tens from 10 to 360.`,
  ]);
  expect(said('runway', { from: 10, to: 360, show: 'runway' })).toEqual([
    `${RUNWAY}/step A runway is drawn in degrees, 70 for 07: 11 is shown as 01. Write tens from 10 to 360.`,
  ]);
  expect(said('runway', { from: 10, to: 370, step: 10, show: 'runway' })).toEqual([
    `${RUNWAY}/to A runway is drawn in degrees, 70 for 07: 370 is shown as 01. Write tens from 10 to 360.`,
  ]);
});

test('nothing is said of degrees, nor of numbers that are shown as they are', () => {
  expect(said('runway', { oneOf: [10, 70, 360], show: 'runway' })).toEqual([]);
  expect(said('runway', { from: 70, to: 250, step: 180, show: 'runway' })).toEqual([]);
  expect(said('runway', { oneOf: [7, 25] })).toEqual([]);
  expect(said('windDir', { from: 0, to: 360, step: 1, show: 'direction' })).toEqual([]);
});

test('a direction below 0 or above 360', () => {
  const [message] = said('windDir', { oneOf: [-10, 360], show: 'direction' });
  expect(message).toBe(
    '/scenarios/0/draw/windDir/oneOf/0 A direction is drawn in degrees from 0 to 360: -10 is shown as 350. Write it within them.',
  );
});
