import { describe, expect, test } from 'vitest';
import { apply, undone, valueAt } from '../../../src/draft/change.ts';
import { makeLanes, makeTogether } from '../../../src/draft/lanes.ts';
import { lettingGo, moveLettingGo, type Rearranged, removeLettingGo } from '../../../src/draft/letting-go.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';

const P = '/procedures/0';
const at = (place: string): string => `${P}/steps/${place}`;
const step = (id: string, more: object = {}): Json => ({ id, do: `Do ${id}`, ...more }) as Json;
const deck = (steps: readonly Json[], others: readonly Json[] = []): Json => ({
  procedures: [{ id: 'p', steps }, ...others.map((one, i): Json => ({ id: `q${i}`, steps: [one] }))],
});
const done = (doc: Json, { changes }: Rearranged): Json => {
  const next = apply(doc, changes);
  expect(JSON.stringify(apply(next, undone(changes)))).toBe(JSON.stringify(doc));
  return next;
};
const steps = (doc: Json): Json => valueAt(doc, `${P}/steps`) as Json;
const move = (doc: Json, from: string, index: number, list = `${P}/steps`) =>
  moveLettingGo(doc, P, at(from), { list, index });

describe('a step is moved', () => {
  const held = () => deck([step('a'), step('b', { needs: ['a'] }), step('c', { needs: ['b'] })]);

  test('behind the one that needed it: that lets go, the rest stays', () => {
    const moved = move(held(), '0', 2);
    expect(moved).toMatchObject({ letGo: 1, path: at('1') });
    expect(steps(done(held(), moved))).toEqual([step('b'), step('a'), step('c', { needs: ['b'] })]);
  });

  test('before the one that it needs: it lets go itself, and is found where it stands', () => {
    const moved = move(held(), '2', 0);
    expect(moved).toMatchObject({ letGo: 1, path: at('0') });
    expect(steps(done(held(), moved))).toEqual([step('c'), step('a'), step('b', { needs: ['a'] })]);
  });

  test('where the order stays, nothing is let go', () => {
    const doc = deck([step('a'), step('b', { needs: ['a'] }), step('c')]);
    expect(move(doc, '2', 0)).toMatchObject({ letGo: 0, path: at('0') });
    expect(move(doc, '1', 3)).toMatchObject({ letGo: 0, path: at('2') });
  });

  test('what an answer or a wait asks for as well stays, for the checker to tell of', () => {
    const doc = deck([
      step('a'),
      step('b', { needs: ['a'], answers: 'a' }),
      step('c', { needs: ['a'], after: { step: 'a' } }),
    ]);
    expect(move(doc, '0', 3).letGo).toBe(0);
  });

  test('what was needed across lanes was never the order of the text: it stays', () => {
    const doc = deck([{ lanes: [[step('a'), step('x')], [step('b', { needs: ['a'] })]] }]);
    expect(move(doc, '0/lanes/1/0', 0).letGo).toBe(0);
  });

  test('a named block that was needed, and a step of a block that is taken over', () => {
    const block = deck([{ id: 'part', steps: [step('x')] }, step('b', { needs: ['part', 'x'] })]);
    const moved = move(block, '1', 0);
    expect(steps(done(block, moved))).toEqual([step('b'), { id: 'part', steps: [step('x')] }]);
    const used = deck([{ use: 'drill' }, step('b', { needs: ['y'] })], [{ id: 'drill', steps: [step('y')] }]);
    expect(steps(done(used, move(used, '1', 0)))).toEqual([step('b'), { use: 'drill' }]);
  });

  test('of a list of several needs only the one that no longer fits goes', () => {
    const doc = deck([step('a'), step('b'), step('c', { needs: ['a', 'b'] })]);
    expect(steps(done(doc, move(doc, '2', 1)))).toEqual([step('a'), step('c', { needs: ['a'] }), step('b')]);
  });

  test('where nothing can be moved there are no changes', () => {
    expect(move(held(), '0', 0)).toEqual({ changes: [], letGo: 0, path: null });
    expect(move(held(), '7', 0)).toEqual({ changes: [], letGo: 0, path: null });
  });
});

test('any order, and together, let go of what was confirmed between those steps alone', () => {
  const doc = deck([step('a'), step('b', { needs: ['a'] }), step('c', { needs: ['b'] })]);
  const span = { list: `${P}/steps`, from: 0, to: 1 };
  for (const made of [makeLanes(doc, span, 'each'), makeTogether(doc, span)]) {
    const free = lettingGo(doc, P, made, 'free');
    expect(free.letGo).toBe(1);
    const next = done(doc, free);
    expect(JSON.stringify(next)).not.toContain('"needs":["a"]');
    expect(valueAt(next, at('1/needs'))).toEqual(['b']);
  }
  expect(lettingGo(doc, P, makeLanes(doc, span, 'each')).letGo).toBe(0);
});

describe('a step is removed', () => {
  test('what needed, answered or waited for it does so no longer; names that were dead before stay', () => {
    const doc = deck(
      [
        step('a'),
        step('b', { needs: ['a', 'nowhere'] }),
        step('c', { answers: 'a', ifNoAnswer: 'Call again' }),
        step('d', { needs: ['a'], after: { step: 'a', atLeast: { value: 3, unit: 's' } }, why: 'Because' }),
      ],
      [step('y', { needs: ['a'] })],
    );
    const removed = removeLettingGo(doc, at('0'));
    expect(removed.letGo).toBe(4);
    const next = done(doc, removed);
    expect(steps(next)).toEqual([
      step('b', { needs: ['nowhere'] }),
      step('c', { ifNoAnswer: 'Call again' }),
      step('d', { why: 'Because' }),
    ]);
    expect(valueAt(next, '/procedures/1/steps/0')).toEqual(step('y'));
  });

  test('with a block all that stands in it goes', () => {
    const doc = deck([{ id: 'part', steps: [step('a'), step('b')] }, step('c', { needs: ['part'], answers: 'b' })]);
    expect(steps(done(doc, removeLettingGo(doc, at('0'))))).toEqual([step('c')]);
  });

  test('one of two of the same name: the other is still there', () => {
    const doc = deck([step('a'), step('a'), step('b', { needs: ['a'] })]);
    expect(removeLettingGo(doc, at('0')).letGo).toBe(0);
  });
});
