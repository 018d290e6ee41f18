import type { Show, Unit } from './deck.ts';
import { UNIT_PLACES } from './unit-places.ts';

/** No-break space: a number and its unit stay on one line. */
const NB = '\u00a0';

/**
 * A number as the trade writes it: "250 kt", "070°", "07" (runway, from degrees), "FL 180", "M 0.78", "29.92 inHg".
 * @param unit null: the number alone, for texts that bring their own unit
 * @param show direction: 0..360 in three digits, 360 for 0. runway: degrees in, tens out, 36 for 0.
 * @param reference "AAL", "IAS": said behind the unit
 */
export function tradeForm(value: number, unit: Unit | null, show?: Show, reference?: string): string {
  const form = show ?? (unit === 'FL' ? 'flight-level' : unit === 'Mach' ? 'mach' : undefined);
  const tail = reference ? `${NB}${reference}` : '';
  switch (form) {
    case 'direction':
      return `${threeDigits(value)}${unit === null ? '' : '°'}${tail}`;
    case 'runway':
      return `${runwayDigits(value)}${tail}`;
    case 'flight-level':
      return `FL${NB}${String(Math.round(unit === 'ft' ? value / 100 : value)).padStart(3, '0')}${tail}`;
    case 'mach':
      return `M${NB}${decimal(value, 2)}${tail}`;
    case undefined: {
      const number = decimal(value, unit === null ? 0 : (UNIT_PLACES[unit] ?? 0));
      if (unit === null) return `${number}${tail}`;
      const gap = unit === '°' || unit === '×' ? '' : NB;
      return `${number}${gap}${unit.replace(' ', NB)}${tail}`;
    }
  }
}

/** 7 → "007", 0 → "360": a course or wind direction, rounded to whole degrees. */
function threeDigits(value: number): string {
  const turned = ((Math.round(value) % 360) + 360) % 360;
  return String(turned === 0 ? 360 : turned).padStart(3, '0');
}

/** 70 → "07", 0 → "36". */
function runwayDigits(value: number): string {
  const tens = ((Math.round(value / 10) % 36) + 36) % 36 || 36;
  return String(tens).padStart(2, '0');
}

/** Point as decimal mark, spaces between thousands from five digits on (ISO 80000-1), minus as U+2212. */
function decimal(value: number, places: number): string {
  const plain = String(Number(value.toPrecision(12)));
  const [whole = '0', part = ''] = (plain.includes('e') ? value.toFixed(6) : plain).replace('-', '').split('.');
  const grouped = whole.length > 4 ? whole.replace(/\B(?=(\d{3})+$)/g, NB) : whole;
  const digits = part.padEnd(places, '0');
  return `${value < 0 && Number(plain) !== 0 ? '\u2212' : ''}${grouped}${digits === '' ? '' : `.${digits}`}`;
}
