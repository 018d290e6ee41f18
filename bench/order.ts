import { resolve } from '../src/deck/resolve.ts';
import { startSession } from '../src/drill/session.ts';
import { seeded } from '../src/lib/random.ts';
import { dayOrder } from '../src/memory/day-order.ts';
import { emptyMemory } from '../src/memory/step.ts';
import type { Deck } from '../src/model/deck.ts';
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
  for (let i = 0; i < 20; i++) work();
  const took = Array.from({ length: runs }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return took[took.length >> 1] as number;
}

/** A deck of that many limits, every other one due. */
function drill(count: number): () => unknown {
  const limits = Array.from({ length: count }, (_, i) => ({
    id: `thing-${i}`,
    ask: `What number has thing ${i}?`,
    unit: 'kt' as const,
    sense: 'exactly' as const,
    value: i,
  }));
  const deck: Deck = {
    format: 1,
    id: 'bench/deck',
    version: '1.0.0',
    title: 'Bench',
    language: 'en',
    nature: 'fictional',
    sources: [{ id: 'none', title: 'Invented', edition: '1', basis: 'invented' }],
    limits,
  };
  const resolved = resolve(deck, 'a'.repeat(64), {});
  const { memory } = world(count);
  const known = [...memory.items.values()];
  memory.items.clear();
  for (const [i, key] of [...resolved.items.keys()].entries()) {
    const one = known[i % known.length];
    if (one !== undefined) memory.items.set(key, i % 2 === 0 ? { ...one, s: 0.5 } : { ...one, s: 200 });
  }
  const start = { id: 'd', course: 'fictional', started: 0, seconds: 600, seed: 1 };
  return () => startSession(start, { decks: [resolved], memory, day: DAY, checkDay: DAY + 12 });
}

/**
 * The order of the day (what is due, what is new, what gains most by a check 12 days off), and the choice of a question
 * from it. Goals: what the design's measured plan takes for its daily order.
 */
export function benchOrder(): Line[] {
  const goals = new Map([
    [1_000, '≤ 12 ms'],
    [10_000, '≤ 116 ms'],
  ]);
  return [...goals].flatMap(([count, goal]) => {
    const { items, memory } = world(count);
    const named = `${count.toLocaleString('en-GB')} items`;
    const unit = 'ms';
    const order = milliseconds(15, () => void dayOrder(items, memory, DAY, DAY + 12));
    const choose = drill(count);
    return [
      { name: `${named}, in order`, value: order, unit, goal },
      { name: `${named}, next question chosen`, value: milliseconds(7, () => void choose()), unit },
    ];
  });
}
