import { tradeForm } from '../model/trade-form.ts';
import type { Checking } from './check.ts';
import { at } from './finding.ts';

/** What is drawn of numbers: an interval, or some of them. */
interface Drawn {
  readonly show?: string;
  readonly from?: number;
  readonly to?: number;
  readonly step?: number;
  readonly oneOf?: unknown;
}

const isRunway = (x: number): boolean => x % 10 === 0 && x >= 10 && x <= 360;
const isDirection = (x: number): boolean => x >= 0 && x <= 360;

/**
 * Numbers that are shown as a runway must be its tens of degrees, 10 to 360: formulas take them as degrees, and 7 for
 * runway 07 gives a crosswind that is wrong by 63°. Those shown as a direction must be 0 to 360.
 */
export function checkShown(c: Checking, draw: Drawn, path: string): void {
  const { show } = draw;
  if (show !== 'runway' && show !== 'direction') return;
  const fits = show === 'runway' ? isRunway : isDirection;
  const complain = (value: number, place: string): void =>
    c.add(show === 'runway' ? 'runway-degrees' : 'direction-range', place, {
      value,
      shown: tradeForm(value, null, show),
    });
  if (Array.isArray(draw.oneOf)) {
    draw.oneOf.forEach((value: number, i) => {
      if (!fits(value)) complain(value, at(path, 'oneOf', i));
    });
    return;
  }
  const { from, to, step = 1 } = draw;
  if (from === undefined || to === undefined || from > to || !(step > 0)) return;
  if (!fits(from)) complain(from, at(path, 'from'));
  else if (from + step <= to && !fits(from + step)) complain(from + step, at(path, 'step'));
  else if (to > 360) complain(to, at(path, 'to'));
}
