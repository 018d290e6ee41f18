import { describe, expect, test } from 'vitest';
import { concerns, paragraphsIn } from '../../../../src/deck/sheet/paragraphs.ts';

test('what an author enters is parted by commas, semicolons or lines', () => {
  expect(paragraphsIn(' 3.2.4, 3.3;Table 2\n\n § 91.117(a) , –')).toEqual(['3.2.4', '3.3', 'Table 2', '§ 91.117(a)']);
  expect(paragraphsIn('  ')).toEqual([]);
});

describe('a changed paragraph concerns', () => {
  test.each([
    // Itself, whatever stands between its numbers.
    ['3.2.4', '3.2.4', true],
    ['3.2.4', '3-2-4', true],
    ['§ 91.117(a)', '91.117 (a)', true],
    ['Chapter 15', '15', true],
    ['para 3.2', '3.2', true],
    // Its sub-paragraphs.
    ['3.2', '3.2.4', true],
    ['91.117', '91.117(a)(2)', true],
    ['4-1-20 a', '4-1-20 a5(a)', true],
    // What cites the whole of which it is a part.
    ['3.2.4', '3.2', true],
    ['3.2.4', '', true],
    // No neighbours.
    ['3.2', '3.3', false],
    ['3.2', '3.21', false],
    ['3.2.4', '3.2.5', false],
    ['4.1', '4.10', false],
    ['91.117(a)', '91.117(b)', false],
    ['Table 2', 'Table 3', false],
    ['Table 2', '2', false],
    ['2', 'Figure 2', false],
  ])('%s, cited %s: %s', (changed, cited, wanted) => {
    expect(concerns([changed], cited)).toBe(wanted);
  });

  test.each([
    ['3.4', '3.2, 3.4', true],
    ['3.4', '3.2 and 3.4.1', true],
    ['3.3', '3.2 to 3.4', true],
    ['3.4.2', '3.2–3.4', true],
    ['3.5', '3.2–3.4', false],
    ['3.1', '3.2–3.4', false],
    ['3.2 to 3.4', '3.3.1', true],
    ['3.2 to 3.4', '3.5', false],
    ['3.10', '3.2 to 3.9', false],
    ['Rotation', 'Chapter 15, Rotation and lift-off', true],
  ])('%s, cited %s: %s', (changed, cited, wanted) => {
    expect(concerns([changed], cited)).toBe(wanted);
  });

  test('any of several is enough; none concerns nothing', () => {
    expect(concerns(['1.1', '3.2'], '3.2.4')).toBe(true);
    expect(concerns([], '3.2.4')).toBe(false);
    expect(concerns([], '')).toBe(false);
  });
});
