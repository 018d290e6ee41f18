import fc from 'fast-check';
import { expect, test } from 'vitest';
import { checkDeck } from '../../src/deck/check.ts';
import { readDeck } from '../../src/deck/read.ts';
import { apply, type Change, undone, valueAt } from '../../src/draft/change.ts';
import { flownFrom, type Run, runsOf } from '../../src/draft/flown.ts';
import {
  addLane,
  dissolve,
  keptBy,
  makeBlock,
  makeBranch,
  makeLanes,
  makeTogether,
  nameBlock,
  splitLane,
} from '../../src/draft/lanes.ts';
import { moveLettingGo, removeLettingGo } from '../../src/draft/letting-go.ts';
import {
  kindOf,
  listPaths,
  moveNode,
  nodesUnder,
  pathOf,
  placeAcross,
  placeBeside,
  placeInside,
  placeOutside,
} from '../../src/draft/nodes.ts';
import { eitherOrder, holdOrder, togetherSteps } from '../../src/draft/order.ts';
import { orderQuestions } from '../../src/draft/questions.ts';
import type { Json } from '../../src/lib/canonical-json.ts';
import { isList, isMembers } from '../../src/lib/json.ts';
import { partialOrder } from '../../src/subjects/procedure/order.ts';
import type { PartialOrder } from '../../src/subjects/resolved.ts';

const P = '/procedures/0';
const CONDITIONS = [{ if: 'fire' }, { if: '!fire' }, { when: { engine: 'a' } }, { when: { engine: 'b' } }] as const;

/** Nodes without ids. */
const said = fc.record({ by: fc.constantFrom('PF', 'PM', 'captain') });
const sometimes = fc.oneof(
  { weight: 3, arbitrary: fc.constant({}) },
  { weight: 2, arbitrary: fc.constantFrom(...CONDITIONS) },
);
const { nodes } = fc.letrec<{ nodes: Json[]; node: Json }>((tie) => ({
  node: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    { weight: 5, arbitrary: fc.tuple(said, sometimes).map(([a, b]): Json => ({ ...a, ...b }) as Json) },
    { weight: 1, arbitrary: fc.tuple(sometimes, tie('nodes')).map(([a, steps]): Json => ({ ...a, steps }) as Json) },
    {
      weight: 2,
      arbitrary: fc
        .tuple(sometimes, fc.array(tie('nodes'), { minLength: 2, maxLength: 3 }))
        .map(([a, lanes]): Json => ({ ...a, lanes }) as Json),
    },
    { weight: 1, arbitrary: tie('nodes').map((steps): Json => ({ together: true, steps })) },
  ),
  nodes: fc.array(tie('node'), { minLength: 1, maxLength: 4 }),
}));

/** Steps get ids in the order of the text, and each third needs one that was before it. */
const named = (list: readonly Json[], prefix: string): Json[] => {
  let count = 0;
  const one = (node: Json): Json => {
    if (!isMembers(node)) return node;
    if (Array.isArray(node.steps)) return { ...node, steps: (node.steps as Json[]).map(one) } as Json;
    if (Array.isArray(node.lanes))
      return { ...node, lanes: (node.lanes as Json[][]).map((lane) => lane.map(one)) } as Json;
    const id = `${prefix}${count++}`;
    return { id, do: `Do ${id}`, ...node } as Json;
  };
  return list.map(one);
};

const draft = fc.tuple(nodes, nodes, fc.boolean()).map(([own, other, uses]): Json => {
  const steps = named(own, 's');
  return {
    format: 1,
    id: 'test/structure',
    version: '1.0.0',
    title: 'Structure',
    language: 'en',
    nature: 'fictional',
    sources: [{ id: 's', title: 'Manual', basis: 'invented' }],
    conditions: [{ id: 'fire', label: 'Fire', yes: 'Fire', no: 'No fire' }],
    variants: [{ id: 'engine', label: 'Engine', options: { a: 'A', b: 'B' } }],
    crew: [{ id: 'captain', label: 'Captain' }],
    procedures: [
      { id: 'p', title: 'P', done: 'memory', source: 's', steps: uses ? [{ use: 'shared' }, ...steps] : steps },
      { id: 'q', title: 'Q', done: 'memory', source: 's', steps: [{ id: 'shared', steps: named(other, 't') }] },
    ],
  } as Json;
});

const stepsOf = (doc: Json): { readonly path: string; readonly node: Json }[] =>
  [...nodesUnder(doc, P)].filter(({ node }) => kindOf(node) === 'step');
/** Steps as they are, whatever order they stand in. @param but members that the structure may change */
const contents = (doc: Json, but: readonly string[] = []): string[] =>
  stepsOf(doc)
    .map(({ node }) => Object.entries(node as object).filter(([key]) => !but.includes(key)))
    .map((entries) => JSON.stringify(entries))
    .sort();

const taken = (doc: Json, changes: readonly Change[]): Json => {
  const next = apply(doc, changes);
  expect(JSON.stringify(apply(next, undone(changes)))).toBe(JSON.stringify(doc));
  return next;
};

interface Deed {
  readonly kind: number;
  readonly at: number;
  readonly to: number;
  readonly index: number;
}
const deed: fc.Arbitrary<Deed> = fc.record({ kind: fc.nat(13), at: fc.nat(), to: fc.nat(), index: fc.nat(6) });

test('whatever is rearranged, every step stays as it is, and it can be taken back', () => {
  fc.assert(
    fc.property(draft, fc.array(deed, { maxLength: 12 }), (start, deeds) => {
      let doc = start;
      for (const { kind, at, to, index } of deeds) {
        const all = [...nodesUnder(doc, P)];
        const lists = listPaths(doc, P);
        const placed = all[at % Math.max(1, all.length)];
        const list = lists[to % Math.max(1, lists.length)];
        if (placed === undefined || list === undefined) break;
        const { path, node } = placed;
        const length = (valueAt(doc, list) as Json[]).length;
        const from = at % Math.max(1, length);
        const span = { list, from, to: Math.min(length - 1, from + (index % 3)) };
        const way = to % 2 === 0 ? 'up' : 'down';
        const moving = [
          { list, index },
          placeBeside(doc, path, way),
          placeOutside(path, way),
          placeInside(doc, path, way),
          placeAcross(doc, path, way),
        ][kind];
        const begun = new Set(contents(doc));
        let next = doc;
        if (moving !== undefined) {
          const changes = moving === null ? [] : moveNode(doc, path, moving);
          next = taken(doc, changes);
          // What was moved is the very same thing.
          expect(valueAt(next, pathOf(next, P, node) as string)).toBe(node);
          expect(contents(next)).toEqual(contents(doc));
        } else if (kind === 5) next = taken(doc, makeBlock(doc, span));
        else if (kind === 6) next = taken(doc, makeTogether(doc, span));
        else if (kind === 7) next = taken(doc, makeLanes(doc, span, to % 2 === 0 ? 'each' : 'crew'));
        else if (kind === 8) next = taken(doc, splitLane(doc, path));
        else if (kind === 9) next = taken(doc, makeBlock(doc, span, { if: 'fire' }));
        else if (kind === 10) {
          next = taken(doc, dissolve(doc, path));
          if (next !== doc) expect(keptBy(doc, path)).toBeNull();
          expect(contents(next, ['if', 'when'])).toEqual(contents(doc, ['if', 'when']));
        } else if (kind === 11) {
          // A new, empty step comes; none goes.
          next = taken(doc, makeBranch(doc, span, 'fire'));
          expect([...begun].filter((one) => !contents(next).includes(one))).toEqual([]);
        } else if (kind === 12) {
          next = taken(doc, addLane(doc, path));
          expect([...begun].filter((one) => !contents(next).includes(one))).toEqual([]);
        } else next = taken(doc, nameBlock(doc, path, 'A part'));
        if (kind > 4 && kind < 10) expect(contents(next)).toEqual(contents(doc));
        doc = next;
      }
    }),
    { numRuns: 400 },
  );
});

/** Relations of a run by ids, closed; without one pair, closed anew. */
const relations = ({ steps, order }: Run, but?: readonly [string, string]): string => {
  const ids = steps.map(({ step }) => step.id);
  const pairs = ids.flatMap((_, a) => ids.flatMap((_, b) => (order.before[a]?.[b] ? [[a, b] as const] : [])));
  // A cover: no other pair implies it, so leaving it out leaves an order.
  const left = pairs.filter(([a, b]) => but === undefined || ids[a] !== but[0] || ids[b] !== but[1]);
  const closed = partialOrder(ids.length, left) as PartialOrder;
  return ids
    .flatMap((x, a) => [x, ...ids.flatMap((y, b) => (closed.before[a]?.[b] ? [`${x}<${y}`] : []))])
    .sort()
    .join(' ');
};
const runs = (doc: Json, but?: readonly [string, string]): string[] => {
  const flown = flownFrom(doc, 0);
  if (flown === null) throw new Error('not flown');
  return [...new Set(runsOf(flown).map((run) => relations(run, but)))].sort();
};
const questions = (doc: Json) => {
  const flown = flownFrom(doc, 0);
  return flown === null ? [] : orderQuestions(doc, P, flown);
};

test('either order takes away that one relation and no other, in every variant and situation; yes takes none', () => {
  let asked = 0;
  let freed = 0;
  let joined = 0;
  fc.assert(
    fc.property(draft, fc.nat(), (doc, which) => {
      const all = questions(doc);
      const one = all[which % Math.max(1, all.length)];
      if (one === undefined) return;
      asked++;
      const { first, second } = one;
      const held = taken(doc, holdOrder(doc, P, one));
      expect(runs(held)).toEqual(runs(doc));
      expect(questions(held).some((q) => q.second === second)).toBe(false);
      const changes = eitherOrder(doc, P, one);
      if (changes.length > 0) {
        freed++;
        const next = taken(doc, changes);
        expect(runs(next)).toEqual(runs(doc, [first, second]));
        expect(contents(next, ['needs'])).toEqual(contents(doc, ['needs']));
      }
      const together = togetherSteps(doc, P, one);
      if (together.length > 0) {
        joined++;
        const next = taken(doc, together);
        expect(contents(next, ['needs'])).toEqual(contents(doc, ['needs']));
        expect(questions(next).some((q) => q.first === first && q.second === second)).toBe(false);
      }
    }),
    { numRuns: 300 },
  );
  // Nearly everything that is asked can be answered with either.
  expect(asked).toBeGreaterThan(100);
  expect(freed / asked).toBeGreaterThan(0.95);
  expect(joined / asked).toBeGreaterThan(0.3);
});

/** How many circles the checker finds; null where it cannot look: a block was left empty. */
const circles = (doc: Json): number | null => {
  const { deck } = readDeck(JSON.stringify(doc));
  if (deck === undefined) return null;
  return checkDeck(deck, { today: '2026-11-26' }).filter(({ code }) => code === 'order-cycle').length;
};

test('whatever order was confirmed, a step that is moved makes no circle, and it can be taken back', () => {
  let moves = 0;
  let lettings = 0;
  fc.assert(
    fc.property(
      draft,
      fc.array(fc.boolean(), { minLength: 8, maxLength: 8 }),
      fc.nat(),
      fc.nat(),
      fc.nat(6),
      (start, yes, at, to, index) => {
        let doc = start;
        for (const [i, one] of questions(start).entries())
          if (yes[i % yes.length]) doc = taken(doc, holdOrder(doc, P, one));
        expect(circles(doc)).toBe(0);
        const all = [...nodesUnder(doc, P)];
        const lists = listPaths(doc, P);
        const { path } = all[at % all.length] as { path: string };
        const list = lists[to % lists.length] as string;
        const moved = moveLettingGo(doc, P, path, { list, index });
        if (moved.changes.length === 0) return;
        const found = circles(apply(doc, moved.changes));
        if (found === null) return;
        moves++;
        lettings += moved.letGo > 0 ? 1 : 0;
        const next = taken(doc, moved.changes);
        expect(found).toBe(0);
        expect(contents(next, ['needs'])).toEqual(contents(doc, ['needs']));
      },
    ),
    { numRuns: 300 },
  );
  expect(moves).toBeGreaterThan(100);
  expect(lettings).toBeGreaterThan(20);
});

/** Half-written: members of any kind in place of what belongs there. */
const anything = fc.constantFrom<Json>(null, 3, '', 's0', [], ['s0', 4], [['s1']], {}, { step: 's0' }, { step: 7 });
const mangled = fc
  .tuple(
    draft,
    fc.array(fc.tuple(fc.nat(), fc.constantFrom('needs', 'answers', 'after', 'id', 'steps', 'lanes', 'do'), anything), {
      maxLength: 8,
    }),
  )
  .map(([doc, odd]): Json => {
    const all = [...nodesUnder(doc, P)].map(({ node }) => node);
    const other = new Map(odd.map(([at, key, value]) => [all[at % all.length], [key, value] as const]));
    const one = (node: Json): Json => {
      const [key, value] = other.get(node) ?? [];
      if (isList(node)) return node.map(one);
      if (!isMembers(node)) return node;
      const entries = Object.entries(node).map(([name, inner]) => [name, one(inner as Json)]);
      return Object.fromEntries(key === undefined ? entries : [...entries, [key, value]]) as Json;
    };
    return one(doc);
  });

test('moving and removing throw on no half-written draft, and can be taken back', () => {
  fc.assert(
    fc.property(mangled, fc.nat(), fc.nat(), fc.nat(6), (doc, at, to, index) => {
      const all = [...nodesUnder(doc, P)];
      const lists = listPaths(doc, P);
      const path = all[at % Math.max(1, all.length)]?.path ?? `${P}/steps/0`;
      const list = lists[to % Math.max(1, lists.length)] ?? `${P}/steps`;
      taken(doc, moveLettingGo(doc, P, path, { list, index }).changes);
      taken(doc, removeLettingGo(doc, path).changes);
    }),
    { numRuns: 500 },
  );
});
