import { canonicalJson, type Json } from '../lib/canonical-json.ts';
import { utf8 } from './base64url.ts';

/**
 * What identifies a deck and what its signatures are over: its canonical JSON (RFC 8785) without its own member
 * `signatures`, since a signature cannot be over itself and changes nothing of what is asked.
 * @param deck the file's text, or what it says
 * @throws SyntaxError where the text is no JSON
 */
export const signedText = (deck: string | object): string => {
  const value = (typeof deck === 'string' ? JSON.parse(deck) : deck) as Json;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return canonicalJson(value);
  const { signatures: _, ...content } = value as { readonly [key: string]: Json | undefined };
  return canonicalJson(content);
};

/**
 * SHA-256 of `signedText`, 64 hex: the same for every layout of the same content, signed or not.
 * @param deck the file's text, or what it says
 * @throws SyntaxError where the text is no JSON
 */
export const contentId = async (deck: string | object): Promise<string> => {
  const hash = await crypto.subtle.digest('SHA-256', utf8(signedText(deck)));
  return [...new Uint8Array(hash)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
};
