import { expect, test } from 'vitest';
import { holdAwake } from '../../../src/app/wake-lock.ts';

class Page extends EventTarget {
  visibilityState: DocumentVisibilityState = 'visible';
  turn(to: DocumentVisibilityState): void {
    this.visibilityState = to;
    this.dispatchEvent(new Event('visibilitychange'));
  }
}

/** A screen that remembers who keeps it lit; a browser lets go of a hidden page itself. */
const screenOf = (refuses = false) => {
  const held: { released: boolean; release(): Promise<void> }[] = [];
  return {
    held,
    lit: () => held.filter(({ released }) => !released).length,
    wakeLock: {
      request: async () => {
        if (refuses) throw new DOMException('The battery is low.', 'NotAllowedError');
        const one = {
          released: false,
          release: async () => {
            one.released = true;
          },
        };
        held.push(one);
        return one;
      },
    } as unknown as WakeLock,
    letGo: () => {
      for (const one of held) one.released = true;
    },
  };
};
const turned = () => new Promise((done) => setTimeout(done));

test('the screen is lit from the first to the last, and again after it was out of sight', async () => {
  const page = new Page();
  const screen = screenOf();
  const letSleep = holdAwake(screen, page);
  await turned();
  expect(screen.lit()).toBe(1);
  screen.letGo();
  page.turn('hidden');
  await turned();
  expect(screen.lit()).toBe(0);
  page.turn('visible');
  // Turned once more while the device is asked: one is enough.
  page.turn('visible');
  await turned();
  expect(screen.lit()).toBe(1);
  expect(screen.held.length).toBe(2);
  letSleep();
  await turned();
  expect(screen.lit()).toBe(0);
  page.turn('visible');
  await turned();
  expect(screen.held.length).toBe(2);
});

test('called off while the device is asked, it does not stay lit', async () => {
  const screen = screenOf();
  holdAwake(screen, new Page())();
  await turned();
  expect(screen.held.length).toBe(1);
  expect(screen.lit()).toBe(0);
});

test('a page that begins hidden asks when it is seen', async () => {
  const page = new Page();
  page.visibilityState = 'hidden';
  const screen = screenOf();
  const letSleep = holdAwake(screen, page);
  await turned();
  expect(screen.held).toEqual([]);
  page.turn('visible');
  await turned();
  expect(screen.lit()).toBe(1);
  letSleep();
});

test('where the device cannot, or will not, all goes on', async () => {
  const page = new Page();
  expect(() => holdAwake({ wakeLock: undefined as unknown as WakeLock }, page)()).not.toThrow();
  const screen = screenOf(true);
  const letSleep = holdAwake(screen, page);
  await turned();
  page.turn('visible');
  await turned();
  letSleep();
  expect(screen.held).toEqual([]);
});
