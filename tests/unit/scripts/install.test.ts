import { expect, test } from 'vitest';
import { covers } from '../../../scripts/lib/install.mjs';

const wanted = {
  '': { version: '0.1.0' },
  'node_modules/a': { version: '1.0.0' },
  'node_modules/only-elsewhere': { version: '2.0.0', optional: true },
};

test('what npm installed covers what is wanted, without the packages of other platforms', () => {
  expect(covers(wanted, { 'node_modules/a': { version: '1.0.0' }, 'node_modules/b': { version: '9.0.0' } })).toBe(true);
});

test.each([
  ['missing', {}],
  ['another version', { 'node_modules/a': { version: '1.0.1' } }],
  [
    'an optional one of another version',
    { 'node_modules/a': { version: '1.0.0' }, 'node_modules/only-elsewhere': { version: '1.9.0' } },
  ],
])('a package %s is not', (_what, there) => {
  expect(covers(wanted, there)).toBe(false);
});
