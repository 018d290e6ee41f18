import { describe, expect, test } from 'vitest';
import { APART } from '../../../src/drill/compose.ts';
import { allOffers } from '../../../src/drill/world.ts';
import { itemSeconds } from '../../../src/memory/plan/input.ts';
import type { Plan } from '../../../src/memory/plan/types.ts';
import { worthOf } from '../../../src/memory/plan/worth.ts';
import type { ItemMemory } from '../../../src/memory/types.ts';
import type { Limit } from '../../../src/model/deck.ts';
import type { ItemKey } from '../../../src/model/item.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { flow, resolved } from '../forms/small-decks.ts';
import { planFor } from './plans.ts';
import {
  FIRST_DAY,
  itemsAsked,
  knowsAll,
  knowsNothing,
  type Played,
  type Practice,
  play,
  practiceOf,
} from './practice.ts';

const limits = (n: number, critical: (i: number) => boolean = () => false): Limit[] =>
  [...Array(n).keys()].map((i) => ({
    id: `limit-${i}`,
    ask: `Speed ${'abcdefghijklmnopqrstuvwxyz'[i]}?`,
    unit: 'kt',
    sense: 'at most',
    value: 100 + 7 * i,
    ...(critical(i) && { critical: true }),
  }));
const keyOf = (deck: Resolved, thing: string): ItemKey =>
  [...deck.items.values()].find((item) => item.thing === thing)?.key ?? '';
const practised = (practice: Practice, key: ItemKey, s: number, ago: number, more: Partial<ItemMemory> = {}): void => {
  const day = FIRST_DAY - ago;
  practice.memory.items.set(key, {
    s,
    d: 5,
    day,
    at: day * 86_400_000,
    n: 3,
    rightDays: 2,
    lastRightDay: day,
    first: day - 20,
    verdict: 'sound',
    alert: null,
    ...more,
  });
};
const CHECK = FIRST_DAY + 8;
const INVENTED = { course: 'fictional', checkDay: CHECK } as const;
const planOf = (practice: Practice, minutes = 2): Plan => planFor(practice.world(0, { checkDay: CHECK }), minutes);
const things = ({ asked }: Played) => asked.map(({ offer }) => offer.about.thing);

describe('with a plan', () => {
  const deck = resolved({ limits: limits(16) });
  const at = (i: number) => keyOf(deck, `limit-${i}`);
  const some = () => {
    const practice = practiceOf([deck]);
    for (let i = 0; i < 16; i++) practised(practice, at(i), 1 + 2 * i, 3 + (i % 5));
    return practice;
  };

  test('questions come in the order of their worth for a second', () => {
    const practice = some();
    const plan = planOf(practice);
    const before = new Map(practice.memory.items);
    const asked = itemsAsked(play(practice, 0, knowsAll, { ...INVENTED, plan, seconds: 300 })).flat();
    const offers = new Map(allOffers(practice.world(0)).map(({ offer }) => [offer.proves[0], offer]));
    const worth = asked.map((key) => {
      const seconds = offers.get(key)?.seconds ?? Number.NaN;
      return worthOf(plan, { memory: before.get(key) ?? null, critical: false, seconds }, FIRST_DAY);
    });
    expect(asked.length).toBeGreaterThan(10);
    // Things easily taken for one another count somewhat more after each other.
    for (let i = 1; i < worth.length; i++)
      expect(worth[i]).toBeLessThanOrEqual(1.15 * (worth[i - 1] as number) + 1e-12);
    // And not in that of recall alone, which without a plan comes first.
    const plain = itemsAsked(play(some(), 0, knowsAll, { ...INVENTED, seconds: 300 })).flat();
    expect(plain).not.toEqual(asked);
  });

  test('what is worth less than the price of the day is asked last, but the minutes are used', () => {
    const practice = some();
    const { seconds: answer } = allOffers(practice.world(0))[0]?.offer ?? { seconds: Number.NaN };
    const plan = planOf(practice, 1);
    const price = plan.prices[0] as number;
    const wanted = new Set(
      [...practice.memory.items]
        .filter(([, memory]) => worthOf(plan, { memory, critical: false, seconds: answer }, FIRST_DAY) > price)
        .map(([key]) => key),
    );
    expect(wanted.size).toBeGreaterThan(0);
    expect(wanted.size).toBeLessThan(10);
    const played = play(practice, 0, knowsAll, { ...INVENTED, plan, seconds: 200 });
    const asked = itemsAsked(played).flat();
    expect(new Set(asked.slice(0, wanted.size))).toEqual(wanted);
    expect(asked.length).toBeGreaterThan(wanted.size);
    expect(played.session.now).toEqual({ kind: 'done', why: 'time' });
  });

  test('sure and wrong comes first, however little the plan makes of it', () => {
    const practice = some();
    practised(practice, at(15), 400, 1, { alert: 0 });
    const plan = planOf(practice);
    expect(things(play(practice, 0, knowsAll, { ...INVENTED, plan }))[0]).toBe('limit-15');
  });

  test('what was missed in an earlier drill of the day comes first in the next', () => {
    const practice = some();
    const plan = planOf(practice);
    practised(practice, at(13), 400, 0, { verdict: 'missed' });
    expect(things(play(practice, 0, knowsAll, { ...INVENTED, plan }))[0]).toBe('limit-13');
  });

  test('what was missed on an earlier day is worth what the plan makes of it', () => {
    const practice = some();
    practised(practice, at(13), 400, 1, { verdict: 'missed' });
    const plan = planOf(practice);
    expect(things(play(practice, 0, knowsAll, { ...INVENTED, plan }))[0]).not.toBe('limit-13');
  });

  test('what was missed comes back after five others, and nothing is asked twice in a row', () => {
    const practice = some();
    const plan = planOf(practice);
    const asked = itemsAsked(play(practice, 0, knowsNothing, { ...INVENTED, plan, seconds: 3000 })).flat();
    const [first] = asked;
    expect(asked.indexOf(first as ItemKey, 1)).toBe(APART + 1);
    for (let i = 1; i < asked.length; i++) expect(asked[i]).not.toBe(asked[i - 1]);
  });

  test('the minutes are kept', () => {
    const { used, now } = play(some(), 0, knowsAll, { ...INVENTED, plan: planOf(some()), seconds: 120 }).session;
    expect(now).toEqual({ kind: 'done', why: 'time' });
    expect(used).toBeGreaterThanOrEqual(100);
    expect(used).toBeLessThan(150);
  });

  test.each([
    ['of another check day', (plan: Plan): Plan => ({ ...plan, checkDay: CHECK + 1 })],
    ['that begins tomorrow', (plan: Plan): Plan => ({ ...plan, day: FIRST_DAY + 1 })],
    ['without prices', (plan: Plan): Plan => ({ ...plan, kind: 'far', prices: [] })],
  ])('a plan %s changes nothing', (_, mend) => {
    const plain = itemsAsked(play(some(), 0, knowsAll, INVENTED));
    const plan = mend(planOf(some()));
    expect(itemsAsked(play(some(), 0, knowsAll, { ...INVENTED, plan }))).toEqual(plain);
  });
});

describe('new items, with a plan', () => {
  test('are read when that gains more than the best question, and asked before more is read', () => {
    const deck = resolved({ limits: limits(14) });
    const practice = practiceOf([deck]);
    // Six that will hardly be forgotten, two that will; and six never met.
    for (let i = 0; i < 8; i++) practised(practice, keyOf(deck, `limit-${i}`), i < 6 ? 300 : 1, i < 6 ? 2 : 3);
    const plan = planOf(practice, 5);
    const seconds = itemSeconds(allOffers(practice.world(0)).map(({ offer }) => offer));
    const worth = (i: number) => {
      const key = keyOf(deck, `limit-${i}`);
      const memory = practice.memory.items.get(key) ?? null;
      return worthOf(plan, { memory, critical: false, seconds: seconds.get(key) ?? Number.NaN }, FIRST_DAY);
    };
    const fresh = worth(9);
    const before = [0, 6].map((i) => worth(i) > fresh);
    const played = play(practice, 0, knowsAll, { ...INVENTED, plan });
    const kinds = played.states.map(({ now }) => now);
    const firstRead = kinds.findIndex(({ kind }) => kind === 'read');
    const asked = kinds.slice(0, firstRead).flatMap((now) => (now.kind === 'ask' ? [now.offer.about.thing] : []));
    expect(before).toEqual([false, asked.length > 0]);
    expect(asked).not.toContain('limit-0');
    const read = kinds[firstRead];
    if (read?.kind !== 'read') throw new Error('nothing was read');
    expect(read.things).toHaveLength(5);
    const next = things(played).slice(new Set(asked).size, new Set(asked).size + 5);
    expect(new Set(next)).toEqual(new Set(read.things));
  });

  test('are read when nothing else is left, whatever the plan makes of them', () => {
    const deck = resolved({ limits: limits(8) });
    const practice = practiceOf([deck]);
    const plan = planOf(practice, 600);
    const played = play(practice, 0, knowsAll, { ...INVENTED, plan, seconds: 3000 });
    expect(new Set(things(played)).size).toBe(8);
    expect(played.session.now).toEqual({ kind: 'done', why: 'empty' });
  });

  test('a whole run waits until each of its steps was right once; then it is asked as a whole where all gain', () => {
    const deck = resolved({ procedures: [flow(8)] });
    const practice = practiceOf([deck]);
    const first = play(practice, 0, knowsAll, { ...INVENTED, plan: planOf(practice, 10) });
    expect(first.asked.length).toBeGreaterThan(0);
    expect(first.asked.every(({ offer }) => offer.about.part !== undefined)).toBe(true);
    const world = practice.world(5, { checkDay: CHECK });
    const later = play(practice, 5, knowsAll, { ...INVENTED, plan: planFor(world, 10) });
    expect(later.asked[0]?.offer.about.part).toBe(undefined);
  });
});
