import { expect, test } from 'vitest';
import { againstForecast, type Before, keysMissed, type MissableGroup, missableOf } from '../../../src/drill/missed.ts';
import { known, memoryOf } from '../memory/memories.ts';
import { resolvedDeck } from './practice.ts';

const merrow = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
const groups = missableOf([merrow]);
const groupOf = (kind: MissableGroup['kind']) => groups.find((group) => group.kind === kind) as MissableGroup;

test('every item that is asked can be tapped, and nothing else', () => {
  const asked = [...merrow.items.values()].filter(({ facet }) => ['place', 'value', 'rule', 'number'].includes(facet));
  const keys = new Set(groups.flatMap(({ things }) => things.flatMap((thing) => thing.keys)));
  expect(keys).toEqual(new Set(asked.map(({ key }) => key)));
});

test('a procedure lists each step once, in order, with who does it; a rule says its circumstances, not its outcome', () => {
  const line = groupOf('procedure');
  const steps = merrow.views[0]?.procedures.find(({ procedure }) => line.name.endsWith(`#${procedure.id}`))?.situations;
  expect(line.things.map(({ name }) => name)).toEqual([...new Set(line.things.map(({ name }) => name))]);
  expect(line.things.map(({ name }) => name)).toEqual(
    expect.arrayContaining(steps?.[0]?.steps.map(({ step }) => `${merrow.deck.id}#${step.id}`) ?? []),
  );
  expect(line.things.some(({ by }) => by !== undefined)).toBe(true);
  const scenarios = groupOf('scenario').things.map(({ label }) => label);
  expect(scenarios.some((label) => label.includes(': where '))).toBe(true);
});

test('of a step in several places those that were met are missed; of one never met all', () => {
  const [one] = groupOf('limit').things;
  const keys = ['calder/x#a.place~1', 'calder/x#a.place~2'];
  const item = [...merrow.items.values()][0];
  if (item === undefined || one === undefined) throw new Error('an empty deck');
  const memory = memoryOf([[{ ...item, key: keys[1] as string }, known(5, 1)]]);
  expect(keysMissed({ keys }, memory)).toEqual([keys[1]]);
  expect(keysMissed({ keys }, memoryOf([]))).toEqual(keys);
});

const limits = groupOf('limit');
const some = { ...limits, things: limits.things.slice(0, 10) };
const before: Before = {
  chances: some.things.slice(0, 8).map(({ keys }, i) => [keys[0] as string, i < 4 ? 0.95 : 0.85] as const),
  answers: 40,
  days: 3,
};

test('the forecast for the day against what was tapped: of what had been met; all else of it counts as recalled', () => {
  const names = some.things.map(({ name }) => name);
  const told = againstForecast([some], new Set([names[0] as string, names[9] as string]), before);
  expect(told).toMatchObject({ of: 8, missed: 1, unpractised: 1, right: 7, share: 7 / 8, agrees: true });
  expect(told?.predicted).toBeCloseTo(0.9, 12);
  // A part that did not come up there says nothing.
  expect(againstForecast([{ ...some, things: some.things.slice(0, 2) }], new Set(), before)?.of).toBe(2);
  expect(againstForecast([some], new Set(names), before)).toMatchObject({ share: 0, agrees: false });
});

test('no forecast for that day, nothing to set it against', () => {
  expect(againstForecast([some], new Set(), { ...before, answers: 29 })).toBeNull();
  expect(againstForecast([some], new Set(), { ...before, days: 1 })).toBeNull();
  expect(againstForecast([some], new Set(), { ...before, chances: [] })).toBeNull();
});
