/** How much a version rises, by SemVer: major = an answer changed or a thing went, minor = one came, patch = wording. */
export type Rise = 'none' | 'patch' | 'minor' | 'major';

/**
 * answer: another answer, so memory starts afresh. same-answer: another stamp that the author joined to the old one with
 * `keeps`. words: nothing that has a memory of its own. head: the deck's own data, sources, variants, crew, the day.
 */
export type DifferenceKind = 'answer' | 'same-answer' | 'added' | 'removed' | 'words' | 'head';

export interface Difference {
  readonly kind: DifferenceKind;
  /** JSON Pointer in the deck compared to, or in the one before it where `gone`. */
  readonly path: string;
  readonly gone: boolean;
  /** What it is about, for people: "Limit: Lowest height to engage the autopilot". '' for the deck itself. */
  readonly thing: string;
  /** What of it: "callout", "value", "title". '' where the whole thing came or went. */
  readonly what: string;
  /** In words; '' where there was nothing. */
  readonly old: string;
  readonly now: string;
  /** Variants that it concerns, in words; '' for all. */
  readonly variants: string;
  readonly rise: Exclude<Rise, 'none'>;
  /** Of a place that changed because another step came, went or moved: the words of that step. */
  readonly because?: string;
  /** Before or now its author calls it critical, or what it is in. */
  readonly critical?: true;
  /** Of an answer: what `keeps` must hold for its memory to go on. Absent where that cannot be said. */
  readonly keeps?: Keeps;
}

export interface Keeps {
  /** JSON Pointer of the step, limit or ask in the deck compared to. */
  readonly path: string;
  /** `facet~stamp` of the items before. */
  readonly stamps: readonly string[];
}

export interface Comparison {
  readonly differences: readonly Difference[];
  /** Items that stayed as they were, in at least one combination of variants. */
  readonly same: number;
  /** False where a deck has more combinations of variants than are compared: some were left out. */
  readonly whole: boolean;
}
