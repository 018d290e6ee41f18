/** Letters kept by default: some hundred changes of a deck of 50 KB. */
const MOST_LETTERS = 8_000_000;

/**
 * A number for each text, so that keys made of long texts stay short. The texts themselves are kept, no hash of them:
 * two that are mistaken for each other would hide what is wrong with one. Those used longest ago go when they would
 * come to more than a bound in all; a number is never given again, so that a key made of one that went finds nothing.
 */
export class TextNumbers {
  readonly #most: number;
  /** The one used last stands last. */
  readonly #known = new Map<string, number>();
  #next = 0;
  #letters = 0;

  /** @param most letters (UTF-16 code units) kept in all; one longer text is kept by itself until the next */
  constructor(most = MOST_LETTERS) {
    this.#most = most;
  }

  /** Letters that are kept now. */
  get letters(): number {
    return this.#letters;
  }

  of(text: string): number {
    const known = this.#known.get(text);
    const number = known ?? this.#next++;
    if (known === undefined) this.#letters += text.length;
    else this.#known.delete(text);
    this.#known.set(text, number);
    for (const [old] of this.#known) {
      if (this.#letters <= this.#most || this.#known.size === 1) break;
      this.#known.delete(old);
      this.#letters -= old.length;
    }
    return number;
  }
}
