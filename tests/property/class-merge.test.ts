import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pack, unpack } from '../../src/class/packed.ts';
import { peopleOf, union } from '../../src/class/people.ts';
import type { Packed, TraineeRecord } from '../../src/class/types.ts';
import { isoOfDay } from '../../src/lib/date-words.ts';
import type { ReportItem } from '../../src/model/report.ts';
import { deckOf, received, reportOf } from '../helpers/plain-report.ts';

const DEVICES = ['one', 'two', 'three'] as const;

const share = fc.option(fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000));
const times = fc.integer({ min: 0, max: 100_000 });
const day = fc.integer({ min: 20_000, max: 21_000 }).map(isoOfDay);
const itemOf = (left: boolean) =>
  fc.record(
    {
      key: fc.constantFrom('calder/try#a.place~1', 'calder/try#b.cue~2', 'calder/try#c.value.x~3'),
      now: share,
      day: share,
      verdicts: fc.tuple(times, times, times, times),
      voids: times,
      ...(left ? {} : { sureWrong: times, last: fc.option(day) }),
      check: day,
    },
    { requiredKeys: ['key', 'now', 'day', 'verdicts', 'voids', ...(left ? [] : (['sureWrong', 'last'] as const))] },
  ) as fc.Arbitrary<ReportItem>;

const report = fc.boolean().chain((left) =>
  fc.record({
    key: fc.constantFrom(...DEVICES),
    taken: fc.integer({ min: 1, max: 9 }),
    report: fc
      .record({
        trainee: fc.constantFrom('Falcon', 'falcon ', 'Heron'),
        n: fc.integer({ min: 1, max: 4 }),
        made: day,
        checkDate: fc.option(day),
        items: fc.array(itemOf(left), { maxLength: 4 }),
      })
      .map(({ items, ...rest }) =>
        reportOf({ ...rest, decks: [deckOf(items)], leftOut: left ? ['sure', 'days'] : [] }),
      ),
  }),
);
const reports: fc.Arbitrary<Packed[]> = fc.array(
  report.map(({ key, taken, report: one }) => pack(received(one, key), taken)),
  { maxLength: 12 },
);
const joins = fc.constantFrom<readonly (readonly [string, string | null])[]>(
  [],
  [['two', 'one']],
  [
    ['two', 'one'],
    ['three', 'one'],
  ],
);
const recordsOf = (joined: readonly (readonly [string, string | null])[]): TraineeRecord[] =>
  DEVICES.map((key) => ({
    key,
    letters: `${key.toUpperCase()} LETTERS`,
    joined: joined.find(([one]) => one === key)?.[1] ?? null,
    note: '',
  }));

test('a union is commutative, associative and idempotent', () => {
  fc.assert(
    fc.property(reports, reports, reports, (a, b, c) => {
      expect(union(a, b)).toEqual(union(b, a));
      expect(union(union(a, b), c)).toEqual(union(a, union(b, c)));
      expect(union(union(a, b), b)).toEqual(union(a, b));
    }),
  );
});

test('who there is and whose report holds does not depend on the order in which files are opened, nor how often', () => {
  fc.assert(
    fc.property(reports, joins, fc.infiniteStream(fc.nat()), (all, joined, dice) => {
      const records = recordsOf(joined);
      const mixed = all
        .map((one) => [dice.next().value, one] as const)
        .sort(([a], [b]) => a - b)
        .map(([, one]) => one);
      const people = peopleOf(union(all, []), records);
      expect(peopleOf(union(mixed, all), records)).toEqual(people);
      // Every report is somebody's, once; of each device none has a greater number than the one that holds.
      expect(people.flatMap(({ heads }) => heads.map(({ hash }) => hash)).sort()).toEqual(
        [...new Set(all.map(({ hash }) => hash))].sort(),
      );
      for (const { newest, heads } of people)
        expect(newest.n).toBe(Math.max(...heads.filter(({ key }) => key === newest.key).map(({ n }) => n)));
      expect(new Set(people.map(({ name }) => name)).size).toBe(people.length);
    }),
  );
});

test('a report in columns gives the same report back', () => {
  fc.assert(
    fc.property(report, ({ key, report: one }) => {
      const file = received(one, key);
      expect(unpack(pack(file, 0))).toEqual(file);
    }),
  );
});
