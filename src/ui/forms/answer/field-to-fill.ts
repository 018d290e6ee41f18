import { readNumber } from '../../../forms/limit/read-number.ts';
import type { NumberField } from '../../../model/form.ts';

/** Where Enter leads: the first field without a number, by its place from 0; null where all hold one. */
export const fieldToFill = (fields: readonly NumberField[], typed: readonly string[]): number | null => {
  const open = fields.findIndex(({ unit, show }, i) => !readNumber(typed[i] ?? '', unit, show).ok);
  return open < 0 ? null : open;
};
