import { expect, test } from 'vitest';
import { expectedOf, peopleOf, union } from '../../../src/class/people.ts';
import type { Head, TraineeRecord } from '../../../src/class/types.ts';

const head = (key: string, n: number, given: Partial<Head> = {}): Head => ({
  hash: `${key}-${n}`,
  key,
  trainee: 'Falcon',
  n,
  made: `2026-11-${10 + n}`,
  taken: Date.parse('2026-12-31'),
  ...given,
});
const record = (key: string, given: Partial<TraineeRecord> = {}): TraineeRecord => ({
  key,
  letters: `${key.toUpperCase()}AAA BBBB CCCC DDDD`,
  joined: null,
  note: '',
  ...given,
});

test('of a device the greatest number holds, whatever the day says; the older ones are its history', () => {
  const [person] = peopleOf([head('a', 2, { made: '2026-11-01' }), head('a', 1), head('a', 3)], [record('a')]);
  expect(person?.newest.n).toBe(3);
  expect(peopleOf([head('a', 2, { made: '2026-11-01' }), head('a', 1)], [])[0]?.newest.n).toBe(2);
  expect(person?.heads.map(({ n }) => n)).toEqual([3, 1, 2]);
});

test('of equal numbers the later day holds, then the hash: the same on every device', () => {
  const two = [head('a', 1, { hash: 'x' }), head('a', 1, { hash: 'y' })];
  expect(peopleOf(two, [])[0]?.newest.hash).toBe('y');
  expect(peopleOf([...two].reverse(), [])[0]?.newest.hash).toBe('y');
});

test('two who chose one pseudonym stay two, told apart by their keys', () => {
  const people = peopleOf(
    [head('a', 1), head('b', 1, { trainee: ' falcon' }), head('c', 1, { trainee: 'Heron' })],
    [record('a'), record('b'), record('c')],
  );
  expect(people.map(({ name, shared }) => [name, shared])).toEqual([
    ['Falcon (AAAA BBBB)', true],
    [' falcon (BAAA BBBB)', true],
    ['Heron', false],
  ]);
});

test('joined devices are one trainee by the name of the first, and the report made last holds for both', () => {
  const heads = [head('a', 9, { made: '2026-11-01' }), head('b', 2, { made: '2026-11-20', trainee: 'Kite' })];
  const people = peopleOf(heads, [record('a', { note: 'wants mornings' }), record('b', { joined: 'a' })]);
  expect(people).toHaveLength(1);
  expect(people[0]).toMatchObject({ id: 'a', pseudonym: 'Falcon', name: 'Falcon', note: 'wants mornings' });
  expect(people[0]?.newest.trainee).toBe('Kite');
  // Nothing of the first is left: the name that there is.
  expect(peopleOf(heads.slice(1), [record('a'), record('b', { joined: 'a' })])[0]?.name).toBe('Kite');
  expect(people[0]?.devices.map(({ key }) => key)).toEqual(['a', 'b']);
  expect(people[0]?.heads).toHaveLength(2);
});

test('a union has each report once, as it was first taken in', () => {
  const late = head('a', 1, { taken: 9 });
  expect(
    union([late, head('a', 2, { taken: 0 })], [head('a', 1, { taken: 4 })]).map(({ hash, taken }) => [hash, taken]),
  ).toEqual([
    ['a-1', 4],
    ['a-2', 0],
  ]);
});

test('names among those expected that are a trainee, whatever they called themselves on the way', () => {
  const [person] = peopleOf([head('a', 1, { trainee: 'Kite' }), head('a', 2)], []);
  if (person === undefined) throw new Error('nobody');
  expect(expectedOf({ expected: ['falcon ', 'Heron', 'kite'] }, person)).toEqual(['falcon ', 'kite']);
  expect(expectedOf({ expected: ['Heron'] }, person)).toEqual([]);
});

test('a report dated after it was taken in counts as of that day: the clock was ahead', () => {
  const taken = Date.parse('2026-11-26T20:00:00Z');
  const ahead = head('a', 7, { made: '2030-01-01', taken });
  const heads = [ahead, head('b', 2, { made: '2026-11-28', taken: taken + 2 * 86_400_000 })];
  const [person] = peopleOf(heads, [record('a'), record('b', { joined: 'a' })]);
  expect(person?.newest).toMatchObject({ key: 'b', made: '2026-11-28' });
  expect(peopleOf([ahead], [])[0]?.newest.made).toBe('2026-11-26');
  // Further east it is tomorrow already.
  expect(peopleOf([head('a', 7, { made: '2026-11-27', taken })], [])[0]?.newest.made).toBe('2026-11-27');
});
