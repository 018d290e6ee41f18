import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { compareDecks } from '../../src/deck/compare/compare.ts';
import { riseOf } from '../../src/deck/compare/rise.ts';
import { resolve } from '../../src/deck/resolve.ts';
import type { Deck } from '../../src/model/deck.ts';
import { BASE, type Loose } from '../fixtures/decks/base.ts';

/* Random edits of every deck that is shipped, and of the one that has something of everything. */

const DECKS: readonly Deck[] = [
  BASE,
  ...readdirSync(at('decks'))
    .filter((f) => f.endsWith('.deck.json'))
    .map((f) => JSON.parse(readFileSync(at('decks', f), 'utf8')) as Deck),
];

/** Every place that holds a value of one kind, with what holds it. */
function places(deck: Loose, fits: (key: string, value: unknown) => boolean): [Loose, string][] {
  const found: [Loose, string][] = [];
  const visit = (x: Loose): void => {
    if (typeof x !== 'object' || x === null) return;
    for (const key of Object.keys(x)) {
      if (fits(key, x[key])) found.push([x, key]);
      visit(x[key]);
    }
  };
  visit(deck);
  return found;
}
const pick = <T>(list: readonly T[], n: number): T | undefined => list[n % Math.max(1, list.length)];

type Edit = (deck: Loose, n: number) => void;

/** Say nothing of what is to be recalled. */
const HARMLESS: readonly Edit[] = [
  // Titles, reasons, slips, questions, notes.
  (d, n) => {
    const one = pick(
      places(d, (k, v) => ['title', 'why', 'slip', 'ask', 'note', 'about'].includes(k) && typeof v === 'string'),
      n,
    );
    if (one) one[0][one[1]] = `${one[0][one[1]]} Again.`;
  },
  // Things moved in the file.
  (d, n) => {
    const list = pick(
      ['procedures', 'limits', 'scenarios', 'sources', 'day', 'conditions'].flatMap((k) => (d[k] ? [d[k]] : [])),
      n,
    );
    if (list.length > 1) list.push(...list.splice(n % list.length, 1));
  },
  // A list in order is the same as blocks in a row.
  (d, n) => {
    const lists = places(d, (k, v) => k === 'steps' && Array.isArray(v) && v.length > 1);
    const one = pick(lists, n);
    if (!one) return;
    const steps = one[0][one[1]];
    // Within what is done at once a block would be an order.
    if (one[0].together) return;
    const cut = 1 + (n % (steps.length - 1));
    one[0][one[1]] = [{ steps: steps.slice(0, cut) }, { steps: steps.slice(cut) }];
  },
  // Lanes in another sequence.
  (d, n) => {
    const one = pick(
      places(d, (k) => k === 'lanes'),
      n,
    );
    one?.[0].lanes.reverse();
  },
  // Letters of a callout, marks around it.
  (d, n) => {
    const one = pick(
      places(d, (k, v) => k === 'say' && typeof v === 'string' && !v.includes('{')),
      n,
    );
    if (one) one[0].say = `${one[0].say.toUpperCase()}!`;
  },
];

/** May change answers. */
const EDITS: readonly Edit[] = [
  ...HARMLESS,
  (d, n) => {
    const one = pick(
      places(d, (k, v) => ['value', 'from', 'to'].includes(k) && typeof v === 'number'),
      n,
    );
    if (one) one[0][one[1]] += 1;
  },
  (d, n) => {
    const one = pick(
      places(
        d,
        (k, v) =>
          ['steps', 'cases', 'limits', 'asks', 'rules', 'scenarios', 'procedures'].includes(k) &&
          Array.isArray(v) &&
          v.length > 1,
      ),
      n,
    );
    if (one) one[0][one[1]].splice(n % one[0][one[1]].length, 1);
  },
  (d, n) => {
    const one = pick(
      places(d, (k, v) => k === 'steps' && Array.isArray(v) && v.length > 1),
      n,
    );
    if (one) one[0][one[1]].reverse();
  },
  (d, n) => {
    const one = pick(
      places(d, (k, v) => k === 'steps' && Array.isArray(v)),
      n,
    );
    if (one) one[0][one[1]].splice(n % 3, 0, { id: `new-${n}`, do: `Lamp ${n}`, by: 'PF' });
  },
  (d, n) => {
    const one = pick(
      places(d, (k, v) => k === 'say' && typeof v === 'string'),
      n,
    );
    if (one) one[0].say += ' now';
  },
  (d, n) => {
    const one = pick(
      places(d, (k) => ['by', 'cue', 'when', 'critical', 'needs'].includes(k)),
      n,
    );
    if (one) delete one[0][one[1]];
  },
  (d, n) => {
    const axis = pick(d.variants ?? [], n) as Loose;
    if (axis) axis.options.extra = 'Extra';
  },
];

const edited = (deck: Deck, edits: readonly Edit[], seeds: readonly (readonly [number, number])[]): Deck => {
  const copy = structuredClone(deck) as Loose;
  for (const [which, n] of seeds) (edits[which % edits.length] as Edit)(copy, n);
  return copy as Deck;
};
const seeds = fc.array(fc.tuple(fc.nat(1000), fc.nat(10_000)), { minLength: 1, maxLength: 4 });
const deck = fc.constantFrom(...DECKS);

/** What is to be recalled, view by view: worked out without the comparison. */
const stamps = (of: Deck): string => {
  const all = resolve(
    of,
    '0'.repeat(64),
    Object.fromEntries((of.variants ?? []).map((a) => [a.id, Object.keys(a.options)])),
  );
  return [...all.items.values()]
    .map((i) => `${i.key} ${[...i.views].sort().join(' ')}`)
    .sort()
    .join('\n');
};
const count = (of: readonly { readonly kind: string }[], kind: string): number =>
  of.filter((d) => d.kind === kind).length;

describe('comparing decks', () => {
  test.each(DECKS.map((d) => [d.id, d] as const))('%s with itself: nothing', (_, one) => {
    const { differences, same, whole } = compareDecks(one, structuredClone(one));
    expect(differences).toEqual([]);
    expect(whole).toBe(true);
    expect(same).toBe(
      resolve(one, '0'.repeat(64), Object.fromEntries((one.variants ?? []).map((a) => [a.id, Object.keys(a.options)])))
        .items.size,
    );
    expect(riseOf({ differences, same, whole })).toBe('none');
  });

  test('renaming, moving in the file, splitting without another order: no answer changes, nothing comes or goes', () => {
    fc.assert(
      fc.property(deck, seeds, (before, list) => {
        const after = edited(before, HARMLESS, list);
        const { differences } = compareDecks(before, after);
        expect(differences.filter((d) => ['answer', 'same-answer', 'added', 'removed'].includes(d.kind))).toEqual([]);
        expect(riseOf({ differences, same: 0, whole: true })).not.toBe('major');
      }),
      { numRuns: 40 },
    );
  });

  test('answers changed exactly where stamps did', () => {
    fc.assert(
      fc.property(deck, seeds, (before, list) => {
        const after = edited(before, EDITS, list);
        const { differences } = compareDecks(before, after);
        const items = differences.filter((d) => ['answer', 'added', 'removed'].includes(d.kind) && d.thing !== '');
        const option = differences.some((d) => d.kind === 'head' && d.rise === 'minor');
        if (stamps(before) === stamps(after)) expect(items.filter((d) => d.kind === 'answer')).toEqual([]);
        else expect(items.length > 0 || option).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  test('the other way round, what came went, and what changed changed back', () => {
    fc.assert(
      fc.property(deck, seeds, (before, list) => {
        const after = edited(before, EDITS, list);
        const there = compareDecks(before, after).differences;
        const back = compareDecks(after, before).differences;
        expect(count(back, 'added')).toBe(count(there, 'removed'));
        expect(count(back, 'removed')).toBe(count(there, 'added'));
        expect(count(back, 'answer')).toBe(count(there, 'answer'));
        const values = (list: typeof there, key: 'old' | 'now') =>
          list
            .filter((d) => d.kind === 'answer')
            .map((d) => d[key].replace(/ \((another step|computed).*\)$/, ''))
            .sort();
        expect(values(back, 'now')).toEqual(values(there, 'old'));
        expect(values(back, 'old')).toEqual(values(there, 'now'));
      }),
      { numRuns: 40 },
    );
  });

  test('every pointer stands for something in its deck', () => {
    fc.assert(
      fc.property(deck, seeds, (before, list) => {
        const after = edited(before, EDITS, list);
        for (const d of compareDecks(before, after).differences) {
          let here: Loose = d.gone ? before : after;
          for (const key of d.path.split('/').slice(1)) here = here?.[key.replaceAll('~1', '/').replaceAll('~0', '~')];
          expect(here, d.path).toBeDefined();
        }
      }),
      { numRuns: 40 },
    );
  });
});
