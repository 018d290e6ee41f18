import { describe, expect, test } from 'vitest';
import { apply, type Change, undone, valueAt } from '../../../src/draft/change.ts';
import { changesTo } from '../../../src/draft/difference.ts';
import {
  blankStep,
  insertNodes,
  kindOf,
  listPaths,
  moveNode,
  nodesUnder,
  type Place,
  pathOf,
  placeAcross,
  placeBeside,
  placeInside,
  placeOutside,
  removeNode,
} from '../../../src/draft/nodes.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';

const P = '/procedures/0';
const draft = (...steps: Json[]): Json => ({ procedures: [{ id: 'p', steps }] });
const s = (id: string, by?: string): Json => ({ id, ...(by !== undefined && { by }) });
const done = (doc: Json, changes: readonly Change[]): Json => {
  const next = apply(doc, changes);
  expect(JSON.stringify(apply(next, undone(changes)))).toBe(JSON.stringify(doc));
  return valueAt(next, `${P}/steps`) as Json;
};
const at = (path: string): string => `${P}/steps${path}`;
const moved = (doc: Json, path: string, to: Place | null): Json => {
  if (to === null) throw new Error('no place');
  return done(doc, moveNode(doc, path, to));
};

describe('what a node is', () => {
  test('is told by its members, however little is written', () => {
    const kinds = [{}, { id: 'a' }, { steps: [] }, { lanes: 3 }, { use: '' }, null, 'x', [1]].map((node) =>
      kindOf(node),
    );
    expect(kinds).toEqual(['step', 'step', 'block', 'lanes', 'use', 'odd', 'odd', 'odd']);
  });
  test('all of them are found with their pointers', () => {
    const doc = draft(s('a'), { lanes: [[s('b')], 'odd', [s('c')]] }, { if: 'x', steps: [null] });
    expect([...nodesUnder(doc, P)].map(({ path }) => path.slice(P.length))).toEqual([
      '/steps/0',
      '/steps/1',
      '/steps/1/lanes/0/0',
      '/steps/1/lanes/2/0',
      '/steps/2',
      '/steps/2/steps/0',
    ]);
    expect(listPaths(doc, P).map((path) => path.slice(P.length))).toEqual([
      '/steps',
      '/steps/1/lanes/0',
      '/steps/1/lanes/2',
      '/steps/2/steps',
    ]);
  });
});

describe('adding', () => {
  test('an id is made of the words', () => {
    expect(blankStep(draft(s('gear-up')), { by: 'PF', do: 'Gear up' })).toEqual({
      id: 'gear-up-2',
      by: 'PF',
      do: 'Gear up',
    });
    expect(blankStep(draft())).toEqual({ id: 'step' });
  });
  test('puts them there in order; a list that is missing is begun', () => {
    const doc = draft(s('a'), s('d'));
    expect(done(doc, insertNodes(doc, { list: at(''), index: 1 }, [s('b'), s('c')]))).toEqual(
      ['a', 'b', 'c', 'd'].map((id) => s(id)),
    );
    const bare: Json = { procedures: [{ id: 'p' }] };
    expect(done(bare, insertNodes(bare, { list: at(''), index: 0 }, [s('a')]))).toEqual([s('a')]);
    expect(insertNodes(bare, { list: '/procedures/4/steps', index: 0 }, [s('a')])).toEqual([]);
  });
});

describe('taking out', () => {
  test('of two lanes one is left: it is a list again', () => {
    const doc = draft(s('a'), { lanes: [[s('b')], [s('c'), s('d')]] }, s('e'));
    expect(done(doc, removeNode(doc, at('/1/lanes/0/0')))).toEqual(['a', 'c', 'd', 'e'].map((id) => s(id)));
  });
  test('lanes with a condition keep it', () => {
    const doc = draft({ if: 'x', lanes: [[s('b')], [s('c')]] });
    expect(done(doc, removeNode(doc, at('/0/lanes/1/0')))).toEqual([{ if: 'x', steps: [s('b')] }]);
  });
  test('a block that says nothing goes with its last step, one with a condition stays', () => {
    const doc = draft({ steps: [{ steps: [s('a')] }] }, { if: 'x', steps: [s('b')] });
    expect(done(doc, removeNode(doc, at('/0/steps/0/steps/0')))).toEqual([{ if: 'x', steps: [s('b')] }]);
    expect(done(doc, removeNode(doc, at('/1/steps/0')))).toEqual([
      { steps: [{ steps: [s('a')] }] },
      { if: 'x', steps: [] },
    ]);
  });
  test('where nothing is, nothing is done', () => {
    const doc = draft(s('a'));
    for (const path of [at('/7'), at(''), '/procedures/0', '', '/title', at('/0/do')])
      expect(removeNode(doc, path)).toEqual([]);
  });
});

describe('moving', () => {
  const doc = draft(s('a'), s('b', 'PM'), { lanes: [[s('c', 'PF'), s('d')], [s('e', 'PM')]] }, s('f'));
  test('up and down in a list', () => {
    expect(moved(doc, at('/1'), placeBeside(doc, at('/1'), 'up'))).toMatchObject([{ id: 'b' }, { id: 'a' }, {}, {}]);
    expect(moved(doc, at('/0'), placeBeside(doc, at('/0'), 'down'))).toMatchObject([{ id: 'b' }, { id: 'a' }, {}, {}]);
    expect(placeBeside(doc, at('/0'), 'up')).toBeNull();
    expect(placeBeside(doc, at('/3'), 'down')).toBeNull();
  });
  test('beyond the end of a lane it leaves the lanes', () => {
    expect(moved(doc, at('/2/lanes/0/0'), placeBeside(doc, at('/2/lanes/0/0'), 'up'))).toEqual([
      s('a'),
      s('b', 'PM'),
      s('c', 'PF'),
      { lanes: [[s('d')], [s('e', 'PM')]] },
      s('f'),
    ]);
    expect(moved(doc, at('/2/lanes/1/0'), placeOutside(at('/2/lanes/1/0'), 'down'))).toEqual([
      s('a'),
      s('b', 'PM'),
      s('c', 'PF'),
      s('d'),
      s('e', 'PM'),
      s('f'),
    ]);
  });
  test('into lanes it goes to its own crew member', () => {
    expect(moved(doc, at('/1'), placeInside(doc, at('/1'), 'down'))).toEqual([
      s('a'),
      {
        lanes: [
          [s('c', 'PF'), s('d')],
          [s('b', 'PM'), s('e', 'PM')],
        ],
      },
      s('f'),
    ]);
    expect(placeInside(doc, at('/0'), 'down')).toBeNull();
  });
  test('across to the next lane', () => {
    expect(moved(doc, at('/2/lanes/0/1'), placeAcross(doc, at('/2/lanes/0/1'), 'down'))).toMatchObject([
      {},
      {},
      { lanes: [[{ id: 'c' }], [{ id: 'e' }, { id: 'd' }]] },
      {},
    ]);
    expect(placeAcross(doc, at('/2/lanes/1/0'), 'down')).toBeNull();
    expect(placeAcross(doc, at('/0'), 'up')).toBeNull();
  });
  test('what was moved can be found again, and nothing goes into itself', () => {
    const block = valueAt(doc, at('/2')) as Json;
    const next = apply(doc, moveNode(doc, at('/2'), { list: at(''), index: 0 }));
    expect(pathOf(next, P, block)).toBe(at('/0'));
    expect(moveNode(doc, at('/2'), { list: at('/2/lanes/0'), index: 0 })).toEqual([]);
    expect(moveNode(doc, at('/2'), { list: at(''), index: 2 })).toEqual([]);
  });
});

test('the changes between two drafts are few and lead from the one to the other', () => {
  const doc = draft(s('a'), s('b'), s('c'));
  const [b] = [valueAt(doc, at('/1'))] as [Json];
  const to = draft(
    valueAt(doc, at('/0')) as Json,
    { ...(b as object), needs: ['a'] } as Json,
    valueAt(doc, at('/2')) as Json,
  );
  expect(changesTo(doc, to)).toEqual([{ path: at('/1/needs'), before: undefined, after: ['a'], place: 1 }]);
  expect(changesTo(doc, doc)).toEqual([]);
  // The order of members is an author's too.
  const turned: Json = { procedures: [{ steps: [], id: 'p' }] };
  expect(JSON.stringify(apply(doc, changesTo(doc, turned)))).toBe(JSON.stringify(turned));
});

test('a block taken out of one that held nothing else is the very block it was', () => {
  const inner: Json = { steps: [s('a')] };
  const doc = draft({ steps: [inner] });
  const next = apply(doc, moveNode(doc, at('/0/steps/0'), { list: at(''), index: 0 }));
  expect(pathOf(next, P, inner)).toBe(at('/0'));
});
