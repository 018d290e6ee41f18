import { expect, test } from 'vitest';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import { caseWords } from '../../../../src/ui/workshop/forms/case-words.ts';

const doc = {
  variants: [{ id: 'engine', label: 'Engine', options: { tk11: 'TK-11', tk14: 'TK-14' } }],
  conditions: [
    { id: 'out', yes: 'One engine inoperative', no: 'All engines' },
    { id: 'flaps', label: 'Flaps', options: { two: 'Flaps 2' } },
    { id: 'weight', label: 'Weight', unit: 't', from: 40, to: 70 },
  ],
  limits: [
    {
      id: 'n1',
      unit: '% N1',
      sense: 'at least',
      cases: [
        { id: 'a', when: { engine: 'tk11' }, value: 71 },
        { id: 'b', when: { not: { engine: ['tk11', 'tk14'] } }, given: { out: false, flaps: 'two' }, value: 'abc' },
        { id: 'c', value: 60 },
        { id: 'd', given: { weight: { from: 50, to: 57 }, gone: 'x' } },
        { id: 'e', given: { weight: { to: 57 } }, value: 1 },
        { id: 'f', given: { weight: { from: 57 } }, value: 1 },
        'odd',
      ],
    },
    {
      id: 'temperature',
      unit: '°C',
      sense: 'from-to',
      reference: 'TAT',
      cases: [{ when: { engine: 'tk14' }, from: 8, to: 46 }],
    },
    { id: 'hand', options: { pf: 'The PF' }, cases: [{ when: { engine: 'tk14' }, is: 'pf' }, { is: 'gone' }] },
  ],
} as Json;

// No-break spaces before units.
test.each([
  ['/limits/0/cases/0', 'TK-11: 71\u00a0%\u00a0N1'],
  ['/limits/0/cases/1', 'not TK-11 or TK-14, All engines, Flaps 2: abc'],
  ['/limits/0/cases/2', 'Otherwise: 60\u00a0%\u00a0N1'],
  ['/limits/0/cases/3', 'Weight from 50\u00a0t to below 57\u00a0t, gone: x'],
  ['/limits/0/cases/4', 'Weight below 57\u00a0t: 1\u00a0%\u00a0N1'],
  ['/limits/0/cases/5', 'Weight 57\u00a0t or more: 1\u00a0%\u00a0N1'],
  ['/limits/0/cases/6', ''],
  ['/limits/1/cases/0', 'TK-14: 8\u00a0°C\u00a0TAT to 46\u00a0°C\u00a0TAT'],
  ['/limits/2/cases/0', 'TK-14: The PF'],
  ['/limits/2/cases/1', 'Otherwise: gone'],
  ['/limits/9/cases/0', ''],
])('the case at %s: %s', (path, words) => {
  expect(caseWords(doc, path)).toBe(words);
});
