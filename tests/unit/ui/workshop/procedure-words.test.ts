import { describe, expect, test } from 'vitest';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import {
  circumstances,
  crewWords,
  cueWords,
  heldWords,
  nodeWords,
  stepWords,
  waitWords,
  whereWords,
} from '../../../../src/ui/workshop/procedure/words.ts';

const doc = {
  crew: [{ id: 'cabin', label: 'Cabin crew' }],
  limits: [{ id: 'gate', ask: 'Gate height' }],
  day: [{ id: 'v1', label: 'V1' }],
  conditions: [
    { id: 'fire', yes: 'Fire warning', no: 'No fire warning' },
    { id: 'flaps', label: 'Flaps', options: { up: 'UP' } },
    { id: 'wind', label: 'Wind', unit: 'kt', from: 0, to: 30 },
  ],
  variants: [{ id: 'engine', options: { a: 'Engine A', b: 'Engine B' } }],
  procedures: [
    {
      steps: [{ id: 'a', by: 'PF' }, { lanes: [[{ id: 'b', by: 'PM' }], [{ id: 'c', by: 'PF' }, { id: 'd' }]] }],
    },
  ],
} as Json;

describe('words of the line', () => {
  test('of who acts, also one whom the deck does not have', () => {
    expect(['PF', 'both', 'cabin', 'nobody', ''].map((by) => crewWords(doc, by))).toEqual([
      'PF',
      'Both',
      'Cabin crew',
      'nobody',
      '',
    ]);
  });
  test('of what is done and said', () => {
    expect(stepWords({ do: 'Set', say: 'Set now' })).toBe('Set: “Set now”');
    expect(stepWords({ say: 'Stop' })).toBe('“Stop”');
    expect(stepWords({ do: 7 })).toBe('A step without words');
  });
  test('of the cue, whatever it is made of', () => {
    expect(cueWords(doc, { cue: { text: 'Now', limit: 'gate', day: 'v1', event: 'fire' } })).toBe(
      'Now, Gate height, V1, Fire warning',
    );
    expect(cueWords(doc, { cue: 'odd' })).toBe('');
  });
  test('of what a step can be confined to: yes and no, and each choice', () => {
    expect(circumstances(doc)).toEqual([
      { formula: 'fire', words: 'When: Fire warning' },
      { formula: '!fire', words: 'Not: Fire warning (No fire warning)' },
      { formula: 'flaps == "up"', words: 'When: Flaps: UP' },
      { formula: 'flaps != "up"', words: 'Not: Flaps: UP' },
    ]);
    expect(circumstances({ conditions: [null, 3, { id: 4, yes: 'x' }, { id: 'a', options: [] }] })).toEqual([]);
  });
  test('of what confines a step', () => {
    expect(heldWords(doc, { if: '!fire' })).toBe('If: No fire warning');
    for (const is of ['flaps == "up"', '!(flaps != "up")']) expect(heldWords(doc, { if: is })).toBe('If: Flaps: UP');
    for (const not of ['flaps != "up"', '!(flaps == "up")'])
      expect(heldWords(doc, { if: not })).toBe('If: Flaps: not UP');
    expect(heldWords(doc, { if: 'flaps == 2' })).toBe('If: flaps == 2');
    expect(heldWords(doc, { when: { engine: ['a', 'b'] } })).toBe('Engine A or Engine B only');
    expect(heldWords(doc, { when: { not: { engine: 'b' } }, if: 'fire' })).toBe('not Engine B · If: Fire warning');
    expect(heldWords(doc, {})).toBe('');
  });
  test('of what a step waits for', () => {
    const numbers = new Map([
      ['a', 1],
      ['b', 2],
    ]);
    expect(waitWords({ needs: ['a', 'x', 3], answers: 'b' }, numbers)).toBe('after\u00a01 and\u00a0x, answers\u00a02');
    expect(waitWords({ needs: 'odd' }, numbers)).toBe('');
  });
  test('of blocks', () => {
    expect(nodeWords(doc, { together: true, steps: [] })).toBe('Together, in any order');
    expect(nodeWords(doc, { if: 'fire', lanes: [] })).toBe('If: Fire warning · Side by side, in any order');
    expect(nodeWords(doc, { use: 'drill' })).toBe('Block drill of another procedure');
    expect(nodeWords(doc, null)).toBe('Something that is no step');
  });
  test('of where something stands: a lane by the one who acts in it, else by its number', () => {
    const at = (path: string) => whereWords(doc, '/procedures/0', `/procedures/0/steps/${path}`);
    expect([at('0'), at('1'), at('1/lanes/0/0'), at('1/lanes/1/1')]).toEqual([
      'Step 1 of 4',
      'Step 2 of 4',
      'Step 2 of 4, lane PM',
      'Step 4 of 4, lane 2',
    ]);
  });
});
