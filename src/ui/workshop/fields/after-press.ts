let pressed = false;
let waiting: (() => void)[] = [];

const release = (): void => {
  pressed = false;
  const now = waiting;
  waiting = [];
  for (const one of now) one();
};
const press = (): void => {
  pressed = true;
};
/** What the click itself does is done first. */
const lift = (): void => void setTimeout(release);

/** Begins to know of presses; once is enough. */
export const watchPresses = (): void => {
  addEventListener('mousedown', press, true);
  addEventListener('mouseup', lift, true);
};

/**
 * Does at once what follows from leaving a box, but while a finger or the mouse is on something else, only once that
 * counts: what moves on the screen meanwhile would move away from under it, and the tap would be lost.
 */
export const afterPress = (work: () => void): void => {
  if (pressed) waiting.push(work);
  else work();
};
