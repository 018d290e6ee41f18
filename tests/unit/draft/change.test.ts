import { expect, test } from 'vitest';
import { apply, insert, keysOf, parted, put, renamed, undone, valueAt } from '../../../src/draft/change.ts';

const doc = { title: 'A', steps: [{ id: 'one' }, { id: 'two' }], options: { a: 'A', b: 'B', c: 'C' } };

test('pointers escape as RFC 6901, section 5 says', () => {
  // Section 5's own example document.
  const example = { foo: ['bar', 'baz'], '': 0, 'a/b': 1, 'c%d': 2, 'm~n': 8, ' ': 7 };
  expect(valueAt(example, '')).toBe(example);
  expect(valueAt(example, '/foo')).toEqual(['bar', 'baz']);
  expect(valueAt(example, '/foo/0')).toBe('bar');
  expect(valueAt(example, '/')).toBe(0);
  expect(valueAt(example, '/a~1b')).toBe(1);
  expect(valueAt(example, '/c%d')).toBe(2);
  expect(valueAt(example, '/m~0n')).toBe(8);
  expect(valueAt(example, '/ ')).toBe(7);
  expect(keysOf('/a~1b/~01')).toEqual(['a/b', '~1']);
  expect(() => keysOf('a')).toThrow(RangeError);
  expect(parted('/steps/1/id')).toEqual({ parent: '/steps/1', key: 'id' });
});

test('what is not there is undefined, and nothing inherited counts', () => {
  expect(valueAt(doc, '/steps/2')).toBeUndefined();
  expect(valueAt(doc, '/steps/01')).toBeUndefined();
  expect(valueAt(doc, '/title/length')).toBeUndefined();
  expect(valueAt(doc, '/constructor')).toBeUndefined();
});

test('members are set, removed and come back where they stood', () => {
  const gone = put(doc, '/title', undefined);
  expect(gone.place).toBe(0);
  const without = apply(doc, [gone]);
  expect(without).toEqual({ steps: doc.steps, options: doc.options });
  expect(Object.keys(apply(without, undone([gone])) as object)).toEqual(['title', 'steps', 'options']);
  expect(apply(doc, [put(doc, '/title', 'B')])).toEqual({ ...doc, title: 'B' });
  expect(apply(doc, [put(doc, '/steps/0/say', 'x')])).toEqual({
    ...doc,
    steps: [{ id: 'one', say: 'x' }, doc.steps[1]],
  });
});

test('elements are put in, moved and taken out', () => {
  const added = apply(doc, [insert('/steps', 1, { id: 'new' })]);
  expect(valueAt(added, '/steps')).toEqual([{ id: 'one' }, { id: 'new' }, { id: 'two' }]);
  expect(valueAt(apply(doc, [insert('/steps', 2, 'last')]), '/steps/2')).toBe('last');
  expect(valueAt(apply(added, [put(added, '/steps/0', undefined)]), '/steps')).toEqual([{ id: 'new' }, { id: 'two' }]);
});

test('a member is renamed where it stands', () => {
  const change = renamed(doc, '/options/b', 'z');
  expect(Object.entries(valueAt(apply(doc, [change]), '/options') as object)).toEqual([
    ['a', 'A'],
    ['z', 'B'],
    ['c', 'C'],
  ]);
});

test('nothing else is copied', () => {
  const next = apply(doc, [put(doc, '/steps/1/id', 'three')]) as typeof doc;
  expect(next.options).toBe(doc.options);
  expect(next.steps[0]).toBe(doc.steps[0]);
});

test('a change that does not fit is refused', () => {
  expect(() => apply(doc, [{ path: '/none/a', before: undefined, after: 1 }])).toThrow('nothing at /none/a');
  expect(() => apply(doc, [{ path: '/steps/3', before: undefined, after: 1 }])).toThrow(RangeError);
  expect(() => apply(doc, [{ path: '/steps/2', before: 1, after: 2 }])).toThrow(RangeError);
  expect(() => apply(doc, [{ path: '/title/a', before: undefined, after: 1 }])).toThrow(RangeError);
});
