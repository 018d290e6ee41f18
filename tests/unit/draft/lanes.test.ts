import { describe, expect, test } from 'vitest';
import { apply, type Change, undone, valueAt } from '../../../src/draft/change.ts';
import {
  addLane,
  blocksToUse,
  dissolve,
  keptBy,
  makeBlock,
  makeBranch,
  makeElse,
  makeLanes,
  makeTogether,
  nameBlock,
  opposite,
  splitLane,
  useBlock,
} from '../../../src/draft/lanes.ts';
import { newCondition } from '../../../src/draft/new-condition.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';

const P = '/procedures/0';
const LIST = `${P}/steps`;
const draft = (...steps: Json[]): Json => ({ procedures: [{ id: 'p', title: 'First', steps }] });
const s = (id: string, by?: string): Json => ({ id, ...(by !== undefined && { by }) });
const done = (doc: Json, changes: readonly Change[]): Json => {
  expect(changes.length).toBeGreaterThan(0);
  const next = apply(doc, changes);
  expect(JSON.stringify(apply(next, undone(changes)))).toBe(JSON.stringify(doc));
  return valueAt(next, LIST) as Json;
};
const span = (from: number, to: number, list = LIST) => ({ list, from, to });

describe('of neighbours', () => {
  const doc = draft(s('a', 'PF'), s('b', 'PM'), s('c', 'PF'), s('d'));
  test('any order: a lane each', () => {
    expect(done(doc, makeLanes(doc, span(1, 2), 'each'))).toEqual([
      s('a', 'PF'),
      { lanes: [[s('b', 'PM')], [s('c', 'PF')]] },
      s('d'),
    ]);
  });
  test('side by side: a lane for each crew member, in their own order', () => {
    expect(done(doc, makeLanes(doc, span(0, 2), 'crew'))).toEqual([
      { lanes: [[s('a', 'PF'), s('c', 'PF')], [s('b', 'PM')]] },
      s('d'),
    ]);
    expect(done(doc, makeLanes(doc, span(1, 2), 'crew'))).toMatchObject([
      {},
      { lanes: [[{ id: 'c' }], [{ id: 'b' }]] },
      {},
    ]);
    const alone = draft(s('a', 'PF'), s('b', 'PF'));
    expect(makeLanes(alone, span(0, 1), 'crew')).toEqual([]);
  });
  test('together, and a block with a condition', () => {
    expect(done(doc, makeTogether(doc, span(2, 3)))).toMatchObject([{}, {}, { together: true, steps: [{}, {}] }]);
    expect(makeTogether(doc, span(2, 2))).toEqual([]);
    expect(done(doc, makeBlock(doc, span(0, 0), { if: 'fire' }))).toMatchObject([
      { if: 'fire', steps: [{ id: 'a' }] },
      {},
      {},
      {},
    ]);
  });
  test('a branch: the other side begins with an empty step', () => {
    expect(done(doc, makeBranch(doc, span(0, 1), 'fire'))).toEqual([
      { if: 'fire', steps: [s('a', 'PF'), s('b', 'PM')] },
      { if: '!fire', steps: [{ id: 'step' }] },
      s('c', 'PF'),
      s('d'),
    ]);
  });
  test('otherwise: a step comes into a block, a block stays, and what has no condition has no other side', () => {
    const held = draft({ id: 'a', if: 'fire', do: 'x' }, { if: '!fire', lanes: [[s('b')], [s('c')]] }, s('d'));
    expect(done(held, makeElse(held, `${LIST}/0`))).toMatchObject([
      { if: 'fire', steps: [{ id: 'a', do: 'x' }] },
      { if: '!fire', steps: [{ id: 'step' }] },
      {},
      {},
    ]);
    expect(done(held, makeElse(held, `${LIST}/1`))).toMatchObject([
      {},
      { if: '!fire', lanes: [[{}], [{}]] },
      { if: 'fire', steps: [{ id: 'step' }] },
      {},
    ]);
    for (const at of [`${LIST}/2`, `${LIST}/9`, P]) expect(makeElse(held, at)).toEqual([]);
    const odd = draft({ if: 3, do: 'x' } as Json, 'odd');
    for (const at of [`${LIST}/0`, `${LIST}/1`]) expect(makeElse(odd, at)).toEqual([]);
  });
  test('beyond the list there is nothing to do', () => {
    for (const one of [span(3, 4), span(-1, 0), span(0, 1, '/nowhere'), span(0, 1, `${P}/title`)])
      for (const make of [makeBlock, makeTogether]) expect(make(doc, one)).toEqual([]);
    expect(makeLanes(doc, span(3, 4), 'each')).toEqual([]);
    expect(makeBranch(doc, span(3, 4), 'x')).toEqual([]);
  });
});

test('the opposite of a formula', () => {
  expect(['fire', '!fire', 'flaps == 2', ' fire '].map(opposite)).toEqual(['!fire', 'fire', '!(flaps == 2)', '!fire']);
});

describe('lanes', () => {
  const doc = draft({ lanes: [[s('a'), s('b'), s('c')], [s('d')]] });
  test('are split at a step', () => {
    expect(done(doc, splitLane(doc, `${LIST}/0/lanes/0/1`))).toEqual([
      { lanes: [[s('a')], [s('b'), s('c')], [s('d')]] },
    ]);
    expect(splitLane(doc, `${LIST}/0/lanes/0/0`)).toEqual([]);
    expect(splitLane(doc, `${LIST}/0`)).toEqual([]);
  });
  test('come one more', () => {
    expect(done(doc, addLane(doc, `${LIST}/0`))).toMatchObject([{ lanes: [{}, {}, [{ id: 'step' }]] }]);
    expect(addLane(doc, LIST)).toEqual([]);
  });
});

describe('opening a block up', () => {
  test('lanes come one after the other', () => {
    const doc = draft({ lanes: [[s('a'), s('b')], [s('c')]] }, s('d'));
    expect(done(doc, dissolve(doc, `${LIST}/0`))).toEqual(['a', 'b', 'c', 'd'].map((id) => s(id)));
  });
  test('its condition goes to each step', () => {
    const doc = draft({
      if: 'fire',
      when: { engine: 'a' },
      steps: [s('a'), { id: 'b', if: 'low', when: { operator: 'x' } }],
    });
    expect(done(doc, dissolve(doc, `${LIST}/0`))).toEqual([
      { id: 'a', when: { engine: 'a' }, if: 'fire' },
      { id: 'b', if: '(fire) && (low)', when: { engine: 'a', operator: 'x' } },
    ]);
  });
  test('is not done where two conditions cannot be one, nor where it is named elsewhere', () => {
    const twice = draft({ when: { engine: 'a' }, steps: [{ id: 'b', when: { engine: ['a', 'b'] } }] });
    expect(keptBy(twice, `${LIST}/0`)).toBe('condition');
    expect(dissolve(twice, `${LIST}/0`)).toEqual([]);
    const named = draft({ id: 'block', steps: [s('a')] }, { id: 'b', needs: ['block'] });
    expect(keptBy(named, `${LIST}/0`)).toBe('named');
    expect(dissolve(named, `${LIST}/0`)).toEqual([]);
  });
  test('a step is none', () => {
    const doc = draft(s('a'), { steps: 'odd' });
    expect(dissolve(doc, `${LIST}/0`)).toEqual([]);
    expect(dissolve(doc, `${LIST}/1`)).toEqual([]);
    expect(dissolve(doc, LIST)).toEqual([]);
  });
});

describe('a block of another procedure', () => {
  const doc = {
    procedures: [
      { id: 'p', title: 'First', steps: [{ steps: [s('a')] }] },
      { id: 'q', title: 'Second', steps: [{ id: 'drill', steps: [{ id: 'inner', lanes: [] }] }, { steps: [] }] },
      'odd',
    ],
  } as Json;
  test('has a name, and can be taken', () => {
    expect(blocksToUse(doc, P)).toEqual([
      { id: 'drill', owner: 'Second' },
      { id: 'inner', owner: 'Second' },
    ]);
    expect(done(doc, useBlock(doc, { list: LIST, index: 0 }, 'drill'))).toMatchObject([{ use: 'drill' }, {}]);
  });
  test('is given a name that no other thing has, once', () => {
    expect(done(doc, nameBlock(doc, `${LIST}/0`, 'The drill'))).toMatchObject([{ id: 'drill-2' }]);
    expect(nameBlock(doc, '/procedures/1/steps/0', 'Else')).toEqual([]);
    expect(nameBlock(doc, `${LIST}/0/steps/0`, 'Else')).toEqual([]);
  });
});

describe('a new condition', () => {
  const words = ['Engine failure after V1', 'Both engines run'] as const;
  test('is named after what is told when it is so, and stands last', () => {
    const doc: Json = { conditions: [{ id: 'engineFailureAfterV1', label: 'Other' }] };
    const { id, changes } = newCondition(doc, ...words);
    expect(id).toBe('engineFailureAfterV12');
    const next = apply(doc, changes);
    expect(valueAt(next, '/conditions/1')).toEqual({ id, label: words[0], yes: words[0], no: words[1] });
    expect(apply(next, undone(changes))).toEqual(doc);
  });
  test('begins the list; where something else stands there, it stays', () => {
    expect(valueAt(apply({}, newCondition({}, ...words).changes), '/conditions/0/id')).toBe('engineFailureAfterV1');
    expect(newCondition({ conditions: 'none' }, ...words).changes).toEqual([]);
  });
});
