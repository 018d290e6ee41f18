import { describe, expect, test } from 'vitest';
import { walkOf } from '../../../src/drill/walk.ts';
import { type GateLine, gateLines } from '../../../src/drill/walk-gates.ts';
import type { DayValue, Deck, Limit, Node } from '../../../src/model/deck.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { flow, limitDeck, resolved } from '../forms/small-decks.ts';
import { resolvedDeck } from './practice.ts';

const linesOf = (deck: Resolved, procedure = 'flow'): readonly GateLine[] => {
  const [view] = deck.views;
  const found = view?.procedures.find((one) => one.procedure.id === procedure);
  const situation = found?.situations[0];
  if (view === undefined || found === undefined || situation === undefined) throw new Error('no procedure');
  return gateLines(deck, view, found, situation);
};
const DAY: readonly DayValue[] = [
  { id: 'v1', label: 'V1', unit: 'kt', from: 120, to: 124, require: ['v1 <= vr'] },
  { id: 'vr', label: 'VR', unit: 'kt', from: 120, to: 124 },
  { id: 'fuel', label: 'Fuel', unit: 'kg', from: 1, to: 2 },
];
const limit = (id: string, more: object): Limit =>
  ({ id, ask: `The ${id}`, unit: 'kt', sense: 'exactly', ...more }) as Limit;
const small = (steps: readonly Node[], limits: readonly Limit[] = [], more: Partial<Deck> = {}): readonly GateLine[] =>
  linesOf(resolved({ procedures: [flow(steps)], limits, day: DAY, ...more }));
const step = (id: string, more: object): Node => ({ id, do: `Do ${id}`, ...more }) as Node;

test('values of the day are drawn as their requirements ask, in order, with what is done there', () => {
  const [line, ...others] = small([
    step('a', { cue: { day: 'vr' }, by: 'PF' }),
    step('b', { cue: { day: 'v1' } }),
    step('c', { until: { day: 'vr' } }),
    step('d', { cue: { day: 'fuel' } }),
  ]);
  expect(others).toEqual([]);
  expect(line).toMatchObject({ title: 'Speeds, kt', datum: null, example: true });
  expect(line?.gates.map(({ names, done }) => [names, done])).toEqual([
    [['V1'], ['Do b']],
    [['VR'], ['PF Do a', 'Do c (up to here)']],
  ]);
  const [v1, vr] = line?.gates.map(({ values }) => values[0] ?? Number.NaN) ?? [];
  expect(v1).toBeLessThanOrEqual(vr ?? Number.NaN);
  expect(line?.gates.map(({ words }) => words)).toEqual([`V1 ${v1}\u00a0kt`, `VR ${vr}\u00a0kt`]);
});

test('what is counted from another place is on another line; heights and differences from zero', () => {
  const lines = small(
    [
      step('a', { cue: { limit: 'turn' } }),
      step('b', { cue: { limit: 'pilot' } }),
      step('c', { cue: { limit: 'lights' } }),
      step('d', { limit: 'margin' }),
      step('e', { limit: 'reserve' }),
    ],
    [
      limit('pilot', { unit: 'ft', reference: 'AAL', sense: 'at least', value: 550 }),
      limit('turn', { unit: 'ft', reference: 'AAL', sense: 'at least', strict: true, value: 450 }),
      limit('lights', { unit: 'ft', reference: 'MSL', value: 9000 }),
      limit('margin', { reference: 'above V2', sense: 'from-to', from: 9, to: 17 }),
      limit('reserve', { reference: 'above V2', sense: 'at most', value: 20 }),
    ],
  );
  // One altitude alone is no line.
  expect(lines.map(({ title, datum, example }) => [title, datum, example])).toEqual([
    ['Heights, ft AAL', 0, false],
    ['Speeds, kt above V2', 0, false],
  ]);
  expect(lines[0]?.gates.map(({ values, names, what }) => [values, names, what])).toEqual([
    [[450], ['above'], 'The turn'],
    [[550], ['min'], 'The pilot'],
  ]);
  expect(lines[1]?.gates.map(({ values, names }) => [values, names])).toEqual([
    [
      [9, 17],
      ['from', 'to'],
    ],
    [[20], ['max']],
  ]);
});

test('a limit in kt of no named speed may be of the wind: it counts only where a step waits for it', () => {
  const steps = (wind: object) => [step('a', { cue: { day: 'v1' } }), step('b', wind)];
  const limits = [limit('tiller', { sense: 'at most', value: 35 })];
  expect(small(steps({ limit: 'tiller' }), limits)).toEqual([]);
  expect(small(steps({ cue: { limit: 'tiller' } }), limits)[0]?.gates.map(({ values }) => values[0])[0]).toBe(35);
});

test('equal speeds are one place: no line', () => {
  const day = DAY.map((one) => ({ ...one, from: 120, to: 120 }));
  expect(small([step('a', { cue: { day: 'v1' } }), step('b', { cue: { day: 'vr' } })], [], { day })).toEqual([]);
});

test('below zero the line begins at its least value', () => {
  const limits = [limit('a', { reference: 'above V2', value: -5 }), limit('b', { reference: 'above V2', value: 10 })];
  const [line] = small([step('a', { limit: 'a' }), step('b', { limit: 'b' })], limits);
  expect(line?.datum).toBe(null);
});

test('nothing of speeds or heights: no line', () => {
  expect(linesOf(resolved({ procedures: [flow(3)] }))).toEqual([]);
});

describe('the demonstration deck', () => {
  test('its take-off roll: tiller, stick, speed call, V1 and VR in order', () => {
    const merrow = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
    const [line] = linesOf(merrow, 'take-off-roll');
    expect(line?.gates.map(({ values, names }) => `${names[0]} ${values[0]}`.trim()).slice(0, 4)).toEqual([
      'max 35',
      '60',
      '85',
      'max 90',
    ]);
    expect(line?.gates.slice(4).map(({ names }) => names[0])).toEqual(['V1', 'VR']);
  });
});

describe('a limit with a picture of the pitch', () => {
  const read = (more: object) =>
    walkOf(limitDeck({ unit: '°', sense: 'from-to', from: 5, to: 8, ...more } as Partial<Limit>), {
      variant: '',
      group: 'limits',
      groupKind: 'limit',
    })?.lines[0]?.answers;
  test('is read with its angles, another without', () => {
    expect(read({ picture: 'pitch' })).toEqual([{ given: '', answer: '5° to 8°', pitch: [5, 8] }]);
    expect(read({})).toEqual([{ given: '', answer: '5° to 8°' }]);
  });
});
