import { describe, expect, test } from 'vitest';
import { walkOf } from '../../../src/drill/walk.ts';
import { panelPlan, picturesOf, procedureRead, type Reading } from '../../../src/drill/walk-pictures.ts';
import type { Area, Deck, Node, Procedure } from '../../../src/model/deck.ts';
import { flow, resolved } from '../forms/small-decks.ts';

const AREAS: readonly Area[] = [
  { label: 'Overhead', x: 10, y: 0, width: 80, height: 20 },
  { label: 'Console', x: 40, y: 30, width: 20, height: 30 },
];
const STEPS = [
  { id: 'a', do: 'Pump ON', by: 'PM', where: 'Overhead' },
  { id: 'b', do: 'Look out' },
  { id: 'c', do: 'Levers up', where: 'Console' },
  { id: 'd', do: 'Kick the bin', where: 'Galley' },
] as const satisfies readonly Node[];

const readingOf = (content: Partial<Deck>, things?: readonly string[]): Reading => {
  const of = resolved(content);
  const wanted = { variant: '', group: 'flow', groupKind: 'procedure', ...(things && { things }) } as const;
  const walk = walkOf(of, wanted);
  if (walk === null) throw new Error('nothing to read');
  return { walk, resolved: of, wanted };
};
const inFlow = (more: Partial<Procedure> = {}) => ({ procedures: [flow(STEPS, more)] });

describe('the plan of the flight deck', () => {
  test('has a stop for each step that is done on it, in their order', () => {
    const plan = panelPlan(readingOf({ ...inFlow(), areas: AREAS }));
    expect(plan?.areas).toEqual(AREAS);
    expect(plan?.stops).toEqual([
      { id: 'a', text: 'Pump ON', by: 'PM', where: 'Overhead' },
      { id: 'c', text: 'Levers up', where: 'Console' },
    ]);
  });

  test('holds to what is read', () => {
    const plan = panelPlan(readingOf({ ...inFlow(), areas: AREAS }, ['b', 'c']));
    expect(plan?.stops.map(({ id }) => id)).toEqual(['c']);
    expect(panelPlan(readingOf({ ...inFlow(), areas: AREAS }, ['b', 'd']))).toBe(null);
  });

  test('is none in a deck without areas', () => {
    expect(panelPlan(readingOf(inFlow()))).toBe(null);
  });
});

describe('pictures are offered', () => {
  test('where they show something', () => {
    expect(picturesOf(readingOf({ ...inFlow(), areas: AREAS }))).toEqual({ map: true, panel: true });
    expect(picturesOf(readingOf(inFlow()))).toEqual({ map: true, panel: false });
    expect(picturesOf(readingOf({ procedures: [flow(2)] }))).toEqual({ map: false, panel: false });
  });

  test('no map of a list that is read', () => {
    expect(picturesOf(readingOf(inFlow({ done: 'read-and-do' }))).map).toBe(false);
  });

  test('the whole procedure is mapped, also where a part of it is read', () => {
    const reading = readingOf(inFlow(), ['a']);
    expect(reading.walk.lines.map(({ id }) => id)).toEqual(['a']);
    expect(procedureRead(reading)?.situation.steps.length).toBe(STEPS.length);
    expect(picturesOf(reading).map).toBe(true);
  });

  test('none of limits', () => {
    const of = resolved({ limits: [{ id: 'one', ask: 'How fast?', unit: 'kt', sense: 'at most', value: 200 }] });
    const wanted = { variant: '', group: '', groupKind: 'limit' } as const;
    const walk = walkOf(of, wanted);
    if (walk === null) throw new Error('nothing to read');
    expect(picturesOf({ walk, resolved: of, wanted })).toEqual({ map: false, panel: false });
  });
});
