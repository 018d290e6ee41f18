import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { createUpdates, type Tabs, type UpdateEnvironment, type UpdateState } from '../../../src/app/update.ts';

/** Channels that hear each other but not themselves, as a BroadcastChannel does. */
const channels = () => {
  const open: { hear: (event: MessageEvent) => void }[] = [];
  return (): Tabs => {
    const own = { hear: (_event: MessageEvent) => {} };
    open.push(own);
    return {
      postMessage: (data: unknown) => {
        for (const other of open) if (other !== own) other.hear({ data } as MessageEvent);
      },
      addEventListener: (_type: string, listener: unknown) => {
        own.hear = listener as (event: MessageEvent) => void;
      },
      close: () => open.splice(open.indexOf(own), 1),
    } as Tabs;
  };
};

const tab = (tabs: Tabs | null, keep: () => Promise<boolean> = async () => true) => {
  const hear = { waiting: () => {}, replaced: () => {} };
  const page = new EventTarget();
  let elapsed = 0;
  const reload = vi.fn<() => void>();
  const takeOver = vi.fn<() => void>();
  const check = vi.fn(async () => {});
  const keepRest = vi.fn(keep);
  const environment: UpdateEnvironment = {
    worker: {
      register: async () => {},
      check,
      takeOver,
      keepRest,
      onWaiting: (listener) => {
        hear.waiting = listener;
      },
      onReplaced: (listener) => {
        hear.replaced = listener;
      },
    },
    tabs,
    reload,
    page,
    isVisible: () => true,
    elapsed: () => elapsed,
  };
  const updates = createUpdates(environment);
  const states: UpdateState[] = [];
  const stop = updates.subscribe((state) => states.push(state));
  const pass = (ms: number) => {
    elapsed += ms;
  };
  return { updates, states, stop, hear, page, reload, takeOver, check, keepRest, pass };
};

const nothing: UpdateState = { waiting: false, offlineReady: false, stale: false };

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('a listener hears the state at once, each change, and nothing after it stopped', async () => {
  const one = tab(null);
  expect(one.states).toEqual([nothing]);
  await vi.advanceTimersByTimeAsync(0);
  one.hear.waiting();
  one.stop();
  one.page.dispatchEvent(new Event('vite:preloadError'));
  expect(one.states).toEqual([
    nothing,
    { ...nothing, offlineReady: true },
    { ...nothing, offlineReady: true, waiting: true },
  ]);
});

test('nothing waits: nothing is accepted', async () => {
  const one = tab(null);
  expect(await one.updates.accept()).toBe('none');
  expect(one.takeOver).not.toHaveBeenCalled();
});

test('a drill here keeps the update away', async () => {
  const one = tab(null);
  one.hear.waiting();
  one.updates.setBusy(true);
  expect(await one.updates.accept()).toBe('busy-here');
  expect(one.takeOver).not.toHaveBeenCalled();
});

test('a drill in another tab keeps it away; two idle tabs do not', async () => {
  const channel = channels();
  const [one, two, three] = [tab(channel()), tab(channel()), tab(channel())];
  one.hear.waiting();
  three.updates.setBusy(true);
  expect(await one.updates.accept()).toBe('busy-elsewhere');
  three.updates.setBusy(false);
  const accepted = one.updates.accept();
  await vi.advanceTimersByTimeAsync(1000);
  expect(await accepted).toBe('reloading');
  expect(one.takeOver).toHaveBeenCalledOnce();
  expect(two.takeOver).not.toHaveBeenCalled();
});

test('a drill that begins here while others are asked keeps it away', async () => {
  const one = tab(channels()());
  one.hear.waiting();
  const accepted = one.updates.accept();
  one.updates.setBusy(true);
  await vi.advanceTimersByTimeAsync(1000);
  expect(await accepted).toBe('busy-here');
  expect(one.takeOver).not.toHaveBeenCalled();
});

test('the page reloads once: when the new worker took over, or 2 s later where the browser does not say so', async () => {
  const told = tab(null);
  told.hear.waiting();
  expect(await told.updates.accept()).toBe('reloading');
  expect(told.reload).not.toHaveBeenCalled();
  told.hear.replaced();
  expect(told.reload).toHaveBeenCalledOnce();
  await vi.advanceTimersByTimeAsync(5000);
  expect(told.reload).toHaveBeenCalledOnce();

  const untold = tab(null);
  untold.hear.waiting();
  await untold.updates.accept();
  await vi.advanceTimersByTimeAsync(1999);
  expect(untold.reload).not.toHaveBeenCalled();
  await vi.advanceTimersByTimeAsync(1);
  expect(untold.reload).toHaveBeenCalledOnce();
});

test('replaced in mid-drill: no reload, but the page says that it is old', () => {
  const one = tab(null);
  one.hear.waiting();
  one.updates.setBusy(true);
  one.hear.replaced();
  expect(one.reload).not.toHaveBeenCalled();
  expect(one.states.at(-1)).toEqual({ waiting: false, offlineReady: false, stale: true });
});

test('a part of the app that cannot be loaded makes the page stale', () => {
  const one = tab(null);
  one.page.dispatchEvent(new Event('vite:preloadError'));
  expect(one.states.at(-1)).toEqual({ ...nothing, stale: true });
});

test('what could not be kept without a network is fetched when it is back, once', async () => {
  let network = false;
  const one = tab(null, async () => network || Promise.reject(new Error('no network')));
  await vi.advanceTimersByTimeAsync(0);
  expect(one.states).toEqual([nothing]);
  network = true;
  one.page.dispatchEvent(new Event('online'));
  await vi.advanceTimersByTimeAsync(0);
  expect(one.states.at(-1)).toEqual({ ...nothing, offlineReady: true });
  one.page.dispatchEvent(new Event('online'));
  await vi.advanceTimersByTimeAsync(0);
  expect(one.keepRest).toHaveBeenCalledTimes(2);
});

test('a page left open looks for a new version at most once an hour', () => {
  const one = tab(null);
  const show = () => one.page.dispatchEvent(new Event('visibilitychange'));
  one.pass(3_599_999);
  show();
  expect(one.check).not.toHaveBeenCalled();
  one.pass(1);
  show();
  show();
  expect(one.check).toHaveBeenCalledOnce();
});

test('disposed: no state, no reload, no answer to other tabs', async () => {
  const channel = channels();
  const [one, two] = [tab(channel()), tab(channel())];
  one.hear.waiting();
  two.updates.setBusy(true);
  two.updates.dispose();
  const accepted = one.updates.accept();
  await vi.advanceTimersByTimeAsync(1000);
  expect(await accepted).toBe('reloading');
  two.hear.replaced();
  two.page.dispatchEvent(new Event('vite:preloadError'));
  expect(two.reload).not.toHaveBeenCalled();
  expect(two.states).toEqual([nothing]);
});
