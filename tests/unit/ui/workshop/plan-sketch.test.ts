import { expect, test } from 'vitest';
import { cornerOf, drawable } from '../../../../src/ui/workshop/parts/PlanSketch.tsx';

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

test('the number of an area stands where none that lies within it begins', () => {
  const pedestal = { x: 40, y: 60, width: 20, height: 30 };
  const levers = { x: 41, y: 61, width: 12, height: 8 };
  const knob = { x: 41, y: 84, width: 4, height: 4 };
  expect(cornerOf(levers, [pedestal, levers])).toEqual([0, 0]);
  expect(cornerOf(pedestal, [pedestal, levers])).toEqual([0, 1]);
  expect(cornerOf(pedestal, [pedestal, levers, knob])).toEqual([1, 0]);
  const all = [40, 55].flatMap((x) => [60, 85].map((y) => ({ x, y, width: 5, height: 5 })));
  expect(cornerOf(pedestal, [pedestal, ...all])).toEqual([0, 0]);
});
