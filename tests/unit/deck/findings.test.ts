import { describe, expect, test } from 'vitest';
import { checkDeck, checkText } from '../../../src/deck/check.ts';
import { messageOf } from '../../../src/deck/messages.ts';
import { type Code, SEVERITIES } from '../../../src/subjects/finding.ts';
import { BASE, changed } from '../../fixtures/decks/base.ts';
import { PAIRS, type Pair } from '../../fixtures/decks/findings.ts';

const today = '2026-11-25';
const textOf = (half: Pair['fail']): string => (typeof half === 'string' ? half : JSON.stringify(changed(half)));

test('the base deck gives no finding at all', () => {
  expect(checkText(JSON.stringify(BASE), { today })).toEqual({ deck: BASE, findings: [] });
  expect(checkDeck(BASE, { today })).toEqual([]);
});

test('errors stand before warnings, warnings before hints', () => {
  const deck = changed((d) => {
    d.title = '<b>Base</b>';
    d.reviewBy = '2026-11-24';
    d.scenarios[0].require.push('tial < 5');
  });
  expect(checkDeck(deck, { today }).map((f) => f.severity)).toEqual(['error', 'warning', 'hint']);
});

describe.each(Object.entries(PAIRS) as [Code, Pair][])('%s', (code, { fail, pass }) => {
  test('is found, said, and decides about the install', () => {
    const { deck, findings } = checkText(textOf(fail), { today });
    const found = findings.filter((f) => f.code === code);
    expect(found.map((f) => f.severity)).toContain(SEVERITIES[code]);
    for (const f of findings) {
      expect(messageOf(f)).toMatch(/^\S.*[.?]$/s);
      expect(messageOf(f)).not.toMatch(/undefined|NaN|\[object/);
    }
    expect(deck === undefined).toBe(findings.some((f) => f.severity === 'error'));
  });

  test('is not found next to it', () => {
    const { deck, findings } = checkText(textOf(pass), { today });
    expect(findings.filter((f) => f.code === code)).toEqual([]);
    // A passing fixture that is a deck is a sound one.
    if (typeof pass !== 'string') {
      expect(findings.filter((f) => f.severity === 'error')).toEqual([]);
      expect(deck).toBeDefined();
    }
  });
});
