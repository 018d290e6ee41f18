import { describe, expect, test } from 'vitest';
import type { Deck } from '../../../src/model/deck.ts';
import { startsUndrawn, withLabels } from '../../../src/subjects/fill.ts';

const DECK = {
  day: [
    { id: 'v1', label: 'V1', unit: 'kt', from: 119, to: 148 },
    { id: 'v2', label: 'V2', unit: 'kt', from: 126, to: 160 },
  ],
  conditions: [{ id: 'packsOff', label: 'Packs', yes: 'Off', no: 'On' }],
} as unknown as Deck;

describe('a text of which nothing is drawn', () => {
  test.each([
    ['Passing V1 {v1} kt', 'Passing V1'],
    ['Speed never below {v2} kt', 'Speed never below V2'],
    ['at {v1}', 'at V1'],
    ['{packsOff} and {other}', 'Packs and {other}'],
  ])('%s', (text, said) => expect(withLabels(DECK, text)).toBe(said));

  test.each([
    // A clause that says but the value goes.
    ['Climbing, gear up. V2 {v2} kt', 'Climbing, gear up'],
    ['Lined up and cleared. V1 {v1} kt, V2 {v2} kt', 'Lined up and cleared'],
    ['V1 {v1} kt, lined up', 'lined up'],
    // What hangs on it stays.
    ['Beyond V1 {v1} kt, the aeroplane swings', 'Beyond V1, the aeroplane swings'],
    ['Lined up.', 'Lined up.'],
    ['V1 {v1} kt', ''],
  ])('at the beginning of a procedure: %s', (text, said) => expect(startsUndrawn(DECK, text)).toBe(said));
});
