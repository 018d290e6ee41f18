import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { checkText } from '../../../src/deck/check.ts';
import { messageOf } from '../../../src/deck/messages.ts';

const files = readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json'));

test('there are decks', () => {
  expect(files.length).toBeGreaterThan(1);
});

/** A day within the life of every deck: when one is past its review date, it must be reviewed, not this test. */
const today = '2026-11-25';

test.each(files)('%s has no errors and no warnings', (file) => {
  const { deck, findings } = checkText(readFileSync(at('decks', file), 'utf8'), { today });
  const told = findings.filter((f) => f.severity !== 'hint').map((f) => `${f.path}: ${messageOf(f)}`);
  expect(told).toEqual([]);
  expect(deck?.format).toBe(1);
});
