import { describe, expect, test, vi } from 'vitest';
import { connect, type Outside, serve } from '../../../src/workers/remote.ts';

type Work = (input: string, onProgress: (done: number) => void) => string | Promise<string>;
type Listener = (event: { readonly data: unknown }) => void;

/** A worker's two ends without a thread: messages are cloned and come later, errors are what the test makes them. */
class FakeWorker implements Outside {
  terminated = false;
  readonly received: unknown[] = [];
  readonly #listeners = { message: [] as Listener[], error: [] as Listener[], messageerror: [] as Listener[] };
  #inside: Listener = () => undefined;

  constructor(work: Work) {
    serve(work, {
      postMessage: (data) => this.emit('message', structuredClone(data)),
      addEventListener: (_type, listener) => {
        this.#inside = listener;
      },
    });
  }
  postMessage(message: unknown): void {
    const data = structuredClone(message);
    this.received.push(data);
    queueMicrotask(() => {
      if (!this.terminated) this.#inside({ data });
    });
  }
  addEventListener(type: 'message' | 'error' | 'messageerror', listener: Listener): void {
    this.#listeners[type].push(listener);
  }
  terminate(): void {
    this.terminated = true;
  }
  emit(type: 'message' | 'error' | 'messageerror', data: unknown = null): void {
    queueMicrotask(() => {
      if (!this.terminated || type !== 'message') for (const listener of this.#listeners[type]) listener({ data });
    });
  }
}

/** A remote whose workers do `work`, and which does `upper` here. */
const remoteOf = (work: Work) => {
  const workers: FakeWorker[] = [];
  const start = vi.fn(() => {
    const worker = new FakeWorker(work);
    workers.push(worker);
    return worker;
  });
  const here = vi.fn(async (): Promise<Work> => (input) => `here ${input}`);
  return { workers, start, here, remote: connect<string, string>(start, here) };
};
const never = () => new Promise<string>(() => undefined);
const soon = async () => {
  for (let i = 0; i < 20; i++) await Promise.resolve();
};

describe('calls', () => {
  test('each gets its own answer, whatever the order of answering; one worker does them all', async () => {
    const release = new Map<string, (output: string) => void>();
    const { remote, start, here } = remoteOf((input) => new Promise((done) => release.set(input, done)));
    expect(start).not.toHaveBeenCalled();
    const [a, b] = [remote.call('a'), remote.call('b')];
    await soon();
    release.get('b')?.('of b');
    release.get('a')?.('of a');
    expect(await Promise.all([a, b])).toEqual(['of a', 'of b']);
    expect(start).toHaveBeenCalledTimes(1);
    expect(here).not.toHaveBeenCalled();
  });
  test('what the function throws comes through with its name and message, and the worker lives on', async () => {
    const { remote, start } = remoteOf((input) => {
      if (input === 'bad') throw new RangeError('The line is bad.');
      if (input === 'odd') throw 'a text';
      return input;
    });
    await expect(remote.call('bad')).rejects.toMatchObject({ name: 'RangeError', message: 'The line is bad.' });
    await expect(remote.call('odd')).rejects.toThrow('a text');
    expect(await remote.call('good')).toBe('good');
    expect(start).toHaveBeenCalledTimes(1);
  });
  test('progress is told to the call it is of', async () => {
    const { remote } = remoteOf((input, onProgress) => {
      onProgress(input === 'a' ? 0.25 : 0.75);
      return input;
    });
    const told: [string, number][] = [];
    await Promise.all(
      ['a', 'b'].map((input) => remote.call(input, { onProgress: (done) => told.push([input, done]) })),
    );
    expect(told).toEqual([
      ['a', 0.25],
      ['b', 0.75],
    ]);
  });
});

describe('a worker that crashes', () => {
  test('is started anew, and what was under way is done by the new one', async () => {
    let crashes = 1;
    const { remote, workers, here } = remoteOf((input) => {
      if (crashes-- > 0) {
        workers[0]?.emit('error');
        return never();
      }
      return `there ${input}`;
    });
    expect(await remote.call('a')).toBe('there a');
    expect(workers.map(({ terminated }) => terminated)).toEqual([true, false]);
    expect(here).not.toHaveBeenCalled();
  });
  test.each(['error', 'messageerror'] as const)('by %s twice on the same call: it is done here', async (type) => {
    const { remote, workers, here } = remoteOf(() => {
      workers.at(-1)?.emit(type);
      return never();
    });
    expect(await remote.call('a')).toBe('here a');
    expect(workers.map(({ terminated }) => terminated)).toEqual([true, true]);
    expect(here).toHaveBeenCalledTimes(1);
  });
  test('crashes that belong to a worker that was ended long ago are not counted', async () => {
    const { remote, workers } = remoteOf((input) => (input === 'slow' ? never() : `there ${input}`));
    const slow = remote.call('slow').catch((error: Error) => error.name);
    await soon();
    workers[0]?.emit('error');
    await soon();
    expect(workers).toHaveLength(2);
    workers[0]?.emit('error');
    workers[0]?.emit('error');
    await soon();
    expect(workers).toHaveLength(2);
    expect(workers[1]?.terminated).toBe(false);
    remote.dispose();
    expect(await slow).toBe('AbortError');
  });
});

describe('a call that is given up', () => {
  test('ends its worker; the others go to a new one', async () => {
    const { remote, workers } = remoteOf((input) =>
      input === 'endless' || workers.length < 2 ? never() : `there ${input}`,
    );
    const giveUp = new AbortController();
    const endless = remote.call('endless', { signal: giveUp.signal });
    const other = remote.call('other');
    await soon();
    giveUp.abort();
    await expect(endless).rejects.toMatchObject({ name: 'AbortError' });
    expect(await other).toBe('there other');
    expect(workers.map(({ terminated }) => terminated)).toEqual([true, false]);
    expect(workers[1]?.received).toEqual([{ call: 2, input: 'other' }]);
  });
  test('however often others give up, a call that waits is not taken for the one that crashes', async () => {
    const { remote, workers, here } = remoteOf((input) =>
      input === 'other' && workers.length > 3 ? 'there' : never(),
    );
    const other = remote.call('other');
    for (let i = 0; i < 3; i++) {
      const giveUp = new AbortController();
      const one = remote.call('endless', { signal: giveUp.signal });
      giveUp.abort();
      await expect(one).rejects.toMatchObject({ name: 'AbortError' });
    }
    expect(await other).toBe('there');
    expect(here).not.toHaveBeenCalled();
  });
  test('before it began: no worker is started', async () => {
    const { remote, start } = remoteOf((input) => input);
    await expect(remote.call('a', { signal: AbortSignal.abort() })).rejects.toMatchObject({ name: 'AbortError' });
    expect(start).not.toHaveBeenCalled();
  });
  test('after it was answered: nothing happens', async () => {
    const { remote, workers } = remoteOf((input) => input);
    const giveUp = new AbortController();
    expect(await remote.call('a', { signal: giveUp.signal })).toBe('a');
    giveUp.abort();
    await soon();
    expect(workers.map(({ terminated }) => terminated)).toEqual([false]);
    expect(await remote.call('b')).toBe('b');
    expect(workers).toHaveLength(1);
  });
});

describe('where no worker starts', () => {
  const refusing = (work: () => Promise<Work>) =>
    connect<string, string>(() => {
      throw new DOMException('no workers here', 'SecurityError');
    }, work);

  test('the same function does it here, with progress and errors', async () => {
    const told: number[] = [];
    const remote = refusing(async () => (input, onProgress) => {
      onProgress(0.5);
      if (input === 'bad') throw new RangeError('The line is bad.');
      return `here ${input}`;
    });
    expect(await remote.call('a', { onProgress: (done) => told.push(done) })).toBe('here a');
    expect(told).toEqual([0.5]);
    await expect(remote.call('bad')).rejects.toThrow(new RangeError('The line is bad.'));
  });
  test('nor the function can be loaded: the call fails and says why', async () => {
    const remote = refusing(async () => {
      throw new TypeError('Failed to fetch the module');
    });
    await expect(remote.call('a')).rejects.toThrow('Failed to fetch the module');
  });
  test('a call that is given up stays given up', async () => {
    const giveUp = new AbortController();
    const remote = refusing(async () => (input) => input);
    const call = remote.call('a', { signal: giveUp.signal });
    giveUp.abort();
    await expect(call).rejects.toMatchObject({ name: 'AbortError' });
  });
  test('an input that cannot be sent fails, and the next one is done', async () => {
    const { remote, workers } = remoteOf((input) => `there ${input}`);
    await expect(remote.call((() => undefined) as never)).rejects.toMatchObject({ name: 'DataCloneError' });
    workers[0]?.emit('error');
    await soon();
    expect(await remote.call('a')).toBe('there a');
  });
});

test('what is no longer needed ends its worker and fails what waits', async () => {
  const { remote, workers } = remoteOf(never);
  const call = remote.call('a');
  remote.dispose();
  await expect(call).rejects.toMatchObject({ name: 'AbortError' });
  expect(workers.map(({ terminated }) => terminated)).toEqual([true]);
});
