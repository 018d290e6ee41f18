export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json | undefined };

/**
 * RFC 8785 (JSON Canonicalization Scheme): members sorted by UTF-16 code units, ECMAScript number and
 * string forms, no white space. Members that are undefined are left out, as JSON.stringify does.
 * @throws RangeError for NaN and infinities, which JSON cannot say
 */
export function canonicalJson(value: Json): string {
  if (value === null || typeof value === 'boolean' || typeof value === 'string') return JSON.stringify(value);
  if (typeof value === 'number') {
    if (!Number.isFinite(value)) throw new RangeError(`${value} has no canonical JSON`);
    return JSON.stringify(value);
  }
  if (Array.isArray(value)) return `[${value.map((x) => canonicalJson(x as Json)).join(',')}]`;
  const members = value as { readonly [key: string]: Json | undefined };
  const keys = Object.keys(members)
    .filter((k) => members[k] !== undefined)
    .sort((a, b) => (a < b ? -1 : a > b ? 1 : 0));
  return `{${keys.map((k) => `${JSON.stringify(k)}:${canonicalJson(members[k] as Json)}`).join(',')}}`;
}

/**
 * Is this text the canonical JSON of what it says? Several times as fast as writing it once more.
 * @param value what the text was parsed to
 */
export const isCanonical = (text: string, value: Json): boolean => JSON.stringify(value) === text && isSorted(value);

const isSorted = (value: Json | undefined): boolean => {
  if (typeof value !== 'object' || value === null) return true;
  if (Array.isArray(value)) return value.every(isSorted);
  const members = value as { readonly [key: string]: Json | undefined };
  let before = '';
  for (const key of Object.keys(members)) {
    if (key < before || !isSorted(members[key])) return false;
    before = key;
  }
  return true;
};
