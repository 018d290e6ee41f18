import type { Sense, Show, Unit } from '../model/deck.ts';
import { tradeForm } from '../model/trade-form.ts';
import { turn } from '../subjects/band.ts';

/** Where an answer lies against the right number, in words. */
export interface Off {
  readonly typed: number;
  readonly right: number;
  readonly unit: Unit;
  readonly show?: Show | undefined;
  readonly sense: Sense;
  /** Of from-to: which end. */
  readonly end?: 'lower' | 'upper';
}

/** "1 kt above the limit, on the unsafe side"; without a side where neither is safer. */
export function offWords({ typed, right, unit, show, sense, end }: Off): string {
  const name = end ? `the ${end} end` : sense === 'at least' || sense === 'at most' ? 'the limit' : 'the right value';
  if (show === 'direction' || show === 'runway') {
    const d = turn(typed, right);
    return `${tradeForm(Math.abs(d), '°')} ${d > 0 ? 'clockwise' : 'anticlockwise'} of ${name}`;
  }
  const d = Number((typed - right).toPrecision(10));
  const amount =
    show === 'flight-level' ? tradeForm(Math.abs(d), unit === 'FL' ? null : unit) : plain(Math.abs(d), unit);
  const place = `${amount} ${d > 0 ? 'above' : 'below'} ${name}`;
  const least = sense === 'at least' || end === 'lower';
  const most = sense === 'at most' || end === 'upper';
  if (!least && !most) return place;
  const unsafe = most ? d > 0 : d < 0;
  return `${place}, on the ${unsafe ? 'unsafe' : 'safe'} side`;
}

/** A difference of levels or Mach numbers is no level: without FL and M. */
const plain = (amount: number, unit: Unit): string =>
  unit === 'FL' || unit === 'Mach'
    ? `${tradeForm(amount, null)}${unit === 'FL' ? ' levels' : ' Mach'}`
    : tradeForm(amount, unit);
