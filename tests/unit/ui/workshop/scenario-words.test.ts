import { expect, test } from 'vitest';
import { checkText } from '../../../../src/deck/check.ts';
import type { Code } from '../../../../src/subjects/finding.ts';
import { formWords } from '../../../../src/ui/workshop/findings/words.ts';
import { changed } from '../../../fixtures/decks/base.ts';
import { PAIRS } from '../../../fixtures/decks/findings.ts';

const CODES = [
  'scenario-never',
  'rule-none',
  'draw-no-value',
  'wind-unsound',
  'near-v1',
  'formula-name',
  'range-empty',
] as const satisfies readonly Code[];

test.each(CODES)('%s is said in the words of the form', (code) => {
  const { fail } = PAIRS[code];
  const text = typeof fail === 'string' ? fail : JSON.stringify(changed(fail));
  const said = checkText(text, { today: '2026-11-25' }).findings.filter((one) => one.code === code);
  expect(said.length).toBeGreaterThan(0);
  for (const one of said) expect(formWords(one)).not.toMatch(/“(require|let|if|from|nearV1)”|\bwith let\b/);
});

test('what the picture lacks is said with the button that draws it', () => {
  const found = checkText(
    JSON.stringify(
      changed((d) => {
        d.scenarios[0].draw.windDirection = d.scenarios[0].draw.windDir;
        delete d.scenarios[0].draw.windDir;
      }),
    ),
    { today: '2026-11-25' },
  ).findings.filter(({ path }) => path.endsWith('/picture'));
  expect(found.map(formWords)).toEqual([
    'The picture shows “windDir”, which is not drawn. Press “Draw runway and wind”, or choose no picture.',
  ]);
});
