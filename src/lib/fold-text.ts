/**
 * What counts of words that must be recalled: NFC, lower case, every run of spaces and punctuation one space.
 * Letters and digits of any script, and `{}` places, stay.
 */
export function foldText(text: string): string {
  const before = known.get(text);
  if (before !== undefined) return before;
  const folded = text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}{}]+/gu, ' ')
    .trim();
  if (known.size >= KNOWN) known.clear();
  known.set(text, folded);
  return folded;
}

/** The same steps are folded again in every variant and situation. */
const known = new Map<string, string>();
const KNOWN = 2000;
