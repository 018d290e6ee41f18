import { signal } from '@preact/signals';
import { outwards } from './places.ts';

/**
 * The place that somebody wants to get to: pages on which it is folded away, or shown only when chosen, open it. Null
 * once it has the cursor.
 */
export const wantedPlace = signal<string | null>(null);

/** Turns that a page takes at most which is there already. */
const MOST_TURNS = 40;

/** Turns for which the cursor is kept there. */
const HELD = 20;

const BOXES = ['input', 'textarea', 'select', 'button'];

/** What can have the cursor for a place: its own box, a box within it, its group, the button that would add it. */
const found = (path: string): HTMLElement | null => {
  const at = CSS.escape(path);
  const any = (attribute: string): string => BOXES.map((box) => `${box}[${attribute}]`).join();
  for (const selector of [
    any(`data-path="${at}"`),
    any(`data-path^="${at}/"`),
    `[data-group="${at}"]`,
    `[data-add="${at}"]`,
    `[data-path="${at}"]`,
  ]) {
    const one = document.querySelector<HTMLElement>(selector);
    if (one !== null) return one;
  }
  return null;
};

const show = (one: HTMLElement): void => {
  for (let around = one.parentElement; around !== null; around = around.parentElement)
    if (around instanceof HTMLDetailsElement) around.open = true;
  if (one.tabIndex < 0 && !one.hasAttribute('tabindex')) one.tabIndex = -1;
  one.focus();
  one.scrollIntoView({ block: 'center' });
};

/** A page that has just been drawn gives the cursor to its heading: it goes back to where it was sent. */
const hold = (one: HTMLElement, turns: number): void => {
  const { activeElement } = document;
  if (activeElement !== one) {
    if (activeElement !== null && activeElement !== document.body && activeElement.tagName !== 'H1') return;
    show(one);
  }
  if (turns > 0) requestAnimationFrame(() => hold(one, turns - 1));
};

/**
 * Puts the cursor into the field of a place, or of what it lies in, as soon as the page shows it.
 * @param pointer JSON Pointer
 * @param most turns of drawing after which what is not there is taken to be nowhere
 */
export const focusField = (pointer: string, most = MOST_TURNS): void => {
  wantedPlace.value = pointer;
  const places = outwards(pointer).filter((path) => path !== '');
  const look = (turns: number): void => {
    if (wantedPlace.peek() !== pointer) return;
    // While the page is still being drawn, only the field itself will do.
    const one = (turns > 0 ? places.slice(0, 1) : places).map(found).find((box) => box !== null) ?? null;
    if (one === null && turns > 0) {
      requestAnimationFrame(() => look(turns - 1));
      return;
    }
    wantedPlace.value = null;
    if (one === null) return;
    show(one);
    hold(one, HELD);
  };
  requestAnimationFrame(() => look(most));
};
