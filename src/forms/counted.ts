import type { Show, Unit } from '../model/deck.ts';
import { tradeForm } from '../model/trade-form.ts';
import { UNIT_FACTS } from '../model/units.ts';
import { SLACK, type Width } from '../subjects/band.ts';

/**
 * Between which numbers an answer counts as right, for the verdict: the ends are rounded inwards, so that each number
 * said is one that counts.
 * @returns undefined where the number alone counts
 */
export function countedWords(
  right: number,
  band: Width,
  unit: Unit,
  show?: Show,
  reference?: string,
): string | undefined {
  // Levels and runways are said in steps of their own.
  if ((band.plus === 0 && band.minus === 0) || show === 'flight-level' || show === 'runway') return undefined;
  const places = UNIT_FACTS[unit].whole && Math.max(band.plus, band.minus) >= 1 ? 0 : 3;
  const scale = 10 ** places;
  const low = Math.ceil((right - band.minus) * scale - SLACK * scale) / scale;
  const high = Math.floor((right + band.plus) * scale + SLACK * scale) / scale;
  if (low >= high) return undefined;
  const said = (x: number): string => tradeForm(show === 'direction' ? compass(x) : x, unit, show, reference);
  return `${said(low)} to ${said(high)}`;
}

const compass = (x: number): number => ((x % 360) + 360) % 360 || 360;

/** The line of the verdict; undefined without one. */
export const countedLine = (ranges: readonly (string | undefined)[]): string | undefined => {
  const said = ranges.filter((one) => one !== undefined);
  return said.length === 0 ? undefined : `Counted right: ${said.join('; ')}`;
};

/** Of a choice. */
export const eitherLine = (options: readonly unknown[]): string | undefined =>
  options.length < 2 ? undefined : options.length === 2 ? 'Either is right' : 'Each of these is right';
