import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { flownFrom } from '../../../src/draft/flown.ts';
import { type Matrix, matrixOf } from '../../../src/draft/matrix.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';

const deck = (steps: readonly Json[], more: object = {}): Json =>
  ({
    format: 1,
    id: 'test/matrix',
    version: '1.0.0',
    title: 'Matrix',
    language: 'en',
    nature: 'fictional',
    sources: [],
    variants: [
      { id: 'engine', label: 'Engine', options: { a: 'A', b: 'B' } },
      { id: 'operator', label: 'Operator', options: { x: 'X', y: 'Y' } },
    ],
    procedures: [{ id: 'p', title: 'P', done: 'memory', steps }],
    ...more,
  }) as Json;
const matrix = (doc: Json, index = 0): Matrix => {
  const flown = flownFrom(doc, index);
  if (flown === null) throw new Error('not flown');
  return matrixOf(flown);
};
/** "axes | columns", then a line for each row; spaces that do not break are spaces. */
const told = ({ parts }: Matrix): string[] =>
  parts.flatMap(({ axes, columns, rows }) => [
    `${axes.join(' and ')}: ${columns.join(' | ')}`,
    ...rows.map(({ title, cells }) =>
      [
        title ?? '-',
        ...cells.map(({ step, words }) =>
          step === null ? 'none' : words.join(', ').replaceAll('\u00a0', ' ') || 'done',
        ),
      ].join(' | '),
    ),
  ]);

describe('the matrix', () => {
  test('a step of one variant: the axis that decides alone', () => {
    const found = matrix(
      deck([
        { id: 's', do: 'All' },
        { id: 't', by: 'PM', do: 'Some', when: { engine: 'b' } },
      ]),
    );
    expect(told(found)).toEqual(['Engine: A | B', 'PM: Some | none | done']);
    expect(found.common).toBe(1);
  });
  test('a callout that is another one elsewhere stands in one row', () => {
    const found = matrix(
      deck([
        { id: 's', by: 'PF', say: 'Stop', when: { operator: 'x' } },
        { id: 't', by: 'PM', say: 'Stopping', when: { operator: 'y' } },
      ]),
    );
    expect(told(found)).toEqual(['Operator: X | Y', '- | PF: “Stop” | PM: “Stopping”']);
    expect(found.parts[0]?.rows[0]?.cells.map(({ step }) => step)).toEqual(['s', 't']);
    expect(found.common).toBe(0);
  });
  test('a number that differs, of the step or its cue', () => {
    const limits = [
      {
        id: 'n1',
        ask: 'N1',
        unit: '% N1',
        sense: 'at least',
        cases: [
          { id: 'standard', value: 60 },
          { id: 'b', when: { engine: 'b' }, value: 65 },
        ],
      },
      { id: 'gate', ask: 'Gate', unit: 'ft', sense: 'exactly', value: 400 },
    ];
    const steps = [
      { id: 's', do: 'Set', limit: 'n1', cue: { limit: 'gate' } },
      { id: 't', do: 'Look', cue: { limit: 'n1' } },
      { id: 'u', do: 'Same', cue: { limit: 'gate' } },
    ];
    const found = matrix(deck(steps, { limits }));
    expect(told(found)).toEqual([
      'Engine: A | B',
      'Set | at least 60 % N1, cue 400 ft | at least 65 % N1, cue 400 ft',
      'Look | cue 60 % N1 or more | cue 65 % N1 or more',
    ]);
    expect(found.common).toBe(1);
  });
  test('an order that a step of one variant brings about', () => {
    const steps = [{ lanes: [[{ id: 's', do: 'S' }], [{ id: 't', do: 'T' }]] }, { id: 'u', do: 'U' }] as Json[];
    const both = deck([
      {
        lanes: [
          [
            { id: 's', do: 'S' },
            { id: 'm', do: 'M', when: { engine: 'b' } },
          ],
          [{ id: 't', do: 'T', needs: ['m'] }],
        ],
      },
      { id: 'u', do: 'U' },
    ] as Json[]);
    expect(matrix(deck(steps)).parts).toEqual([]);
    expect(told(matrix(both))).toEqual([
      'Engine: A | B',
      'M | none | done',
      'T | at the start | after S',
      'U | after S, T | after T',
    ]);
  });
  test('what needs two axes at once has a column for each combination', () => {
    const found = matrix(
      deck([
        { id: 's', do: 'S', when: { engine: 'a', operator: 'y' } },
        { id: 't', do: 'T' },
      ]),
    );
    expect(told(found)).toEqual(['Engine and Operator: A, X | A, Y | B, X | B, Y', 'S | none | done | none | none']);
  });
  test('of a draft without variants nothing differs', () => {
    const found = matrix(deck([{ id: 's', do: 'S' }], { variants: undefined }));
    expect(found).toEqual({ parts: [], common: 1 });
  });
  test('of the demonstration deck', () => {
    const doc = JSON.parse(readFileSync('decks/merrow-takeoff.deck.json', 'utf8'));
    expect(told(matrix(doc, 1))).toEqual([
      'Engine: TK-11, set by % N1 | TK-14, set by EPR',
      '- | PM: Check both N1 at the stabilising value, about 43 % N1 | PM: Check both EPR at the stabilising value, about 1.08 EPR',
      'Operator: Calder Coast Air | Fellwater Regional',
      'Captain: Guard the thrust levers with one hand | done | none',
    ]);
  });
});
