import { expect, test } from 'vitest';
import { compare, shareOf } from '../../../src/memory/calibration/reliability.ts';
import { comparisonWords, sureWords } from '../../../src/ui/parts/calibration-words.ts';

const predictions = (p: number, right: number, of: number) =>
  Array.from({ length: of }, (_, i) => ({ p, right: i < right }));

// Wilson's intervals of 211 in 240 (0.8319 to 0.9145) and of 45 in 50 (0.7864 to 0.9565), worked out apart from this
// code from the formula in Brown, Cai & DasGupta 2001.
test('predicted against actual, with the predictions that would agree', () => {
  expect(comparisonWords(compare(predictions(0.9, 211, 240)))).toBe(
    'Predicted 90 %, was 88 % (240 items; 83 to 91 % would agree).',
  );
});

test('a prediction outside says in which way', () => {
  expect(comparisonWords(compare(predictions(0.95, 211, 240)))).toMatch(/ The prediction was too high\.$/);
  expect(comparisonWords(compare(predictions(0.7, 211, 240)))).toMatch(/ The prediction was too low\.$/);
});

test('Sure against right; nothing is said of nothing', () => {
  expect(sureWords(shareOf(45, 50))).toBe('45 of 50 items right: 90 % (95 % interval 79 to 96 %).');
  expect(sureWords(shareOf(0, 0))).toBeNull();
  expect(comparisonWords(compare([]))).toBeNull();
});
