import type { Unit } from '../model/deck.ts';
import { UNIT_FACTS } from '../model/units.ts';
import { SLACK, type Width, within } from '../subjects/band.ts';

/** A wrong number with what it means. */
export interface Candidate {
  readonly value: number;
  readonly note: string;
  /** Authored: named at any distance outside the band. Machine-made: only beyond three bands. */
  readonly authored: boolean;
  /** Right by another revision of the deck: named at any distance too, after the author's own. */
  readonly past?: true;
  /** Accepted distance of what was typed from it: a converted number is rounded by hand. */
  readonly slack: number;
}

/**
 * Wrong numbers that a machine can think of: unit factors, sign, decimal place, neighbouring digits exchanged,
 * and other numbers of the deck in the same unit.
 */
export function machineSlips(
  right: number,
  unit: Unit,
  others: readonly { readonly value: number; readonly ask: string }[] = [],
): Candidate[] {
  const out: Candidate[] = [];
  const add = (value: number, note: string, slack = SLACK): void => {
    if (Math.abs(value - right) > SLACK) out.push({ value, note, authored: false, slack });
  };
  for (const { unit: other, factor } of UNIT_FACTS[unit].factors ?? []) {
    // As written by hand in that unit.
    const rounded = (x: number, of: Unit): number => Math.max(0.005 * Math.abs(x), UNIT_FACTS[of].whole ? 0.5 : 0);
    add(right * factor, `That is the figure in ${other}.`, rounded(right * factor, other));
    add(right / factor, `Converted the wrong way between ${unit} and ${other}.`, rounded(right / factor, unit));
  }
  if (right !== 0) add(-right, 'The sign is the other way round.');
  for (const power of [10, 100, 1000]) {
    add(right * power, 'The decimal place is wrong: the number is too large.', Math.abs(right) * power * 1e-9);
    add(right / power, 'The decimal place is wrong: the number is too small.');
  }
  for (const value of exchanged(right)) add(value, 'Two digits are exchanged.');
  const known = new Set<number>();
  for (const o of others) {
    if (known.has(o.value)) continue;
    known.add(o.value);
    const asks = others.filter((x) => x.value === o.value);
    // Several limits with that number: which one was meant cannot be told.
    if (asks.length === 1) add(o.value, `That is the answer to: ${o.ask}`);
  }
  return out;
}

/** Numbers that differ by two neighbouring digits exchanged; none that begin with 0. */
function exchanged(value: number): number[] {
  const text = String(Number(Math.abs(value).toPrecision(12)));
  if (text.includes('e')) return [];
  const at = [...text].flatMap((c, i) => (c === '.' ? [] : [i]));
  const out = new Set<number>();
  for (let k = 1; k < at.length; k++) {
    const i = at[k - 1] as number;
    const j = at[k] as number;
    if (text[i] === text[j]) continue;
    const chars = [...text];
    [chars[i], chars[j]] = [chars[j] as string, chars[i] as string];
    if (chars[0] === '0' && chars.length > 1 && chars[1] !== '.') continue;
    out.add(Math.sign(value) * Number(chars.join('')));
  }
  return [...out];
}

/**
 * The one slip that explains what was typed; undefined where none does, or more than one.
 * The author's own explanation goes before a machine's, which may be the same by other words.
 * @param typed outside the band around `right`
 */
export function nameSlip(
  typed: number,
  right: number,
  band: Width,
  candidates: readonly Candidate[],
): string | undefined {
  const matching = candidates.filter(
    (c) => Math.abs(typed - c.value) <= c.slack + SLACK && !within(c.value, right, band),
  );
  const authored = matching.filter((c) => c.authored);
  if (authored.length === 1) return authored[0]?.note;
  // Of several revisions with that number the one that had it last.
  const past = matching.find((c) => c.past);
  if (past) return past.note;
  if (authored.length > 0) return undefined;
  if (Math.abs(typed - right) <= 3 * Math.max(band.plus, band.minus) + SLACK) return undefined;
  return matching.length === 1 ? matching[0]?.note : undefined;
}
