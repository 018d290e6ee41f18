import type { RefObject } from 'preact';

/** The cursor goes on to what stands there once it is drawn: what it was on is gone, or means nothing any more. */
export const focusSoon = (ref: RefObject<HTMLElement | null>): void => {
  requestAnimationFrame(() => ref.current?.focus());
};
