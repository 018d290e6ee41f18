import fc from 'fast-check';
import { expect, test } from 'vitest';
import { mergeLines } from '../../src/log/merge.ts';
import { coveredBy, coverOf, readId } from '../../src/sync/coverage.ts';
import { type Device, deviceOf, type SharedFolder, sharedFolder } from '../helpers/shared-folder.ts';

/** Passes of all until one round brings and takes nothing; a torn file is put again in the next. */
const settle = async (devices: readonly Device[], folder: SharedFolder): Promise<void> => {
  folder.fail = null;
  for (let round = 0; round < 12; round += 1) {
    let moved = false;
    for (const device of devices) {
      device.mayTakeIn = true;
      const { came, went, more } = await device.pass(folder);
      if (came.entries + went.entries > 0 || more) moved = true;
    }
    if (!moved) return;
  }
  throw new Error('no rest after twelve rounds');
};

const DAY = 86_400_000;
const AT = Date.parse('2026-11-25T10:00:00Z');

const step = fc.oneof(
  // The clocks of the devices are weeks apart.
  {
    weight: 5,
    arbitrary: fc.record({ k: fc.constant('answer' as const), of: fc.nat(2), days: fc.integer({ min: -40, max: 40 }) }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      k: fc.constant('pass' as const),
      of: fc.nat(2),
      fail: fc.option(
        fc.record({
          after: fc.nat(6),
          how: fc.constantFrom('before', 'after', 'half') as fc.Arbitrary<'before' | 'after' | 'half'>,
        }),
      ),
      drill: fc.boolean(),
      files: fc.integer({ min: 1, max: 3 }),
    }),
  },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('lost' as const), nth: fc.nat(5) }) },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('forgot' as const), of: fc.nat(2) }) },
);

/** @param writers of the three devices; two alike: a copied phone */
const play = (writers: readonly [string, string, string]) =>
  fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
    const folder = sharedFolder();
    const devices = writers.map(deviceOf);
    const written: string[][] = [[], [], []];
    for (const one of steps) {
      const device = 'of' in one ? (devices[one.of] as Device) : null;
      if (one.k === 'answer')
        written[one.of]?.push((device as Device).answer(AT + one.days * DAY, `${one.of} ${written[one.of]?.length}`));
      if (one.k === 'forgot') (device as Device).notes = {};
      if (one.k === 'lost') folder.files.delete([...folder.files.keys()][one.nth] ?? '');
      if (one.k !== 'pass' || device === null) continue;
      folder.fail = one.fail === null ? null : { ...one.fail };
      device.mayTakeIn = !one.drill;
      await device
        .pass(folder, { most: { files: one.files, bytes: 1e6 } })
        .catch((error: Error) => expect(error).toMatchObject({ fault: 'network' }));
    }
    await settle(devices, folder);
    // By the union itself, in another order and in one go.
    const [a = [], b = [], c = []] = written;
    const all = mergeLines(mergeLines(c, a).lines, b).lines;
    for (const device of devices) expect([...device.log].sort()).toEqual([...all].sort());
    // And then it rests: nothing is put or merged twice.
    const before = folder.files.size;
    for (const device of devices) {
      const { merges } = device;
      expect(await device.pass(folder)).toMatchObject({ came: { entries: 0 }, went: { entries: 0 }, more: false });
      expect(device.merges).toBe(merges);
    }
    expect(folder.files.size).toBe(before);
  });

test('three devices, in whatever order and however often cut off, end with the same union', async () => {
  await fc.assert(play(['a', 'b', 'c']), { numRuns: 150 });
});

test('also where one of them is a copy of another and writes under its name', async () => {
  await fc.assert(play(['a', 'a', 'c']), { numRuns: 150 });
});

test('ranges of ids hold what was put into them and nothing else', () => {
  const ids = fc.uniqueArray(
    fc
      .record({
        writer: fc.constantFrom('a', 'b'),
        n: fc.integer({ min: 1, max: 40 }),
        mark: fc.constantFrom('', '/m2'),
      })
      .map(({ writer, n, mark }) => `${writer}.${n}${mark}`),
    { maxLength: 60 },
  );
  fc.assert(
    fc.property(ids, ids, (one, other) => {
      const covered = coveredBy([coverOf(one), coverOf(other)]);
      const all = new Set([...one, ...other]);
      expect(covered.count).toBe(all.size);
      for (const writer of ['a', 'b'])
        for (const mark of ['', '/m2'])
          for (let n = 0; n <= 41; n += 1) {
            const id = `${writer}.${n}${mark}`;
            const read = readId(id);
            expect(read !== null && covered.has(read, id)).toBe(all.has(id));
          }
    }),
  );
});
