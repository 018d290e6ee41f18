import { foldText } from '../../lib/fold-text.ts';
import type { Id } from '../../model/deck.ts';
import { isFact } from '../../model/deck.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { bandOf } from '../../subjects/band.ts';
import type { Resolved, ResolvedCase, ResolvedLimit, View } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { numberGuess } from '../number-guess.ts';

/** s to read, answer and read the verdict: first estimates; pace is measured. */
const SECONDS = { choice: 9, number: 12, second: 5 };
/** More near misses than this help nobody. */
const MOST_ALIKE = 6;

export function limitOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Offer[] {
  const out: Offer[] = [];
  const seen = new Set<ItemKey>();
  for (const view of resolved.views) {
    const alike = alikeIn(view);
    for (const limit of view.limits) {
      for (const c of limit.cases) {
        if (seen.has(c.key) || !wants(wanted, [c.key])) continue;
        seen.add(c.key);
        const { g, seconds } = costOf(limit, c);
        out.push({
          form: 'limit',
          about: { thing: limit.limit.id, case: c.id },
          variant: view.id,
          proves: [c.key],
          g,
          seconds,
          ease: isFact(limit.limit) ? 0.6 : 0.3,
          confusable: alike(limit.limit.id),
          needs: 'read',
        });
      }
    }
  }
  return out;
}

export function costOf({ limit }: ResolvedLimit, c: ResolvedCase): { g: number; seconds: number } {
  if (isFact(limit)) {
    const n = Object.keys(limit.options).length;
    return { g: 1 / n, seconds: SECONDS.choice };
  }
  const right = c.value as readonly number[];
  return {
    g: numberGuess(right, bandOf(limit.accept)),
    seconds: SECONDS.number + (right.length - 1) * SECONDS.second,
  };
}

/** Limits of the same unit with a near value or much of the same words; facts with the same choices. */
function alikeIn(view: View): (id: Id) => readonly Id[] {
  const list = view.limits
    .filter((l) => l.cases.length > 0)
    .map(({ limit, cases }) => ({
      id: limit.id,
      kind: isFact(limit) ? Object.values(limit.options).map(foldText).sort().join('|') : limit.unit,
      fact: isFact(limit),
      words: new Set(
        foldText(limit.ask)
          .split(' ')
          .filter((w) => w.length > 3),
      ),
      values: cases.flatMap((c) => (typeof c.value === 'string' ? [] : c.value)),
    }));
  const byKind = new Map<string, typeof list>();
  for (const one of list) byKind.set(one.kind, [...(byKind.get(one.kind) ?? []), one]);
  const index = new Map(list.map((one) => [one.id, one]));
  return (id) => {
    const one = index.get(id);
    if (!one) return [];
    return (byKind.get(one.kind) ?? [])
      .filter((o) => o !== one)
      .map((o) => ({ id: o.id, near: one.fact ? 1 : nearness(one.words, o.words, one.values, o.values) }))
      .filter((o) => o.near >= 0.5)
      .sort((a, b) => b.near - a.near || (a.id < b.id ? -1 : 1))
      .slice(0, MOST_ALIKE)
      .map((o) => o.id);
  };
}

/** 0..1: shared words of the question (Jaccard), or how near the values are. */
function nearness(a: ReadonlySet<string>, b: ReadonlySet<string>, x: readonly number[], y: readonly number[]): number {
  let both = 0;
  for (const w of a) if (b.has(w)) both++;
  const words = both / Math.max(1, a.size + b.size - both);
  let values = 0;
  for (const p of x) {
    for (const q of y) values = Math.max(values, 1 - Math.abs(p - q) / Math.max(Math.abs(p), Math.abs(q), 1e-9));
  }
  // Half the words, or values within a quarter together with a quarter of the words.
  return Math.max(words, values >= 0.75 ? words + 0.25 : 0);
}
