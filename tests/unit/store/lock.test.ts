import { describe, expect, test, vi } from 'vitest';
import { takeLock } from '../../../src/store/lock.ts';

interface Holding {
  readonly grant: () => void;
  readonly lose: (error: unknown) => void;
}

/** Web Locks of one name in all tabs of this browser: https://www.w3.org/TR/web-locks/ 3.3, ifAvailable and steal only. */
const browserLocks = () => {
  let holder: Holding | null = null;
  const request = (_name: string, options: LockOptions, work: (lock: Lock | null) => unknown): Promise<unknown> =>
    new Promise((done, failed) => {
      if (holder !== null && options.steal !== true) return done(work(null));
      // Whoever holds it has its promise rejected with an AbortError; its own work is not told.
      holder?.lose(new DOMException('stolen', 'AbortError'));
      const mine: Holding = { grant: () => done(undefined), lose: failed };
      holder = mine;
      void Promise.resolve(work({ name: _name, mode: 'exclusive' } as Lock)).then(() => {
        if (holder === mine) holder = null;
        mine.grant();
      });
    });
  return { request } as unknown as LockManager;
};

describe('one writer at a time', () => {
  test('the first has it, the second has not, and has it once the first is gone', async () => {
    const locks = browserLocks();
    const first = await takeLock('one', locks);
    const second = await takeLock('one', locks);
    expect([first.state, second.state]).toEqual(['held', 'other']);
    first.release();
    await Promise.resolve();
    await new Promise((done) => setImmediate(done));
    expect((await takeLock('one', locks)).state).toBe('held');
  });
  test('continue here: the other is told that it lost it, once', async () => {
    const locks = browserLocks();
    const first = await takeLock('one', locks);
    const second = await takeLock('one', locks);
    const lost = vi.fn();
    const unheard = vi.fn();
    first.onLost(lost);
    first.onLost(unheard)();
    await second.steal();
    await new Promise((done) => setImmediate(done));
    expect([first.state, second.state]).toEqual(['other', 'held']);
    expect(lost).toHaveBeenCalledTimes(1);
    expect(unheard).not.toHaveBeenCalled();
    // And back again.
    await first.steal();
    await new Promise((done) => setImmediate(done));
    expect([first.state, second.state]).toEqual(['held', 'other']);
  });
  test('who has it takes it from nobody', async () => {
    const locks = browserLocks();
    const first = await takeLock('one', locks);
    const lost = vi.fn();
    first.onLost(lost);
    await first.steal();
    await new Promise((done) => setImmediate(done));
    expect(first.state).toBe('held');
    expect(lost).not.toHaveBeenCalled();
  });
  test('a browser without locks cannot tell', async () => {
    const lock = await takeLock('one', undefined);
    expect(lock.state).toBe('unsupported');
    await lock.steal();
    expect(lock.state).toBe('unsupported');
    lock.release();
  });
});
