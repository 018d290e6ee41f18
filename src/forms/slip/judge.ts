/** What naming some lines comes to. */
export interface Judged {
  /** Fault by fault: was one of its lines named? */
  readonly found: readonly boolean[];
  /** Lines named at which nothing is wrong. */
  readonly accused: number;
  /**
   * Whoever names every line finds every fault: what was found counts while, the lines of one fault taken as one, no more
   * was named than there are faults, and one.
   */
  readonly counts: boolean;
}

/** @param faults lines of each, none of them in two */
export function judge<T>(named: ReadonlySet<T>, faults: readonly (readonly T[])[]): Judged {
  const found = faults.map((lines) => lines.some((line) => named.has(line)));
  const hits = faults.flat().filter((line) => named.has(line)).length;
  const accused = named.size - hits;
  const count = found.filter(Boolean).length;
  return { found, accused, counts: accused === 0 || count + accused <= faults.length + 1 };
}

/**
 * Chance of naming `many` of the lines blindly: share of the faults found that counts, and all found with nothing
 * accused. Every choice is counted: of 12 lines there are at most 924.
 * @param faults indices of the lines of each
 */
export function guessOf(
  lines: number,
  faults: readonly (readonly number[])[],
  many: number,
): { readonly share: number; readonly faultless: number } {
  let [all, found, faultless] = [0, 0, 0];
  const visit = (named: readonly number[], from: number): void => {
    if (named.length < many) {
      for (let line = from; line < lines; line++) visit([...named, line], line + 1);
      return;
    }
    const judged = judge(new Set(named), faults);
    const count = judged.found.filter(Boolean).length;
    all += 1;
    if (judged.counts) found += count / faults.length;
    if (judged.accused === 0 && count === faults.length) faultless += 1;
  };
  visit([], 0);
  return all === 0 || faults.length === 0
    ? { share: 0, faultless: 0 }
    : { share: found / all, faultless: faultless / all };
}
