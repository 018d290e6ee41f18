import type { ItemKey } from '../model/item.ts';
import { itemOf, type KnownDecks, type KnownItem } from './known.ts';
import { keysOf, verdictsOf } from './packed.ts';
import type { Packed, PackedDeck } from './types.ts';

export interface WeakItem {
  readonly key: ItemKey;
  readonly deck: string;
  readonly label: string;
  readonly critical: boolean;
  /** Of a rule what it gives, and when: its label has no more than its number. */
  readonly rule: string | null;
  /** Mean over those whom it was asked. */
  readonly recall: number;
  /** Whom it was asked. */
  readonly trainees: number;
  /** Of these, below its target. */
  readonly short: number;
}

export interface NeverAsked {
  readonly items: number;
  /** Of these. */
  readonly critical: number;
}

/** A trainee's answers that were wrong though they were sure. */
export interface SureWrongItem {
  readonly key: ItemKey;
  readonly label: string;
  readonly critical: boolean;
  readonly times: number;
  /** So often it was answered in all. */
  readonly answered: number;
}

/** So many weakest items are told. */
const MOST_WEAK = 12;

/** Columns of the class: of each item what it is, and over all trainees whom it was asked what comes of it. */
export interface WeakInput {
  readonly keys: readonly ItemKey[];
  readonly known: readonly KnownItem[];
  readonly deckOf: readonly string[];
  readonly sum: ArrayLike<number>;
  readonly met: ArrayLike<number>;
  readonly short: ArrayLike<number>;
}

/** Of what was asked of one trainee at least; what nobody was asked yet is counted apart, or it would be all that is named. */
export const weakestOf = ({ keys, known, deckOf, sum, met, short }: WeakInput) => {
  const mean = (i: number): number => (sum[i] as number) / (met[i] as number);
  const item = (i: number): KnownItem => known[i] as KnownItem;
  const all = [...keys.keys()];
  const unasked = all.filter((i) => met[i] === 0);
  const weakest = all
    .filter((i) => (met[i] as number) > 0 && (short[i] as number) > 0)
    .sort(
      (a, b) => mean(a) - mean(b) || Number(item(b).critical) - Number(item(a).critical) || item(a).rank - item(b).rank,
    )
    .slice(0, MOST_WEAK)
    .map((i): WeakItem => {
      const { label, critical, facet, right } = item(i);
      return {
        key: keys[i] as ItemKey,
        deck: deckOf[i] as string,
        label,
        critical,
        rule: facet === 'rule' ? right : null,
        recall: mean(i),
        trainees: met[i] as number,
        short: short[i] as number,
      };
    });
  const neverAsked: NeverAsked = {
    items: unasked.length,
    critical: unasked.filter((i) => item(i).critical).length,
  };
  return { weakest, neverAsked };
};

/** Missed at least once, and at no time answered right; false also where the trainee left the counts out. */
export const isNeverRight = (deck: Pick<PackedDeck, 'verdicts'>, item: number): boolean => {
  const [missed = 0, ...right] = verdictsOf(deck, item);
  return missed > 0 && right.every((times) => times === 0);
};

/** Most often first, of equal ones critical ones first; empty also where the trainee left it out. */
export const sureWrongOf = ({ decks: reported }: Pick<Packed, 'decks'>, decks: KnownDecks): SureWrongItem[] =>
  reported
    .flatMap((deck) => {
      const known = decks.get(deck.id);
      return keysOf(deck).flatMap((key, i): SureWrongItem[] => {
        const times = deck.sureWrong[i] as number;
        if (times <= 0) return [];
        const { label, critical } = itemOf(known, key);
        const answered = verdictsOf(deck, i).reduce((a, b) => a + b, 0);
        return [{ key, label, critical, times, answered }];
      });
    })
    .sort((a, b) => b.times - a.times || Number(b.critical) - Number(a.critical));
