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

export function* limitOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<ItemKey>();
  for (const view of resolved.views) {
    const alike = alikeIn(view);
    for (const limit of view.limits) {
      for (const c of limit.cases) {
        if (seen.has(c.key) || !wants(wanted, [c.key])) continue;
        seen.add(c.key);
        const { g, seconds, rows } = costOf(limit, c);
        yield {
          form: 'limit',
          about: { thing: limit.limit.id, case: c.id },
          variant: view.id,
          proves: [c.key],
          g,
          seconds,
          rows,
          ease: isFact(limit.limit) ? 0.65 : 0.45,
          confusable: alike(limit.limit.id),
          needs: 'read',
        };
      }
      yield null;
    }
  }
}

export function costOf({ limit }: ResolvedLimit, c: ResolvedCase): { g: number; seconds: number; rows: number } {
  if (isFact(limit)) {
    const n = Object.keys(limit.options).length;
    return { g: 1 / n, seconds: SECONDS.choice, rows: n };
  }
  const right = c.value as readonly number[];
  return {
    g: numberGuess(right, bandOf(limit.accept)),
    seconds: SECONDS.number + (right.length - 1) * SECONDS.second,
    rows: right.length,
  };
}

interface Kin {
  readonly id: Id;
  /** The words of the question that tell something. */
  readonly words: readonly string[];
  /** null for a fact. */
  readonly values: readonly number[] | null;
}

/** Limits of the same unit with much of the same words, or some of them and a near value; facts with the same choices. */
function alikeIn(view: View): (id: Id) => readonly Id[] {
  const byKind = new Map<string, Kin[]>();
  const kindOf = new Map<Id, string>();
  for (const { limit, cases } of view.limits) {
    if (cases.length === 0) continue;
    const kind = isFact(limit) ? Object.values(limit.options).map(foldText).sort().join('|') : limit.unit;
    const list = byKind.get(kind) ?? [];
    byKind.set(kind, list);
    kindOf.set(limit.id, kind);
    const words = foldText(limit.ask).split(' ');
    list.push({
      id: limit.id,
      words: [...new Set(words.filter((w) => w.length > 3))],
      values: isFact(limit) ? null : cases.flatMap((c) => c.value as readonly number[]),
    });
  }
  const found = new Map<string, ReadonlyMap<Id, readonly Id[]>>();
  return (id) => {
    const kind = kindOf.get(id);
    if (kind === undefined) return [];
    const alike = found.get(kind) ?? alikeAmong(byKind.get(kind) ?? []);
    found.set(kind, alike);
    return alike.get(id) ?? [];
  };
}

function alikeAmong(list: readonly Kin[]): Map<Id, readonly Id[]> {
  const holders = new Map<string, number[]>();
  list.forEach(({ words }, i) => {
    for (const w of words) {
      const held = holders.get(w);
      if (held) held.push(i);
      else holders.set(w, [i]);
    }
  });
  return new Map(
    list.map((one, i) => {
      const shared = new Int32Array(list.length);
      for (const w of one.words) for (const j of holders.get(w) ?? []) shared[j] = (shared[j] as number) + 1;
      const near: { id: Id; near: number }[] = [];
      list.forEach((other, j) => {
        const rate = j === i ? 0 : nearness(one, other, shared[j] as number);
        if (rate >= 0.5) near.push({ id: other.id, near: rate });
      });
      near.sort((a, b) => b.near - a.near || (a.id < b.id ? -1 : 1));
      return [one.id, near.slice(0, MOST_ALIKE).map((o) => o.id)];
    }),
  );
}

/** 0..1: shared words of the question (Jaccard), more where a value is near too. */
function nearness(a: Kin, b: Kin, shared: number): number {
  if (a.values === null || b.values === null) return 1;
  const words = shared / Math.max(1, a.words.length + b.words.length - shared);
  // Half the words, or values within a quarter together with a quarter of the words.
  if (words >= 0.75 || words < 0.25) return words;
  for (const x of a.values) {
    for (const y of b.values) {
      if (Math.abs(x - y) <= 0.25 * Math.max(Math.abs(x), Math.abs(y), 1e-9)) return words + 0.25;
    }
  }
  return words;
}
