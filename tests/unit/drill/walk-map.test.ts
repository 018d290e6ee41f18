import { describe, expect, test } from 'vitest';
import { isFork, type MapRow, mapWords, type ProcedureMap, procedureMap } from '../../../src/drill/walk-map.ts';
import type { Deck, Node } from '../../../src/model/deck.ts';
import { flow, resolved } from '../forms/small-decks.ts';
import { resolvedDeck } from './practice.ts';

const step = (id: string, more: object = {}): Node => ({ id, do: `Do ${id}`, ...more }) as Node;
const mapOf = (steps: readonly Node[], more: Partial<Deck> = {}, situation = 0): ProcedureMap => {
  const deck = resolved({ procedures: [flow(steps)], ...more });
  const [view] = deck.views;
  const found = view?.procedures[0];
  const one = found?.situations[situation];
  const map = view && found && one ? procedureMap(deck, view, found, one) : null;
  if (map === null) throw new Error('no map');
  return map;
};
/** "a (b c | d) e": lanes in brackets. */
const shape = (rows: readonly MapRow[]): string =>
  rows.map((row) => (isFork(row) ? `(${row.lanes.map(shape).join(row.together ? ' & ' : ' | ')})` : row.id)).join(' ');

test('a line, lanes beside it, what is done at once', () => {
  const { rows } = mapOf([
    step('a'),
    { lanes: [[step('b'), step('c')], [step('d')]] },
    { together: true, steps: [step('e'), step('f')] },
  ]);
  expect(shape(rows)).toBe('a (b c | d) (e & f)');
});

test('a list in a list and a lane by itself say nothing of their own', () => {
  expect(shape(mapOf([{ steps: [step('a'), { lanes: [[step('b')]] }] }, step('c')]).rows)).toBe('a b c');
});

describe('the crew', () => {
  const by = (id: string, seat: string) => step(id, { by: seat });
  test('PF stands on the left and PM on the right, all others across', () => {
    const map = mapOf([by('a', 'PM'), by('b', 'PF'), by('c', 'both'), step('d')]);
    expect(map.heads).toEqual(['PF', 'PM']);
    expect(map.rows.map((row) => (isFork(row) ? null : [row.by, row.side]))).toEqual([
      ['PM', 'right'],
      ['PF', 'left'],
      ['Both', 'across'],
      [undefined, 'across'],
    ]);
  });

  test('a lane of one pilot alone stands on that side', () => {
    const { rows } = mapOf([{ lanes: [[by('a', 'PM')], [by('b', 'both')], [by('c', 'PF')]] }]);
    expect(shape(rows)).toBe('(c | b | a)');
  });

  test('without PF and PM the two that do most stand beside it, in the order of the deck', () => {
    const crew = ['load', 'nurse', 'hoist'].map((id) => ({ id, label: `The ${id}` }));
    const acts = [by('a', 'hoist'), by('b', 'hoist'), by('c', 'nurse'), by('d', 'load'), by('e', 'load')];
    const map = mapOf(acts, { crew });
    expect(map.heads).toEqual(['The load', 'The hoist']);
    expect(map.rows.map((row) => (isFork(row) ? null : row.side))).toEqual([
      'right',
      'right',
      'across',
      'left',
      'left',
    ]);
  });

  test('one alone, or nobody, needs no lanes', () => {
    expect(mapOf([step('a'), step('b')]).heads).toBe(null);
    expect(mapOf([by('a', 'captain'), by('b', 'captain')]).heads).toBe(null);
  });
});

test('each situation has a line of its own; a block of another procedure is drawn where it is used', () => {
  const conditions = [{ id: 'icy', label: 'Ice', yes: 'Ice', no: 'No ice' }];
  const steps = [step('a'), { if: 'icy', steps: [step('b')] }, { if: '!icy', use: 'shared' }, step('c')] as Node[];
  const other = flow([{ id: 'shared', steps: [step('x'), step('y')] }, step('z')], { id: 'other', title: 'Other' });
  const content = { conditions, procedures: [flow(steps), other] };
  expect([0, 1].map((i) => shape(mapOf(steps, content, i).rows)).sort()).toEqual(['a b c', 'a x y c']);
});

test('in words: order, who, cue, what is waited for, what is critical', () => {
  const map = mapOf([
    step('a', { by: 'PF', cue: { text: 'At the line' }, critical: true }),
    { lanes: [[step('b', { by: 'PM' }), step('c')], [step('d', { needs: ['b'] })]] },
    { together: true, steps: [step('e'), step('f')] },
  ]);
  expect(mapWords(map)).toEqual([
    '1. PF, cue the line: Do a (critical)',
    '2 lines side by side, each in its own order:',
    'Line 1: 2. PM: Do b',
    'Line 1: 3. Do c',
    'Line 2: 4. Do d, after Do b',
    'All lines done.',
    'At once, in any order:',
    '5. Do e',
    '6. Do f',
  ]);
});

test('one step, and none', () => {
  expect(shape(mapOf([step('a')]).rows)).toBe('a');
  const deck = resolved({ procedures: [flow([step('a'), step('b')])] });
  const [view] = deck.views;
  const found = view?.procedures[0];
  if (view === undefined || found === undefined) throw new Error('no procedure');
  const empty = { id: '', steps: [], order: { n: 0, before: [], covers: [], pairs: 0 } };
  expect(procedureMap(deck, view, found, empty)).toBe(null);
});

/** What the map says must come before what: rows after each other, lanes free, and what is waited for; closed. */
const orderSaid = (rows: readonly MapRow[]): Map<string, Set<string>> => {
  const after = new Map<string, Set<string>>();
  const put = (a: string, b: string) => after.set(a, (after.get(a) ?? new Set()).add(b));
  const read = (list: readonly MapRow[]): string[] => {
    const parts = list.map((row): string[] => {
      if (isFork(row)) return row.lanes.flatMap(read);
      for (const first of row.after) put(first.id, row.id);
      return [row.id];
    });
    parts.forEach((part, i) => {
      for (const a of part) for (const b of parts.slice(i + 1).flat()) put(a, b);
    });
    return parts.flat();
  };
  const ids = read(rows);
  for (const k of ids) for (const a of ids) if (after.get(a)?.has(k)) for (const b of after.get(k) ?? []) put(a, b);
  return after;
};

test.each([
  ['merrow-takeoff', 20],
  ['merrow-abnormal', 10],
  ['public-rules', 1],
])('every map of %s shows each step once, and the order that is marked, no more and no less', (name, least) => {
  const axes = resolvedDeck(name).deck.variants ?? [];
  const all = resolvedDeck(name, Object.fromEntries(axes.map(({ id, options }) => [id, Object.keys(options)])));
  let maps = 0;
  for (const view of all.views)
    for (const found of view.procedures)
      for (const situation of found.situations) {
        const rows = procedureMap(all, view, found, situation)?.rows ?? [];
        const { steps, order } = situation;
        const ids = steps.map((one) => one.step.id);
        expect(
          shape(rows)
            .match(/[\w-]+/g)
            ?.sort(),
        ).toEqual([...ids].sort());
        const said = orderSaid(rows);
        const pairs = ids.flatMap((a, i) => ids.flatMap((b, k) => (order.before[i]?.[k] ? [`${a} < ${b}`] : [])));
        const told = ids.flatMap((a) => ids.flatMap((b) => (said.get(a)?.has(b) ? [`${a} < ${b}`] : [])));
        expect(told.sort(), found.procedure.id).toEqual(pairs.sort());
        maps += 1;
      }
  expect(maps).toBeGreaterThanOrEqual(least);
});
