/** ms in one go: a slow phone answers a tap within 50 ms, and what a tap itself does takes some of them. */
const SLICE = 8;

interface Scheduler {
  yield?(): Promise<void>;
}

/** Lets the page take taps and draw before it goes on. A timer would wait 4 ms each time, and a hidden page a second. */
export const pause = (): Promise<void> => {
  const { scheduler } = globalThis as { readonly scheduler?: Scheduler };
  if (scheduler?.yield !== undefined) return scheduler.yield();
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      done();
    };
    port2.postMessage(null);
  });
};

/** After the next drawing; a page that is not seen draws nothing, and waits no longer than for a timer. */
const drawn = (): Promise<void> =>
  new Promise((done) => {
    const timer = setTimeout(done, 100);
    requestAnimationFrame(() => {
      clearTimeout(timer);
      setTimeout(done);
    });
  });

let turns: Promise<void> = Promise.resolve();

/** For parts of a screen that come up together: each is drawn before the next has its turn. */
export const inTurn = (): Promise<void> => {
  turns = turns.then(drawn);
  return turns;
};

/**
 * Does work that can be stopped anywhere, with pauses.
 * @param elapsed monotonic ms
 */
export const inPieces = async <T>(work: Iterator<void, T>, elapsed: () => number): Promise<T> => {
  let until = elapsed() + SLICE;
  for (;;) {
    const { done, value } = work.next();
    if (done === true) return value;
    if (elapsed() < until) continue;
    await pause();
    until = elapsed() + SLICE;
  }
};
