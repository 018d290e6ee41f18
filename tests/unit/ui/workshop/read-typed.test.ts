import { expect, test } from 'vitest';
import { notRead, readTyped } from '../../../../src/ui/workshop/fields/read-typed.ts';

test.each([
  ['12', 12],
  ['12.5', 12.5],
  ['12,5', 12.5],
  ['-3', -3],
  ['\u22123,25', -3.25],
  ['+4', 4],
  ['.5', 0.5],
  ['0,125', 0.125],
  ['1013,250', 1013.25],
  ['118.025', 118.025],
  [' 7 ', 7],
  ['-0', 0],
])('%s is read as %s', (text, value) => {
  expect(readTyped(text)).toBe(value);
});

test.each(['', '-', '12.', '12 kt', '1.2.3', '1,2,3', '1e3', '0x10', '10,000', '-1,500', 'ten', '∞'])(
  '%s is no number yet',
  (text) => {
    expect(readTyped(text)).toBeNull();
  },
);

test('what could be thousands or a fraction is told as that', () => {
  expect(notRead('10,000')).toContain('thousands');
  expect(notRead('12 kt')).toContain('no number');
});
