/** One writer at a time, by Web Locks; the browser frees the lock of a page that is gone. */
export interface Lock {
  readonly state: 'held' | 'other' | 'unsupported';
  /** Takes the lock from whoever holds it. Resolves once it is ours. */
  steal(): Promise<void>;
  onLost(listener: () => void): () => void;
  release(): void;
}

/** Takes the lock if it is free. */
export const takeLock = async (name: string, locks: LockManager | undefined): Promise<Lock> => {
  let state: Lock['state'] = 'unsupported';
  let release: () => void = () => undefined;
  const listeners = new Set<() => void>();

  const request = (options: LockOptions): Promise<void> =>
    new Promise((decided, failed) => {
      if (locks === undefined) return decided();
      let mine = false;
      locks
        .request(name, options, (lock) => {
          mine = lock !== null;
          state = mine ? 'held' : 'other';
          decided();
          if (!mine) return;
          return new Promise<void>((done) => {
            release = done;
          });
        })
        .catch((error) => {
          // While it was held: somebody stole it.
          if (!mine) return failed(error);
          state = 'other';
          for (const listener of listeners) listener();
        });
    });

  await request({ ifAvailable: true });
  return {
    get state() {
      return state;
    },
    steal: async () => {
      if (state === 'other') await request({ steal: true });
    },
    onLost: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    release: () => {
      listeners.clear();
      release();
    },
  };
};
