import { expect, test } from 'vitest';
import type { NumberField } from '../../../src/model/form.ts';
import { fieldToFill } from '../../../src/ui/forms/answer/field-to-fill.ts';

const band: readonly NumberField[] = [
  { label: 'From', unit: 'kt' },
  { label: 'To', unit: 'kt' },
];

test('Enter leads to the first field without a number', () => {
  expect(fieldToFill(band, [])).toBe(0);
  expect(fieldToFill(band, ['', '17'])).toBe(0);
  expect(fieldToFill(band, ['9'])).toBe(1);
  expect(fieldToFill(band, ['9', 'fast'])).toBe(1);
});

test('and nowhere once all are filled: the keys go down, and nothing is answered', () => {
  expect(fieldToFill(band, ['9', '17,5'])).toBeNull();
  expect(fieldToFill([], [])).toBeNull();
});
