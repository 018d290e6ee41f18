import type { Unit } from './deck.ts';

/** Decimal places that the trade writes at least; none where a unit is not named. Apart from `units.ts`: the start needs no more of it. */
export const UNIT_PLACES: Readonly<Partial<Record<Unit, number>>> = { Mach: 2, inHg: 2, EPR: 2 };
