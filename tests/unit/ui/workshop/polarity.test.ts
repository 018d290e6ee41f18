import { expect, test } from 'vitest';
import { deniedWords } from '../../../../src/ui/workshop/fields/PolarityAid.tsx';

test.each([
  ['Autofeather has not worked', 'Autofeather has worked', 'Autofeather has not worked'],
  ['No autofeather', 'Autofeather', 'No autofeather'],
  ['Packs off', 'Packs on', ''],
  ['Autofeather has worked', 'Autofeather has not worked', ''],
  // Both deny something: nothing can be told.
  ['Not icing', 'No ice', ''],
  // "no" within a word, and a form that is only begun.
  ['Normal law', 'Direct law', ''],
  ['Not armed', '', ''],
])('so: “%s”, not: “%s”', (yes, no, said) => {
  expect(deniedWords({ id: 'x', label: 'X', yes, no })).toBe(said);
});

test('what is no condition says nothing', () => {
  expect(deniedWords(undefined)).toBe('');
  expect(deniedWords({ yes: 3, no: 'On' })).toBe('');
});
