import type { Updates } from '../ui/device.ts';

/** The update flow, loaded beside the first screen: what looks for new versions must not hold up the present one. */
export const laterUpdates = (): Updates => {
  const real = import('./update.ts').then(({ createUpdates }) => createUpdates());
  // Without it the app works as it is; the next start tries again.
  real.catch(() => undefined);
  return {
    subscribe: (listener) => {
      let stop: () => void = () => undefined;
      let over = false;
      real.then(
        (updates) => {
          if (!over) stop = updates.subscribe(listener);
        },
        () => undefined,
      );
      return () => {
        over = true;
        stop();
      };
    },
    setBusy: (busy) =>
      void real.then(
        (updates) => updates.setBusy(busy),
        () => undefined,
      ),
    accept: async () => (await real).accept(),
    reload: () => location.reload(),
  };
};
