import { describe, expect, test } from 'vitest';
import { dayOrder } from '../../../../src/memory/day-order.ts';
import { planOrder } from '../../../../src/memory/plan/order.ts';
import { solvePlan } from '../../../../src/memory/plan/solve.ts';
import { worthOf } from '../../../../src/memory/plan/worth.ts';
import { DAY, itemAt, known, memoryOf } from '../memories.ts';
import { inputOf, type Row } from './problems.ts';

const items = Array.from({ length: 60 }, (_, rank) => itemAt(rank, { critical: rank % 7 === 0 }));
const memory = memoryOf(
  items.slice(0, 50).map((item, i) => [
    item,
    known(0.5 + ((i * 7) % 23) * 1.7, 1 + (i % 6), {
      ...(i === 3 && { verdict: 'missed' }),
      ...(i === 7 && { alert: 0 }),
    }),
  ]),
);
const CHECK = DAY + 9;
const rows: Row[] = items.map(({ key, critical }) => {
  const m = memory.items.get(key);
  return { critical, seconds: 12, ...(m && { s: m.s, d: m.d, gap: DAY - m.day }) };
});
const plan = solvePlan(inputOf(rows, { day: DAY, checkDay: CHECK, minutes: 4 }));
const seconds = () => 12;

describe('the order of a day that a plan covers', () => {
  const order = planOrder(plan, items, memory, DAY, CHECK, seconds);

  test('is by worth of a second; sure and wrong, and missed last time, come first', () => {
    expect(order.due.slice(0, 2).map(({ rank }) => rank)).toEqual([7, 3]);
    for (const list of [order.due.slice(2), order.rest]) {
      const worths = list.map(({ key }) => order.worth?.get(key) ?? Number.NaN);
      expect(worths).toEqual([...worths].sort((a, b) => b - a));
    }
    const wanted = order.due.slice(2).map(({ key }) => order.worth?.get(key) ?? Number.NaN);
    expect(wanted.length).toBeGreaterThan(3);
    expect(order.price).toBe(plan?.prices[0]);
    for (const worth of wanted) expect(worth).toBeGreaterThan(order.price);
    for (const { key } of order.rest) expect(order.worth?.get(key)).toBeLessThanOrEqual(order.price);
  });

  test('leaves nothing out, and new items as they were', () => {
    const plain = dayOrder(items, memory, DAY, CHECK);
    expect(order.fresh).toEqual(plain.fresh);
    expect(order.fresh).toHaveLength(10);
    expect(new Set([...order.due, ...order.rest])).toEqual(new Set([...plain.due, ...plain.rest]));
    expect(order.worth?.size).toBe(60);
    if (plan === null) throw new Error('stopped');
    const fresh = { memory: null, critical: false, seconds: 12 };
    expect(order.worth?.get(items[50]?.key ?? '')).toBe(worthOf(plan, fresh, DAY));
  });
});

test('where no plan covers the day the order is that of day-order', () => {
  const plain = { ...dayOrder(items, memory, DAY, CHECK), worth: null, price: 0 };
  expect(planOrder(null, items, memory, DAY, CHECK, seconds)).toEqual(plain);
  // Made for another check day, or not yet begun, or over.
  expect(planOrder(plan, items, memory, DAY, CHECK + 1, seconds).worth).toBe(null);
  expect(planOrder(plan, items, memory, DAY - 1, CHECK, seconds).worth).toBe(null);
  expect(planOrder(plan, items, memory, CHECK, CHECK, seconds).worth).toBe(null);
});

test('what has its check behind it is due at its target, after what the plan wants, and else rests', () => {
  const isOver = ({ rank }: { rank: number }) => rank % 2 === 1;
  const order = planOrder(plan, items, memory, DAY, CHECK, seconds, (item) => (isOver(item) ? DAY : CHECK));
  const plain = dayOrder(items, memory, DAY, CHECK);
  const over = plain.due.filter((item) => isOver(item) && item.rank !== 3 && item.rank !== 7);
  expect(over.length).toBeGreaterThan(3);
  expect(order.due.slice(-over.length)).toEqual(over);
  expect(order.due.slice(0, 2).map(({ rank }) => rank)).toEqual([7, 3]);
  for (const item of order.rest.filter(isOver)) expect(order.worth?.get(item.key)).toBe(Number.NEGATIVE_INFINITY);
  expect(new Set([...order.due, ...order.rest])).toEqual(new Set([...plain.due, ...plain.rest]));
});
