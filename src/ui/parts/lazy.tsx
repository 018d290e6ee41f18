import { signal } from '@preact/signals';
import type { ComponentType } from 'preact';
import { inTurn } from '../models/in-pieces.ts';

/** A screen in a chunk of its own; the last line of defence where it cannot be had (an older page after an update). */
export const lazy = <P extends object>(
  load: () => Promise<ComponentType<P>>,
  /** A part of a screen: nothing stands there until it is loaded, or if it cannot be. */
  part?: 'part',
): ComponentType<P> => {
  const loaded = signal<ComponentType<P> | null>(null);
  const failed = signal(false);
  let asked = false;
  const ask = () => {
    if (asked) return;
    asked = true;
    failed.value = false;
    load().then(
      (component) => {
        loaded.value = component;
      },
      () => {
        asked = false;
        failed.value = true;
      },
    );
  };
  return function Lazy(props: P) {
    const Component = loaded.value;
    if (Component !== null) return <Component {...props} />;
    if (part !== undefined) {
      // To ask for a file takes a slow phone some ms: not while the rest of the screen is drawn.
      if (!failed.value) void inTurn().then(ask);
      return null;
    }
    if (failed.value)
      return (
        <main class="sheet">
          <p class="note bad">This part of the app could not be loaded. Your answers are kept.</p>
          <button type="button" class="main" onClick={() => location.reload()}>
            Load the app again
          </button>
        </main>
      );
    ask();
    return <main class="sheet" aria-busy="true" />;
  };
};
