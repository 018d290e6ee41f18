import type { Show } from '../model/deck.ts';
import { turn, type Width, within } from '../subjects/band.ts';

/** Is a typed number right? On the compass 360 equals 0, also across north. */
export const isRight = (typed: number, right: number, band: Width, show?: Show): boolean =>
  within(show === 'direction' || show === 'runway' ? right + turn(typed, right) : typed, right, band);
