/** A run of words that the other text has as well, or has not. */
export interface Run {
  readonly text: string;
  readonly changed: boolean;
}

/** Words beyond which two texts are not aligned: the work grows with the product. */
const MOST_WORDS = 400;

/**
 * Old and new with the words that differ marked: those outside a longest common subsequence of words (dynamic
 * programming, Wagner & Fischer 1974: from memory). The runs of each joined are the text itself.
 */
export function markedWords(old: string, now: string): { readonly old: readonly Run[]; readonly now: readonly Run[] } {
  const [a, b] = [wordsOf(old), wordsOf(now)];
  if (a.length > MOST_WORDS || b.length > MOST_WORDS) return { old: runs(a, () => true), now: runs(b, () => true) };
  const long = lengths(a, b);
  const kept: [Set<number>, Set<number>] = [new Set(), new Set()];
  for (let i = 0, k = 0; i < a.length && k < b.length; ) {
    if (same(a[i], b[k])) {
      kept[0].add(i++);
      kept[1].add(k++);
    } else if ((long[i + 1]?.[k] ?? 0) >= (long[i]?.[k + 1] ?? 0)) i++;
    else k++;
  }
  return { old: runs(a, (i) => !kept[0].has(i)), now: runs(b, (i) => !kept[1].has(i)) };
}

/** Each word with the white space behind it. */
const wordsOf = (text: string): string[] => text.match(/\s*\S+\s*?(?=\s|$)|\s+$/gu) ?? [];
const same = (a: string | undefined, b: string | undefined): boolean => a?.trim() === b?.trim();

/** lengths[i][k]: longest common subsequence of what follows word i of the one and word k of the other. */
function lengths(a: readonly string[], b: readonly string[]): number[][] {
  const out = Array.from({ length: a.length + 1 }, () => new Array<number>(b.length + 1).fill(0));
  for (let i = a.length - 1; i >= 0; i--)
    for (let k = b.length - 1; k >= 0; k--) {
      const [here, next] = [out[i] as number[], out[i + 1] as number[]];
      here[k] = same(a[i], b[k]) ? (next[k + 1] as number) + 1 : Math.max(next[k] as number, here[k + 1] as number);
    }
  return out;
}

function runs(words: readonly string[], isChanged: (i: number) => boolean): Run[] {
  const out: Run[] = [];
  words.forEach((text, i) => {
    const changed = isChanged(i);
    const last = out.at(-1);
    if (last?.changed === changed) out[out.length - 1] = { text: last.text + text, changed };
    else out.push({ text, changed });
  });
  return out;
}
