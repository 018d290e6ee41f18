import { expect, test } from 'vitest';
import { factsKept, factsName, factsOf, keptFacts } from '../../../src/ui/models/facts.ts';
import { createLearner } from '../../../src/ui/models/learner.ts';
import { answered, BUILT, benchOf, LIMITS } from './learners.ts';

test('facts are kept on the device when a deck is installed, and read at the next start', async () => {
  const bench = await benchOf(LIMITS);
  const [stored] = bench.learner.decks.value;
  if (stored === undefined) throw new Error('no deck');
  const kept = await bench.store.device.get(factsName(stored));
  expect(factsKept(kept, BUILT)).toEqual(factsOf(LIMITS, stored.contentId));

  // Seen to be read: what was kept says that all is critical.
  const first = answered(bench.learner, 'one', 'wrong');
  const key = 'marks' in first ? (Object.keys(first.marks)[0] ?? '') : '';
  await bench.store.device.put(
    factsName(stored),
    keptFacts(BUILT, { critical: [key], decision: [], other: [], today: [] }),
  );
  const again = await bench.again();
  await again.append(first);
  expect(again.memory.value.items.get(key)?.alert).toBe(0);

  // By another build they are worked out anew.
  const newer = { ...bench.device, build: { version: 'newer', at: BUILT + 1 } };
  await (await createLearner(newer, bench.store)).append(answered(again, 'two', 'wrong'));
  expect(factsKept(await bench.store.device.get(factsName(stored)), BUILT + 1)).toEqual(
    factsOf(LIMITS, stored.contentId),
  );
});

test.each([undefined, null, 7, {}, { built: 5 }, { built: 5, critical: [], decision: [], other: [], today: 'x' }])(
  'a record that is none is passed over: %j',
  (value) => {
    expect(factsKept(value, 5)).toBeNull();
  },
);

test('outside a build nothing is kept: the code changes without one', () => {
  const data = { critical: ['a'], decision: [], other: [], today: [] };
  expect(factsKept(keptFacts(0, data), 0)).toBeNull();
  expect(factsKept(keptFacts(5, data), 5)).toEqual(data);
  expect(factsKept(keptFacts(5, data), 6)).toBeNull();
});
