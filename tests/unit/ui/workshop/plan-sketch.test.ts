import { expect, test } from 'vitest';
import { drawable } from '../../../../src/ui/workshop/parts/PlanSketch.tsx';

test('areas are drawn as far as they are written, each with its number in the list', () => {
  const areas = [
    { label: 'Overhead', x: 20, y: 0, width: 60, height: 40 },
    { label: 'Not yet', x: '', y: 0, width: 60, height: 40 },
    { label: 'Flat', x: 0, y: 0, width: 60, height: 0 },
    { label: 'Beyond', x: 0, y: 1e9, width: 60, height: 40 },
    { x: 40, y: 60.5, width: 20, height: 30 },
  ];
  expect(drawable({ areas })).toEqual([
    { label: 'Overhead', x: 20, y: 0, width: 60, height: 40, number: 1 },
    { label: '', x: 40, y: 60.5, width: 20, height: 30, number: 5 },
  ]);
  expect(drawable({})).toEqual([]);
  expect(drawable({ areas: 'none' })).toEqual([]);
});
