import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { checkText } from '../../../src/deck/check.ts';
import { messageOf } from '../../../src/deck/messages.ts';

test('the deck that the README teaches with has no finding', () => {
  const [, sample = ''] = /```json\n([\s\S]*?)```/.exec(readFileSync(at('README.md'), 'utf8')) ?? [];
  const { deck, findings } = checkText(sample, { today: '2026-11-25' });
  expect(findings.filter(({ severity }) => severity !== 'hint').map(messageOf)).toEqual([]);
  expect(deck?.procedures?.[0]?.id).toBe('start');
});
