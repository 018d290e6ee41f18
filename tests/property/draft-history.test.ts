import fc from 'fast-check';
import { expect, test } from 'vitest';
import { apply, type Change, insert, put, valueAt } from '../../src/draft/change.ts';
import { doStep, NO_HISTORY, redo, undo } from '../../src/draft/history.ts';
import type { Json } from '../../src/lib/canonical-json.ts';

/** Every pointer of a draft. */
const pointers = (value: Json | undefined, path = ''): string[] => {
  if (typeof value !== 'object' || value === null) return [path];
  return [
    path,
    ...Object.entries(value).flatMap(([key, one]) =>
      pointers(one, `${path}/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`),
    ),
  ];
};

const START: Json = {
  title: 'Deck',
  sources: [{ id: 's', title: 'Manual' }],
  procedures: [{ id: 'p', steps: [{ id: 'a', do: 'A' }, { lanes: [[{ id: 'b' }], [{ id: 'c' }]] }] }],
  limits: [{ id: 'l', value: 3, cases: [] }],
};

type Action =
  | { readonly do: 'undo' | 'redo' }
  | {
      readonly do: 'put' | 'drop' | 'insert' | 'move';
      readonly at: number;
      readonly to: number;
      readonly value: Json;
      readonly how: 'typing' | 'along' | null;
    };
const value = fc.oneof(
  fc.string(),
  fc.double({ noNaN: true }),
  fc.constant(null),
  fc.constant<Json>({ id: 'n', steps: [] }),
  fc.constant<Json>([1, 2]),
);
const action: fc.Arbitrary<Action> = fc.oneof(
  { weight: 1, arbitrary: fc.constantFrom<Action>({ do: 'undo' }, { do: 'redo' }) },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constantFrom('put' as const, 'drop' as const, 'insert' as const, 'move' as const),
      at: fc.nat(),
      to: fc.nat(),
      value,
      how: fc.constantFrom('typing' as const, 'along' as const, null),
    }),
  },
);

const changesOf = (doc: Json, one: Extract<Action, { at: number }>): Change[] => {
  const all = pointers(doc);
  const lists = all.filter((path) => Array.isArray(valueAt(doc, path)));
  const path = all[one.at % all.length] as string;
  const list = lists[one.at % lists.length] as string | undefined;
  const length = list === undefined ? 0 : (valueAt(doc, list) as readonly Json[]).length;
  switch (one.do) {
    case 'put':
      // A member that was not there, one time in three.
      return typeof valueAt(doc, path) === 'object' &&
        !Array.isArray(valueAt(doc, path)) &&
        valueAt(doc, path) !== null &&
        one.to % 3 === 0
        ? [put(doc, `${path}/m${one.to % 5}`, one.value)]
        : path === ''
          ? []
          : [put(doc, path, one.value)];
    case 'drop':
      return path === '' ? [] : [put(doc, path, undefined)];
    case 'insert':
      return list === undefined ? [] : [insert(list, one.to % (length + 1), one.value)];
    case 'move': {
      if (list === undefined || length === 0) return [];
      const from = put(doc, `${list}/${one.at % length}`, undefined);
      return [from, insert(list, one.to % length, from.before as Json)];
    }
  }
};

/** Order of members counts: an author sees their choices in the order in which they were written. */
const written = (doc: Json): string => JSON.stringify(doc);

test('whatever was done is taken back to the first draft, and done again to the last', () => {
  fc.assert(
    fc.property(fc.array(action, { maxLength: 60 }), (actions) => {
      let now: { value: Json; history: typeof NO_HISTORY } = { value: START, history: NO_HISTORY };
      for (const one of actions) {
        if (!('at' in one)) now = (one.do === 'undo' ? undo(now) : redo(now)) ?? now;
        else {
          const changes = changesOf(now.value, one);
          if (changes.length === 0) continue;
          const plain = apply(now.value, changes);
          now = doStep(now, {
            label: one.do,
            changes,
            ...(one.how === 'typing' && { typing: one.at % 9000 }),
            ...(one.how === 'along' && { along: true }),
          });
          expect(written(now.value)).toBe(written(plain));
        }
      }
      const last = written(now.value);
      const steps = now.history.past.length;
      for (let next = undo(now); next !== null; next = undo(now)) now = next;
      expect(written(now.value)).toBe(written(START));
      // Those that had been taken back already come after the last.
      for (let i = 0; i < steps; i++) now = redo(now) as typeof now;
      expect(written(now.value)).toBe(last);
    }),
    { numRuns: 1000 },
  );
});
