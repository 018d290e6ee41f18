import { expect, test } from 'vitest';
import { FORM_IDS } from '../../../src/model/form.ts';
import { timeWords } from '../../../src/ui/parts/Measured.tsx';

test('each way to ask by words of its own, with an article; of single answers there is no middle', () => {
  expect(
    timeWords([
      { form: 'run', seconds: 31.4, of: 3 },
      { form: 'cue', seconds: 1, of: 1 },
    ]),
  ).toBe('A sequence took you 31 s, a cue 1 s: the middle of your answers.');
  expect(timeWords([{ form: 'crew', seconds: 2, of: 1 }])).toBe('A question of who does what took you 2 s.');
  for (const form of FORM_IDS)
    expect(timeWords([{ form, seconds: 2, of: 1 }])).toMatch(/^(A|The) [a-z ]+ took you 2 s\.$/);
});
