/**
 * One function in a worker of its own: started when first needed, ended and started anew when a call is given up or it
 * crashed, and run here where workers do not start.
 */
export interface Remote<In, Out> {
  /**
   * @param onProgress share done, 0..1, where the function tells it
   * @throws what the function throws (as an Error with its message); an AbortError when `signal` gives up
   */
  call(
    input: In,
    options?: { readonly signal?: AbortSignal; readonly onProgress?: (done: number) => void },
  ): Promise<Out>;
  dispose(): void;
}

type Work<In, Out> = (input: In, onProgress: (done: number) => void) => Out | Promise<Out>;

interface Asked {
  readonly call: number;
  readonly input: unknown;
}
type Told =
  | { readonly call: number; readonly progress: number }
  | { readonly call: number; readonly output: unknown }
  | { readonly call: number; readonly error: { readonly name: string; readonly message: string } };

/** What is used of a worker's inside. */
interface Inside {
  postMessage(message: unknown): void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
}

/** ms between two tellings of the share done: each costs the page a turn. */
const TELL_EVERY = 100;

/** In the worker: answers each call with what the function gives. */
export const serve = <In, Out>(work: Work<In, Out>, inside: Inside): void => {
  const tell = (told: Told) => inside.postMessage(told);
  inside.addEventListener('message', ({ data }) => {
    const { call, input } = data as Asked;
    let told = Number.NEGATIVE_INFINITY;
    const onProgress = (progress: number) => {
      const now = performance.now();
      if (now - told < TELL_EVERY && progress < 1) return;
      told = now;
      tell({ call, progress });
    };
    void (async () => {
      try {
        tell({ call, output: await work(input as In, onProgress) });
      } catch (error) {
        const { name, message } = error instanceof Error ? error : new Error(String(error));
        tell({ call, error: { name, message } });
      }
    })();
  });
};

/** The part of a Worker that is used here. */
export interface Outside extends Inside {
  addEventListener(
    type: 'message' | 'error' | 'messageerror',
    listener: (event: { readonly data: unknown }) => void,
  ): void;
  terminate(): void;
}

interface Waiting {
  readonly input: unknown;
  readonly done: (output: never) => void;
  readonly failed: (error: unknown) => void;
  readonly onProgress: (done: number) => void;
  /** A call that brought the worker down is tried once more, then here. */
  crashes: number;
}

/**
 * @param start makes the worker; may throw
 * @param local loads the same function for this thread
 */
export const connect = <In, Out>(start: () => Outside, local: () => Promise<Work<In, Out>>): Remote<In, Out> => {
  let worker: Outside | null = null;
  let calls = 0;
  const waiting = new Map<number, Waiting>();

  const here = (one: Waiting) => {
    local()
      .then((work) => work(one.input as In, one.onProgress))
      .then((output) => one.done(output as never), one.failed);
  };
  const stop = () => {
    worker?.terminate();
    worker = null;
  };
  const send = (call: number, one: Waiting) => {
    try {
      worker ??= started();
    } catch {
      waiting.delete(call);
      return here(one);
    }
    try {
      worker.postMessage({ call, input: one.input } satisfies Asked);
    } catch (error) {
      // It cannot be sent at all: no later worker would take it either.
      waiting.delete(call);
      one.failed(error);
    }
  };
  /** Those that wait go to a new worker; whichever of them brought this one down twice is done here. */
  const restart = (crashed: boolean) => {
    stop();
    for (const [call, one] of waiting) {
      if (crashed) one.crashes += 1;
      if (one.crashes < 2) send(call, one);
      else {
        waiting.delete(call);
        here(one);
      }
    }
  };
  const started = (): Outside => {
    const fresh = start();
    fresh.addEventListener('message', ({ data }) => {
      const told = data as Told;
      const one = waiting.get(told.call);
      if (one === undefined) return;
      if ('progress' in told) return one.onProgress(told.progress);
      waiting.delete(told.call);
      if ('output' in told) one.done(told.output as never);
      else one.failed(Object.assign(new Error(told.error.message), { name: told.error.name }));
    });
    const crash = () => {
      if (worker === fresh) restart(true);
    };
    fresh.addEventListener('error', crash);
    fresh.addEventListener('messageerror', crash);
    return fresh;
  };

  return {
    call: (input, { signal, onProgress = () => undefined } = {}) =>
      new Promise<Out>((done, failed) => {
        if (signal?.aborted === true) return failed(signal.reason);
        calls += 1;
        const call = calls;
        const one: Waiting = { input, done, failed, onProgress, crashes: 0 };
        waiting.set(call, one);
        signal?.addEventListener('abort', () => {
          failed(signal.reason);
          // A computation hears no message while it runs; only its end stops it.
          if (waiting.delete(call)) restart(false);
        });
        send(call, one);
      }),
    dispose: () => {
      stop();
      for (const { failed } of waiting.values()) failed(new DOMException('No longer needed.', 'AbortError'));
      waiting.clear();
    },
  };
};
