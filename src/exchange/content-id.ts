import { canonicalJson, type Json } from '../lib/canonical-json.ts';

/**
 * SHA-256 of the canonical JSON (RFC 8785) of a deck, 64 hex: the same for every layout of the same content.
 * @param deck the file's text, or what it says
 * @throws SyntaxError where the text is no JSON
 */
export const contentId = async (deck: string | object): Promise<string> => {
  const value = (typeof deck === 'string' ? JSON.parse(deck) : deck) as Json;
  const bytes = new TextEncoder().encode(canonicalJson(value));
  const hash = await crypto.subtle.digest('SHA-256', bytes);
  return [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
};
