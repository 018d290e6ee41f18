/**
 * What counts of words that must be recalled: NFC, lower case, every run of spaces and punctuation one space.
 * Letters and digits of any script, and `{}` places, stay.
 */
export function foldText(text: string): string {
  return text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}{}]+/gu, ' ')
    .trim();
}
