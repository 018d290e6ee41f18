import { describe, expect, test } from 'vitest';
import { MOST_VIEWS, picksOf } from '../../../src/deck/resolve.ts';
import { draw, offers } from '../../../src/forms/registry.ts';
import type { Deck, Limit, VariantAxis } from '../../../src/model/deck.ts';
import type { Resolved, RunStep } from '../../../src/subjects/resolved.ts';
import { holds } from '../../../src/subjects/when.ts';
import { drawnLimit, drawnRun, offerFor, resolved } from '../forms/small-decks.ts';

/** Every number here is invented. */
const engine: VariantAxis = { id: 'engine', label: 'Engine', options: { a: 'Engine A', b: 'Engine B' } };
const operator: VariantAxis = { id: 'operator', label: 'Operator', options: { x: 'Operator X', y: 'Operator Y' } };
const axes = [engine, operator];
const speed = (cases: object[]): Limit =>
  ({ id: 'speed', ask: 'Speed?', unit: 'kt', sense: 'at most', cases }) as unknown as Limit;
const values = (content: Partial<Deck>, flown: Record<string, string[]>) =>
  resolved({ variants: axes, ...content }, flown).views.map((v) => [
    v.id,
    v.limits[0]?.cases.map((c) => (c.value as number[])[0]),
  ]);
/** What is said with the question about each limit. */
const scenes = (all: Resolved): (readonly string[])[] =>
  offers(all, null, 1)
    .filter(({ form }) => form === 'limit')
    .map((offer) => drawnLimit(all, offer).scene);

describe('holds, three-valued', () => {
  const told = { engine: 'a', operator: null };
  test.each<[object, boolean | null]>([
    [{}, true],
    [{ engine: 'a' }, true],
    [{ engine: 'b' }, false],
    [{ engine: ['a', 'b'] }, true],
    [{ operator: 'x' }, null],
    [{ operator: ['x', 'y'] }, true],
    [{ engine: 'b', operator: 'x' }, false],
    [{ engine: 'a', operator: 'x' }, null],
    [{ not: { engine: 'a' } }, false],
    [{ not: { operator: 'x' } }, null],
    [{ not: { engine: 'b', operator: 'x' } }, true],
    [{ unknown: 'z' }, null],
  ])('%j is %s', (when, truth) => {
    expect(holds(when as never, told, axes)).toBe(truth);
  });
});

describe('views', () => {
  test('the product of what is flown; not told is one view of what is common', () => {
    expect(picksOf({ variants: axes } as unknown as Deck, { engine: ['b', 'a'], operator: ['x'] })).toEqual([
      { engine: 'a', operator: 'x' },
      { engine: 'b', operator: 'x' },
    ]);
    expect(picksOf({ variants: axes } as unknown as Deck, { engine: [], operator: ['gone'] })).toEqual([
      { engine: null, operator: null },
    ]);
  });
  test('sixteen at most', () => {
    const many = [...Array(6).keys()].map((i) => ({ ...engine, id: `e${i}` }));
    const flown = Object.fromEntries(many.map((a) => [a.id, ['a', 'b']]));
    expect(picksOf({ variants: many } as unknown as Deck, flown)).toHaveLength(MOST_VIEWS);
  });
  test('their names for people', () => {
    const all = resolved({ variants: axes }, { engine: ['b'], operator: ['x', 'y'] });
    expect(all.views.map((v) => [v.id, v.label])).toEqual([
      ['engine=b,operator=x', 'Engine B, Operator X'],
      ['engine=b,operator=y', 'Engine B, Operator Y'],
    ]);
  });
});

describe('a limit in variants', () => {
  const limits = [
    speed([
      { id: 'standard', value: 200 },
      { id: 'big', when: { engine: 'b' }, value: 180 },
    ]),
  ];
  test('the case confined to the variant goes before the default', () => {
    expect(values({ limits }, { engine: ['a', 'b'] })).toEqual([
      ['engine=a', [200]],
      ['engine=b', [180]],
    ]);
  });
  test('not told: what differs is left out', () => {
    expect(values({ limits }, {})).toEqual([['', []]]);
  });
  test('different answers are two items, and the question names the variant', () => {
    const all = resolved({ variants: axes, limits }, { engine: ['a', 'b'] });
    expect([...all.items.values()].map((i) => [i.label, i.views])).toEqual([
      ['Speed? (Engine A)', ['engine=a']],
      ['Speed? (Engine B)', ['engine=b']],
    ]);
    for (const key of all.items.keys()) expect(all.namesView(key)).toBe(true);
    expect(scenes(all)).toEqual([['Engine A'], ['Engine B']]);
  });
  test('of two axes only the one it hangs on is named', () => {
    const all = resolved({ variants: axes, limits }, { engine: ['a', 'b'], operator: ['x', 'y'] });
    expect([...all.items.values()].map((i) => [i.label, i.views.length])).toEqual([
      ['Speed? (Engine A)', 2],
      ['Speed? (Engine B)', 2],
    ]);
    expect(scenes(all)).toEqual([['Engine A'], ['Engine B']]);
    const both = [
      speed([
        { id: 'standard', value: 200 },
        { id: 'big', when: { engine: 'b', operator: 'y' }, value: 180 },
      ]),
    ];
    const two = resolved({ variants: axes, limits: both }, { engine: ['a', 'b'], operator: ['x', 'y'] });
    expect([...two.items.values()].map((i) => i.label)).toEqual([
      'Speed? (Engine A, Operator X / Engine A, Operator Y / Engine B, Operator X)',
      'Speed? (Engine B, Operator Y)',
    ]);
  });
  test('equal answers are one item, asked once, and no variant is named', () => {
    const same = [
      speed([
        { id: 'standard', when: { engine: 'a' }, value: 200 },
        { id: 'standard', when: { engine: 'b' }, value: 200 },
      ]),
    ];
    const all = resolved({ variants: axes, limits: same }, { engine: ['a', 'b'] });
    expect([...all.items.values()].map((i) => i.views)).toEqual([['engine=a', 'engine=b']]);
    expect(offers(all, null, 1).map((o) => drawnLimit(all, o).scene)).toEqual([[]]);
    expect([...all.items.keys()].some((k) => all.namesView(k))).toBe(false);
    expect(all.namesView('no such key')).toBe(false);
  });
  test('a learner of one variant is never bothered with its name', () => {
    const all = resolved({ variants: axes, limits }, { engine: ['b'] });
    expect(drawnLimit(all, offerFor(all, 'limit')).scene).toEqual([]);
  });
});

describe('a step in variants', () => {
  const content: Partial<Deck> = {
    variants: axes,
    procedures: [
      {
        id: 'flow',
        title: 'Flow',
        done: 'flow',
        steps: [
          { id: 'a', do: 'Lamp on' },
          { id: 'b', do: 'Valve shut', when: { engine: 'b' } },
          { id: 'c', do: 'Pump off' },
          { id: 'd', do: 'Bus tie' },
          { id: 'e', do: 'Fan low' },
        ],
      },
    ],
  };
  const all = resolved(content, { engine: ['a', 'b'] });
  test('only its neighbours differ: the others are one item', () => {
    const places = [...all.items.values()].filter((i) => i.facet === 'place');
    const count = (thing: string) => places.filter((i) => i.thing === thing).length;
    expect(['a', 'b', 'c', 'd', 'e'].map(count)).toEqual([2, 1, 2, 1, 1]);
  });
  test('a run whose answer differs names its variant, and the step of the other variant is a stranger', () => {
    const runs = offers(all, null, 1).filter((o) => o.about.part === undefined);
    const seen = runs.map((o) => drawnRun(all, o));
    expect(seen.map((s) => s.scene)).toEqual([['Engine A'], ['Engine B']]);
    expect(seen.map((s) => s.chips.filter((c) => c.id.startsWith('stranger')).map((c) => c.text))).toEqual([
      ['Valve shut'],
      [],
    ]);
  });
  test('not told: it is neither asked nor strange', () => {
    const untold = resolved(content);
    const shown = offers(untold, null, 1).map((offer) => draw(untold, offer, 1));
    expect(new Set(shown.map((one) => one?.form))).toEqual(new Set(['run', 'next']));
    expect(JSON.stringify(shown)).not.toContain('Valve shut');
  });
});

test('items come in authored order: procedures, limits, scenarios; of a step its place first', () => {
  const all = resolved({
    limits: [{ id: 'zero', ask: '?', unit: 'kt', sense: 'exactly', value: 1 }],
    procedures: [
      {
        id: 'p',
        title: 'P',
        done: 'flow',
        steps: [
          { id: 'z', do: 'Z', by: 'PF', cue: { text: 'q' } },
          { id: 'y', say: 'Y' },
        ],
      },
    ],
  });
  const items = [...all.items.values()];
  expect(items.map((i) => `${i.thing}.${i.facet}`)).toEqual([
    'z.place',
    'z.cue',
    'z.crew',
    'y.place',
    'y.words',
    'zero.value',
  ]);
  expect(items.map((i) => i.rank)).toEqual([0, 1, 2, 3, 4, 5]);
});

test('a block used in two procedures keeps one memory; at its ends the place may differ', () => {
  const all = resolved({
    procedures: [
      {
        id: 'p',
        title: 'P',
        done: 'flow',
        steps: [
          { id: 'a', do: 'Alpha' },
          {
            id: 'blk',
            steps: [
              { id: 's', do: 'Sierra', by: 'PF' },
              { id: 't', do: 'Tango' },
              { id: 'u', do: 'Uniform' },
            ],
          },
        ],
      },
      { id: 'q', title: 'Q', done: 'flow', steps: [{ id: 'b', do: 'Bravo' }, { use: 'blk' }] },
    ],
  });
  const keys = (id: string): RunStep[] =>
    all.views[0]?.procedures.flatMap((p) => p.situations[0]?.steps.find((s) => s.step.id === id) ?? []) ?? [];
  const [p, q] = keys('t') as [RunStep, RunStep];
  expect(p.place).toBe(q.place);
  expect([p.owner, q.owner]).toEqual(['p', 'p']);
  const [s1, s2] = keys('s') as [RunStep, RunStep];
  expect(s1.crew).toBe(s2.crew);
  expect(s1.place).not.toBe(s2.place);
  expect([...all.items.values()].find((i) => i.key === p.place)?.group).toBe('p');
});
