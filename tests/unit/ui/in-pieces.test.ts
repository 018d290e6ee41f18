import { afterEach, expect, test, vi } from 'vitest';
import { inPieces, pause } from '../../../src/ui/models/in-pieces.ts';

afterEach(() => vi.unstubAllGlobals());

/** Work of so many steps, each of which takes so many ms of a clock of its own. */
const workOf = (steps: number, ms: number) => {
  let now = 0;
  let done = 0;
  return {
    elapsed: () => now,
    done: () => done,
    *work(): Generator<void, string> {
      for (let i = 0; i < steps; i++) {
        now += ms;
        done += 1;
        yield;
      }
      return 'all of it';
    },
  };
};

test('work in pieces gives what it gives, and between two pieces others have their turn', async () => {
  const { work, elapsed, done } = workOf(100, 1);
  const seen: number[] = [];
  let over = false;
  const watch = async () => {
    while (!over) {
      seen.push(done());
      await pause();
    }
  };
  const watching = watch();
  expect(await inPieces(work(), elapsed)).toBe('all of it');
  over = true;
  await watching;
  expect(done()).toBe(100);
  // No piece is longer than some ms: 100 ms of work are more than ten of them.
  expect(new Set(seen).size).toBeGreaterThan(10);
});

test('what is quickly done takes no pause', async () => {
  const { work, elapsed } = workOf(5, 1);
  let turns = 0;
  vi.stubGlobal('scheduler', {
    yield: async () => {
      turns += 1;
    },
  });
  await inPieces(work(), elapsed);
  expect(turns).toBe(0);
  const long = workOf(50, 5);
  await inPieces(long.work(), long.elapsed);
  expect(turns).toBeGreaterThan(20);
});

test('what goes wrong is told', async () => {
  const failing = function* (): Generator<void, void> {
    yield;
    throw new RangeError('no deck');
  };
  await expect(inPieces(failing(), () => 0)).rejects.toThrow('no deck');
});
