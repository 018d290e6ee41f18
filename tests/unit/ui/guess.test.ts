import { expect, test } from 'vitest';
import type { WalkLine } from '../../../src/drill/walk.ts';
import { guessedWords, hasHidden } from '../../../src/ui/parts/Guess.tsx';

const line = (more: Partial<WalkLine> = {}): WalkLine => ({
  id: 'a',
  text: 'Pump ON',
  critical: false,
  answers: [],
  beside: false,
  together: false,
  ...more,
});
const answered = line({ answers: [{ given: 'Flaps 2', answer: 'at most 210 kt' }] });

test('a line is tapped only where something of it is hidden', () => {
  expect(hasHidden('steps', line())).toBe(true);
  expect(hasHidden('rest', line())).toBe(false);
  expect(hasHidden('rest', line({ why: 'It leaks.', source: 'Manual' }))).toBe(false);
  for (const more of [{ by: 'PM' }, { cue: 'Passing V1' }, { wait: 'at least 5 s' }, { value: 'about 3°' }])
    expect(hasHidden('rest', line(more)), JSON.stringify(more)).toBe(true);
  expect(hasHidden('answers', line())).toBe(false);
  expect(hasHidden('answers', answered)).toBe(true);
});

test('who does not see it come up hears what was hidden, and nothing else', () => {
  const full = line({ by: 'PM', cue: 'V1', wait: 'at least 5 s', value: 'about 3°', why: 'It leaks.' });
  expect(guessedWords('steps', full)).toBe('Pump ON, about 3°');
  expect(guessedWords('rest', full)).toBe('PM, cue V1, wait at least 5 s, about 3°');
  expect(guessedWords('answers', answered)).toBe('Flaps 2: at most 210 kt');
});
