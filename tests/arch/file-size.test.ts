import { expect, test } from 'vitest';
import { sizeComplaints } from './rules.ts';
import { sources } from './sources.ts';

test('no file of src is longer than can be read in one go', () => {
  expect(sizeComplaints(sources('src'))).toEqual([]);
});

test('a longer one is told', () => {
  expect(sizeComplaints([{ path: 'src/a.ts', text: 'x\n'.repeat(400) }])).toEqual([]);
  expect(sizeComplaints([{ path: 'src/a.ts', text: 'x\n'.repeat(401) }])).toHaveLength(1);
});
