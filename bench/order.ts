import { seeded } from '../src/lib/random.ts';
import { dayOrder } from '../src/memory/day-order.ts';
import { emptyMemory } from '../src/memory/step.ts';
import type { Item } from '../src/model/item.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string;
}

const DAY = 20_000;

/** Items of one deck, a tenth of them never met, the others as after some weeks. */
function world(count: number): { readonly items: Item[]; readonly memory: ReturnType<typeof emptyMemory> } {
  const random = seeded(count);
  const memory = emptyMemory();
  const items = Array.from({ length: count }, (_, rank): Item => {
    const key = `bench/deck#thing-${rank}.value.standard~0`;
    if (random() >= 0.1) {
      const ago = 1 + Math.floor(random() * 30);
      memory.items.set(key, {
        s: 0.3 + random() * 40,
        d: 1 + random() * 9,
        day: DAY - ago,
        at: (DAY - ago) * 86_400_000,
        n: 3,
        rightDays: 2,
        lastRightDay: DAY - ago,
        first: DAY - 40,
        verdict: random() < 0.1 ? 'missed' : 'sound',
        alert: null,
      });
    }
    return {
      key,
      deck: 'bench/deck',
      thing: `thing-${rank}`,
      facet: 'value',
      group: `thing-${rank}`,
      groupKind: 'limit',
      critical: rank % 5 === 0,
      label: key,
      rank,
      views: [''],
    };
  });
  return { items, memory };
}

/** ms: middle of several runs after a warm-up. */
function milliseconds(runs: number, work: () => void): number {
  for (let i = 0; i < 3; i++) work();
  const took = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return took[took.length >> 1] as number;
}

/** The order of the day: what is due, what is new, what gains most by a check 12 days off. */
export function benchOrder(): Line[] {
  return [1_000, 10_000].map((count) => {
    const { items, memory } = world(count);
    return {
      name: `${count.toLocaleString('en-GB')} items`,
      value: milliseconds(15, () => void dayOrder(items, memory, DAY, DAY + 12)),
      unit: 'ms',
      // A question is chosen between two taps.
      goal: count === 1_000 ? '≤ 16 ms' : '≤ 160 ms',
    };
  });
}
