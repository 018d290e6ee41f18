import { describe, expect, test } from 'vitest';
import { draw, offers } from '../../../src/forms/registry.ts';
import { FIRST_STRANGERS } from '../../../src/forms/run/offers.ts';
import { MOST_ROWS, WINDOW } from '../../../src/forms/run/windows.ts';
import type { Offer, RunShown } from '../../../src/model/form.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { flow, resolved, word } from './small-decks.ts';

const runs = (all: Resolved): Offer[] => offers(all, null, 1).filter((o) => o.form === 'run');
const placesOf = (all: Resolved): string[] =>
  [...all.items.values()].filter((i) => i.facet === 'place').map((i) => i.key);
const strangers = [...Array(20).keys()].map((i) => `Not ${word(i)}`);

describe('questions about an order', () => {
  test('a procedure of one step has no place and no run', () => {
    const one = resolved({ procedures: [flow(1, { strangers })] });
    expect(placesOf(one)).toEqual([]);
    expect(runs(one)).toEqual([]);
  });

  test.each([2, 5, 7, 12, 13, 24, 60])('%d steps: every place is asked, no question has more than 12 rows', (n) => {
    const all = resolved({ procedures: [flow(n, { strangers })] });
    const list = runs(all);
    expect([...new Set(list.flatMap((o) => o.proves))].sort()).toEqual(placesOf(all).sort());
    for (const o of list) {
      const shown = draw(all, o, 3) as RunShown;
      expect(shown.chips.length).toBeLessThanOrEqual(MOST_ROWS);
      const steps = shown.chips.filter((c) => !c.id.startsWith('stranger-')).length;
      expect(steps).toBe(o.proves.length);
      // New steps at most five at once; of a long procedure at most seven.
      if (o.needs === 'read') {
        expect(steps).toBeLessThanOrEqual(5);
        expect(shown.chips.length - steps).toBe(FIRST_STRANGERS);
      } else {
        expect(shown.chips).toHaveLength(MOST_ROWS);
        if (n > MOST_ROWS) expect(steps).toBeLessThanOrEqual(WINDOW);
        else expect(o.about.part).toBeUndefined();
      }
    }
  });

  test('the whole run waits until each of its steps was right once', () => {
    const list = runs(resolved({ procedures: [flow(8)] }));
    expect(list.filter((o) => o.proves.length === 8).map((o) => o.needs)).toEqual(['right-once']);
  });

  test('what is read is not drilled: no order of a read list or of challenge and response', () => {
    for (const done of ['read-and-do', 'challenge-response'] as const) {
      const all = resolved({ procedures: [flow(6, { done, strangers })] });
      expect(placesOf(all)).toEqual([]);
      expect(runs(all)).toEqual([]);
    }
    expect(runs(resolved({ procedures: [flow(6, { done: 'memory' })] })).length).toBeGreaterThan(0);
  });

  test('nothing to order and nothing to leave out is no question', () => {
    const steps = [
      {
        together: true,
        steps: [
          { id: 'a', do: 'One' },
          { id: 'b', do: 'Two' },
        ],
      },
    ];
    expect(runs(resolved({ procedures: [flow(steps)] }))).toEqual([]);
    expect(runs(resolved({ procedures: [flow(steps, { strangers })] })).length).toBeGreaterThan(0);
  });

  test('only what proves something wanted', () => {
    const all = resolved({ procedures: [flow(24)] });
    const key = placesOf(all)[20] as string;
    const list = offers(all, new Set([key]), 1);
    expect(list.length).toBeGreaterThan(0);
    expect(list.length).toBeLessThan(runs(all).length);
    for (const o of list) expect(o.proves).toContain(key);
  });

  test('the guess rate falls with the length of the run and with strangers', () => {
    const g = (n: number, more: readonly string[] = []): number =>
      runs(resolved({ procedures: [flow(n, { strangers: more })] })).find((o) => o.about.part === undefined)
        ?.g as number;
    // Design table: .67 / .56 / .47 / .40 at 3 / 5 / 8 / 12 without strangers.
    for (const [n, rate] of [
      [3, 0.67],
      [5, 0.56],
      [8, 0.47],
      [12, 0.4],
    ] as const) {
      expect(Math.abs(g(n) - rate)).toBeLessThan(0.0075);
    }
    expect(g(5, strangers)).toBeLessThan(g(5) - 0.1);
  });

  test('the same seed shows the same, another seed another order; nothing else is rolled', () => {
    const all = resolved({ procedures: [flow(9, { strangers })] });
    const [o] = runs(all) as [Offer];
    expect(draw(all, o, 5)).toEqual(draw(all, o, 5));
    const seen = new Set([1, 2, 3, 4, 5, 6].map((seed) => JSON.stringify(draw(all, o, seed))));
    expect(seen.size).toBeGreaterThan(4);
  });

  test("the author's strangers come first", () => {
    const all = resolved({
      procedures: [
        flow(3, { strangers: ['Mine', 'Mine too'] }),
        flow(
          [...Array(9).keys()].map((i) => ({ id: `o${i}`, do: `Other ${word(i)}` })),
          { id: 'other' },
        ),
      ],
    });
    const first = runs(all).find((o) => o.about.thing === 'flow' && o.needs === 'read') as Offer;
    for (const seed of [1, 2, 3]) {
      const texts = (draw(all, first, seed) as RunShown).chips
        .filter((c) => c.id.startsWith('stranger-'))
        .map((c) => c.text);
      expect(texts.sort()).toEqual(['Mine', 'Mine too']);
    }
  });

  test('steps before a part stand above it; the first part has none', () => {
    const all = resolved({ procedures: [flow(13)] });
    for (const o of runs(all)) {
      const first = o.about.part?.[0];
      const i = Number(first?.slice(1));
      expect((draw(all, o, 1) as RunShown).before).toEqual([i - 2, i - 1].filter((k) => k >= 0).map(word));
    }
  });

  test('procedures that share two steps are easily taken for one another', () => {
    const shared = [
      { id: 'x', do: 'Gear up' },
      { id: 'y', do: 'Flaps up' },
    ];
    const all = resolved({
      procedures: [
        flow([...shared, { id: 'z', do: 'Lights off' }]),
        flow(
          [
            { id: 'x2', do: 'Gear up' },
            { id: 'y2', do: 'flaps UP' },
            { id: 'w', do: 'Bleeds on' },
          ],
          { id: 'near' },
        ),
        flow(
          [
            { id: 'f', do: 'Doors' },
            { id: 'h', do: 'Slides' },
          ],
          { id: 'far' },
        ),
      ],
    });
    expect(runs(all).find((o) => o.about.thing === 'flow')?.confusable).toEqual(['near']);
    expect(runs(all).find((o) => o.about.thing === 'far')?.confusable).toEqual([]);
  });
});
