import { readFileSync } from 'node:fs';
import { resolve } from '../src/deck/resolve.ts';
import { draw, offers } from '../src/forms/registry.ts';
import { seeded, shuffled } from '../src/lib/random.ts';
import type { Deck } from '../src/model/deck.ts';
import { fewestMoves, scoreOf } from '../src/subjects/procedure/moves.ts';
import { isOrder, partialOrder } from '../src/subjects/procedure/order.ts';
import type { PartialOrder } from '../src/subjects/resolved.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
}

/** µs a call; runs for a quarter of a second after a warm-up. */
function microseconds(work: (i: number) => void): number {
  for (let i = 0; i < 200; i++) work(i);
  const start = performance.now();
  let calls = 0;
  let spent = 0;
  while (spent < 250) {
    for (let i = 0; i < 20; i++) work(calls + i);
    calls += 20;
    spent = performance.now() - start;
  }
  return (1000 * spent) / calls;
}

function orderOf(n: number, pairs: [number, number][]): PartialOrder {
  const order = partialOrder(n, pairs);
  if (!isOrder(order)) throw new Error(`a cycle: ${order.cycle}`);
  return order;
}

/** In order, but every fourth group of three may be done in any order. */
function likeReal(n: number): PartialOrder {
  const level = [...Array(n).keys()].map((i) => (i % 12 >= 9 ? i - (i % 12) + 9 : i));
  const pairs: [number, number][] = [];
  for (let a = 0; a < n; a++) {
    for (let b = a + 1; b < n; b++) if (level[a] !== level[b]) pairs.push([a, b]);
  }
  return orderOf(n, pairs);
}

/** Marking of a sequence: score and fewest moves, of any arrangement and of a nearly right one. */
export function benchMarking(): Line[] {
  const out: Line[] = [];
  for (const n of [10, 20, 40]) {
    const order = likeReal(n);
    const random = seeded(n);
    const steps = [...Array(n).keys()];
    const any = Array.from({ length: 64 }, () => shuffled(random, steps));
    // Two steps of a right run put elsewhere: what learners do.
    const near = any.map((list) => {
      const [a, b] = list as [number, number];
      const rest = steps.filter((s) => s !== a && s !== b);
      rest.splice(list[2] as number, 0, a);
      rest.splice(list[3] as number, 0, b);
      return rest;
    });
    const time = (list: readonly (readonly number[])[]): number =>
      microseconds((i) => {
        const answer = list[i % list.length] as readonly number[];
        scoreOf(order, answer);
        fewestMoves(order, answer, (s) => s / n);
      });
    out.push({ name: `${n} steps, two of them moved`, value: time(near), unit: 'µs' });
    out.push({ name: `${n} steps in any order at all`, value: time(any), unit: 'µs' });
  }
  return out;
}

/** Scenario draws a second, every question of a deck in turn. */
export function benchDraws(): Line[] {
  const path = 'decks/wind-altimetry.deck.json';
  const deck = JSON.parse(readFileSync(path, 'utf8')) as Deck;
  const resolved = resolve(deck, '0'.repeat(64), {});
  const list = offers(resolved, null, 1).filter((o) => o.form === 'scenario');
  const each = microseconds((i) => {
    const offer = list[i % list.length];
    if (!offer || !draw(resolved, offer, i)) throw new Error(`${path}: nothing drawn for ${JSON.stringify(offer)}`);
  });
  return [{ name: `draws from ${path}`, value: 1e6 / each, unit: 'draws/s' }];
}
