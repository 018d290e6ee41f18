import { MOST_SIGNATURES } from '../../model/deck.ts';

/** Null where the text is no object, or its signatures no list. */
const partsOf = (text: string): { readonly value: object; readonly signatures: readonly unknown[] } | null => {
  try {
    const value = JSON.parse(text) as { readonly signatures?: unknown } | null;
    if (typeof value !== 'object' || value === null) return null;
    const { signatures = [] } = value;
    return Array.isArray(signatures) ? { value, signatures } : null;
  } catch {
    return null;
  }
};

/**
 * The text of a deck that takes the place of one with the same content: it keeps the signatures of that one, which still
 * hold, and adds its own after them, as many as a deck may have.
 * @returns `next` as it is where it has them all, or where one of the two cannot be read
 */
export const joined = (before: string, next: string): string => {
  const [old, own] = [partsOf(before), partsOf(next)];
  if (old === null || own === null || old.signatures.every((one) => own.signatures.includes(one))) return next;
  const signatures = [...new Set([...old.signatures, ...own.signatures])].slice(0, MOST_SIGNATURES);
  return JSON.stringify({ ...own.value, signatures }, null, 2);
};
