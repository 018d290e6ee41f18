/** Answers that pace is taken from, at least and at most. */
export const LEAST = 8;
const MOST = 50;

/**
 * The learner's last answers of one form and row count. Kept sorted besides, so that a fold of a long log sorts
 * nothing: a median is read off, and the deviations from it are met in rising order from the middle outwards.
 */
export class Pace {
  /** ln ms of up to 50 answers, oldest first. */
  readonly last: readonly number[];
  readonly #last: number[];
  readonly #sorted: number[];

  constructor(last: readonly number[] = []) {
    this.#last = last.slice(-MOST);
    this.last = this.#last;
    this.#sorted = [...this.#last].sort((a, b) => a - b);
  }

  /** @param ms > 0 */
  add(ms: number): void {
    const ln = Math.log(ms);
    if (this.#last.length >= MOST) this.#sorted.splice(this.#placeOf(this.#last.shift() as number), 1);
    this.#last.push(ln);
    this.#sorted.splice(this.#placeOf(ln), 0, ln);
  }

  /** Median of ln ms; null before the first answer. */
  get middle(): number | null {
    return this.#last.length === 0 ? null : this.#median();
  }

  /**
   * ln ms below the median less 1.48 median absolute deviations (1.4826 MAD estimates a normal's standard deviation;
   * Rousseeuw & Croux 1993); false before eight answers.
   */
  isQuick(ms: number): boolean {
    if (this.#last.length < LEAST || !(ms > 0)) return false;
    const middle = this.#median();
    return Math.log(ms) < middle - 1.48 * this.#deviation(middle);
  }

  #median(): number {
    const half = this.#sorted.length >> 1;
    const high = this.#sorted[half] as number;
    return this.#sorted.length % 2 === 1 ? high : ((this.#sorted[half - 1] as number) + high) / 2;
  }

  /** Median of the distances to the middle. */
  #deviation(middle: number): number {
    const sorted = this.#sorted;
    const n = sorted.length;
    let above = this.#placeOf(middle);
    let below = above - 1;
    let before = 0;
    for (let met = 0; ; met++) {
      const down = below < 0 ? Number.POSITIVE_INFINITY : middle - (sorted[below] as number);
      const up = above >= n ? Number.POSITIVE_INFINITY : (sorted[above] as number) - middle;
      const next = Math.min(down, up);
      if (met === n >> 1) return n % 2 === 1 ? next : (before + next) / 2;
      if (down <= up) below -= 1;
      else above += 1;
      before = next;
    }
  }

  /** Of the first that is not less. */
  #placeOf(value: number): number {
    let from = 0;
    let to = this.#sorted.length;
    while (from < to) {
      const mid = (from + to) >> 1;
      if ((this.#sorted[mid] as number) < value) from = mid + 1;
      else to = mid;
    }
    return from;
  }
}
