import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chainOf, changedItems, otherRevisions, periodsFrom, type Revision, revisionOn } from '../../src/deck/amend.ts';
import { resolve } from '../../src/deck/resolve.ts';
import { toCheckpoint } from '../../src/memory/checkpoint.ts';
import type { Block, Deck, Limit, Node, NumberLimit, Step } from '../../src/model/deck.ts';
import type { StoredDeck } from '../../src/model/ports.ts';
import type { Resolved } from '../../src/subjects/resolved.ts';
import { foldLines } from '../../src/workers/fold.ts';
import { AT, answered, benchOf, DAY } from '../unit/ui/learners.ts';

/** All numbers are invented. */
const deckOf = (steps: readonly Node[], limits: readonly Limit[] = []): Deck => ({
  format: 1,
  id: 'calder/drawn',
  version: '1.0.0',
  title: 'Drawn',
  language: 'en',
  nature: 'fictional',
  sources: [],
  procedures: [
    { id: 'flow', title: 'Flow', done: 'flow', steps },
    {
      id: 'other',
      title: 'Other',
      done: 'memory',
      steps: [
        { id: 'o1', do: 'Lamp' },
        { id: 'o2', do: 'Valve' },
      ],
    },
  ],
  limits,
});
const resolved = (deck: Deck): Resolved => resolve(deck, 'a'.repeat(64), {});
const keysOf = (deck: Deck): string[] => [...resolved(deck).items.keys()].sort();

/** What a procedure is drawn as: steps in a row, some of them side by side in lanes. */
type Drawn = readonly (number | readonly number[])[];
const drawnProcedure: fc.Arbitrary<Drawn> = fc.array(
  fc.oneof(fc.constant(1), fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 2, maxLength: 3 })),
  { minLength: 2, maxLength: 5 },
);
const nodesOf = (drawn: Drawn): Node[] => {
  let n = 0;
  const step = (): Step => {
    n += 1;
    return { id: `s${n}`, do: `Thing ${String.fromCharCode(64 + n)}`, cue: { text: `Cue ${n}` } };
  };
  const steps = (count: number): Step[] => Array.from({ length: count }, step);
  return drawn.map((part) => (typeof part === 'number' ? step() : { lanes: part.map(steps) }));
};
const limitsOf = (values: readonly number[]): NumberLimit[] =>
  values.map((value, i) => ({ id: `l${i}`, ask: `Speed ${i}?`, unit: 'kt', sense: 'exactly', value }));
const values = fc.array(fc.integer({ min: 1, max: 900 }), { minLength: 1, maxLength: 6 });

/** The same order relation, written otherwise. */
const lanesSplit = (nodes: readonly Node[], choose: (n: number) => number): Node[] =>
  nodes.map((node) => {
    const { lanes } = node as Block;
    if (lanes === undefined) return choose(2) === 0 ? node : { steps: [node] };
    const split = lanes.flatMap((lane) => {
      const at = choose(lane.length);
      if (at === 0) return [lane];
      const [last, first] = [lane[at - 1] as Step, lane[at] as Step];
      return [lane.slice(0, at), [{ ...first, needs: [last.id] }, ...lane.slice(at + 1)]];
    });
    return { lanes: choose(2) === 0 ? split : split.reverse() };
  });

describe('memory is kept', () => {
  test('where only titles, words, reasons and slips change', () => {
    fc.assert(
      fc.property(drawnProcedure, values, fc.string({ minLength: 1 }), (drawn, numbers, word) => {
        const before = deckOf(nodesOf(drawn), limitsOf(numbers));
        const renamed = structuredClone(before) as { -readonly [K in keyof Deck]: Deck[K] };
        renamed.title = word;
        renamed.procedures = (before.procedures ?? []).map((one) => ({
          ...one,
          title: `${word} ${one.title}`,
          steps: JSON.parse(JSON.stringify(one.steps), (key, value) => (key === 'do' ? `${value} ${word}` : value)),
        }));
        renamed.limits = limitsOf(numbers).map((one) => ({
          ...one,
          ask: `${word}: ${one.ask}`,
          why: word,
          accept: 1,
          slips: [{ value: 1000, note: word }],
        }));
        expect(keysOf(renamed)).toEqual(keysOf(before));
        expect(changedItems(resolved(renamed), [resolved(before)])).toEqual(new Set());
      }),
    );
  });

  test('where things move in the file', () => {
    fc.assert(
      fc.property(drawnProcedure, values, fc.infiniteStream(fc.nat()), (drawn, numbers, picks) => {
        const before = deckOf(nodesOf(drawn), limitsOf(numbers));
        const moved = <T>(list: readonly T[] = []): T[] =>
          list
            .map((one) => ({ one, by: picks.next().value as number }))
            .sort((a, b) => a.by - b.by)
            .map(({ one }) => one);
        const after = { ...before, procedures: moved(before.procedures), limits: moved(before.limits) };
        expect(keysOf(after)).toEqual(keysOf(before));
      }),
    );
  });

  test('where lanes are split or blocks put around, as long as the order is the same', () => {
    fc.assert(
      fc.property(drawnProcedure, fc.infiniteStream(fc.nat()), (drawn, picks) => {
        const nodes = nodesOf(drawn);
        const before = deckOf(nodes);
        const after = deckOf(lanesSplit(nodes, (n) => (picks.next().value as number) % n));
        expect(keysOf(after)).toEqual(keysOf(before));
      }),
    );
  });
});

describe('another answer is fresh', () => {
  test('a number: that item alone, and it is among what changed', () => {
    fc.assert(
      fc.property(values, fc.nat(), fc.integer({ min: 1, max: 50 }), (numbers, pick, by) => {
        const at = pick % numbers.length;
        const before = resolved(deckOf([], limitsOf(numbers)));
        const after = resolved(deckOf([], limitsOf(numbers.map((x, i) => (i === at ? x + by : x)))));
        const fresh = [...after.items.values()].filter(({ key }) => !before.items.has(key));
        expect(fresh.map(({ thing }) => thing)).toEqual([`l${at}`]);
        expect(changedItems(after, [before])).toEqual(new Set(fresh.map(({ key }) => key)));
        // And back again: nothing is new.
        expect([...before.items.keys()].sort()).toEqual(keysOf(deckOf([], limitsOf(numbers))));
      }),
    );
  });

  test('a step put into a row: its own place and those of its neighbours, no other', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 8 }), fc.nat(), (count, pick) => {
        const row = nodesOf(Array.from({ length: count }, () => 1));
        const at = pick % (count + 1);
        const [before, after] = [
          resolved(deckOf(row)),
          resolved(deckOf(row.toSpliced(at, 0, { id: 'x', do: 'Put in' }))),
        ];
        const fresh = [...after.items.values()].filter(({ key, facet }) => facet === 'place' && !before.items.has(key));
        const near = [row[at - 1], { id: 'x' }, row[at]].flatMap((one) =>
          one === undefined ? [] : [(one as Step).id],
        );
        expect(fresh.map(({ thing }) => thing).sort()).toEqual(near.sort());
        const changed = [...changedItems(after, [before])].map((key) => after.items.get(key)?.thing);
        expect(changed.sort()).toEqual(near.filter((id) => id !== 'x'));
      }),
    );
  });

  test('two neighbours of a row exchanged: they and those beside them', () => {
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 8 }), fc.nat(), (count, pick) => {
        const row = nodesOf(Array.from({ length: count }, () => 1)) as Step[];
        const at = pick % (count - 1);
        const swapped = row.toSpliced(at, 2, row[at + 1] as Step, row[at] as Step);
        const [before, after] = [resolved(deckOf(row)), resolved(deckOf(swapped))];
        const fresh = [...after.items.values()].filter(({ key }) => !before.items.has(key)).map(({ thing }) => thing);
        expect(fresh.sort()).toEqual(
          row
            .slice(Math.max(0, at - 1), at + 3)
            .map(({ id }) => id)
            .sort(),
        );
      }),
    );
  });
});

const date = fc.option(fc.integer({ min: 20_790, max: 20_830 }), { nil: undefined });
const iso = (day: number | undefined) =>
  day === undefined ? undefined : new Date(day * DAY).toISOString().slice(0, 10);
const revisions = fc
  .array(fc.tuple(date, date, fc.integer({ min: 20_785, max: 20_835 })), { minLength: 1, maxLength: 4 })
  .map((list) =>
    list.map(([effective, until, came], i): Revision => {
      const deck = { effective: iso(effective), until: iso(until) } as Revision['deck'];
      return { ref: `d@${i}`, version: `${i}.0.0`, installed: came * DAY, deck };
    }),
  );
const refsOf = (all: readonly Revision[]): string[] => all.map(({ ref }) => ref);

test('on every day one revision is asked, and the periods say which', () => {
  fc.assert(
    fc.property(revisions, fc.integer({ min: 20_780, max: 20_840 }), (all, today) => {
      const chain = chainOf(all, all.at(-1) as Revision, refsOf(all));
      const periods = periodsFrom(chain, today);
      expect(periods[0]?.from).toBe(today);
      expect(periods.at(-1)?.to).toBeNull();
      for (let day = today; day < 20_845; day++) {
        const found = periods.filter(({ from, to }) => from <= day && (to === null || day <= to));
        expect(found.map(({ revision }) => revision.ref)).toEqual([revisionOn(chain, day, null).ref]);
        // On the day of a check what is in force then; ten days before it the same.
        expect(revisionOn(chain, day, day)).toBe(revisionOn(chain, day, null));
        expect(revisionOn(chain, day, day + 10)).toBe(revisionOn(chain, day + 10, null));
        expect(revisionOn(chain, day, day + 11)).toBe(revisionOn(chain, day, null));
      }
    }),
  );
});

test('an old answer is told as right until a day that is past, and on which nothing newer was known to be in force', () => {
  const dayOf = (text: string | undefined, none: number) => (text === undefined ? none : Date.parse(text) / DAY);
  let told = 0;
  fc.assert(
    fc.property(revisions, fc.integer({ min: 20_780, max: 20_840 }), (all, today) => {
      const chain = chainOf(all, all.at(-1) as Revision, refsOf(all)) as (Revision & { deck: Deck })[];
      const asked = revisionOn(chain, today, null);
      const others = otherRevisions(chain, asked as (typeof chain)[number], today, () => {
        throw new Error('not asked for');
      });
      const holds = ({ deck }: Revision, on: number) =>
        dayOf(deck.effective, Number.NEGATIVE_INFINITY) <= on && on <= dayOf(deck.until, Number.POSITIVE_INFINITY);
      for (const { deck, when, day } of others) {
        if (when !== 'past') continue;
        const place = chain.findIndex((one) => one.deck === deck);
        const one = chain[place] as Revision;
        // What is told at all was in force on some day before, or it came and went on one.
        expect(dayOf(deck.effective, Number.NEGATIVE_INFINITY)).toBeLessThanOrEqual(today);
        if (day === null) continue;
        told += 1;
        expect(day).toBeLessThan(today);
        expect(holds(one, day)).toBe(true);
        const known = chain.slice(0, place).filter((newer) => newer.installed <= day * DAY);
        expect(known.filter((newer) => holds(newer, day))).toEqual([]);
        // And it is the last: on no day after it, as far as newer ones name their days, was it in force again.
        const isFree = (on: number) => chain.slice(0, place).every((newer) => !holds(newer, on));
        for (let on = day + 1; on < today; on++) expect(holds(one, on) && isFree(on)).toBe(false);
      }
    }),
    { numRuns: 1000 },
  );
  expect(told).toBeGreaterThan(100);
});

type Doing =
  | { readonly k: 'answer'; readonly thing: number; readonly right: boolean }
  | { readonly k: 'revise'; readonly numbers: readonly number[]; readonly keeps: boolean; readonly in: number | null }
  | { readonly k: 'back'; readonly which: number }
  | { readonly k: 'days'; readonly days: number }
  | { readonly k: 'check'; readonly in: number }
  | { readonly k: 'start' };

const doing: fc.Arbitrary<Doing> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({ k: fc.constant('answer' as const), thing: fc.nat(2), right: fc.boolean() }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      k: fc.constant('revise' as const),
      numbers: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 3, maxLength: 3 }),
      keeps: fc.boolean(),
      in: fc.option(fc.integer({ min: -2, max: 20 })),
    }),
  },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('back' as const), which: fc.nat(5) }) },
  { weight: 2, arbitrary: fc.record({ k: fc.constant('days' as const), days: fc.integer({ min: 1, max: 9 }) }) },
  { weight: 1, arbitrary: fc.record({ k: fc.constant('check' as const), in: fc.integer({ min: 1, max: 30 }) }) },
  { weight: 1, arbitrary: fc.constant({ k: 'start' as const }) },
);

test('live equals a fold of the whole log, whatever revisions it spans; nothing of the log is lost', async () => {
  const first = deckOf([], limitsOf([1, 1, 1]));
  await fc.assert(
    fc.asyncProperty(fc.array(doing, { minLength: 4, maxLength: 14 }), async (list) => {
      const bench = await benchOf(first);
      let { learner } = bench;
      let [version, written] = [1, (await bench.entries()).length];
      const isoIn = (days: number) => new Date(bench.at + days * DAY).toISOString().slice(0, 10);
      for (const one of list) {
        const [now] = learner.practised.value;
        if (now === undefined) throw new Error('nothing practised');
        if (one.k === 'answer') {
          await learner.append(answered(learner, `l${one.thing}`, one.right ? 'right' : 'wrong'));
          written += 1;
        } else if (one.k === 'revise') {
          version += 1;
          const items = [...now.resolved.items.values()];
          const stamp = ({ key }: { readonly key: string }) => key.slice(key.indexOf('.') + 1);
          const deck: Deck = {
            ...first,
            version: `${version}.0.0`,
            ...(one.in !== null && { effective: isoIn(one.in) }),
            limits: limitsOf(one.numbers).map((limit) => ({
              ...limit,
              ...(one.keeps && { keeps: items.filter(({ thing }) => thing === limit.id).map(stamp) }),
            })),
          };
          const { id, title, nature } = deck;
          const contentId = version.toString(16).padStart(16, '0').padEnd(64, '0');
          await learner.install({ id, version: deck.version, title, nature, contentId, text: JSON.stringify(deck) });
          written += 1;
        } else if (one.k === 'back') {
          const all = learner.decks.value;
          await learner.setActive(all[one.which % all.length] as StoredDeck, true);
          written += 1;
        } else if (one.k === 'days') {
          bench.at += one.days * DAY;
          await learner.lookAtClock();
        } else if (one.k === 'check') {
          await learner.set('check-date/fictional', isoIn(one.in));
          written += 1;
        } else {
          await learner.saveCheckpoint();
          learner.dispose();
          learner = await bench.again();
        }
        const entries = await bench.entries();
        expect(entries).toHaveLength(written);
        const lines: string[] = [];
        await bench.store.log.all((part) => void lines.push(...part));
        const { value } = foldLines({ ...learner.facts(), lines });
        expect(toCheckpoint(learner.memory.value)).toEqual(value);
        // What is asked is what the day says, also after a start.
        const held = learner.practised.value[0];
        const day = Math.floor((bench.at - 4 * 3_600_000) / DAY);
        const check = learner.checkDay('fictional');
        expect(held?.stored.ref).toBe(
          held && revisionOn(held.chain, day, check === null || check < day ? null : check).ref,
        );
      }
      learner.dispose();
      expect(AT).toBeLessThanOrEqual(bench.at);
    }),
    { numRuns: 40 },
  );
}, 60_000);
