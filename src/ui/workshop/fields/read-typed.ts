/**
 * A number as authors write it into a form: one decimal mark, point or comma; minus as "-" or U+2212. A comma before
 * exactly three digits is none: ten thousand for one, ten for another.
 * @returns null where it is no number
 */
export const readTyped = (text: string): number | null => {
  const plain = text.trim().replace(/^[−–]/, '-');
  if (!/^[-+]?(\d+([.,]\d+)?|[.,]\d+)$/.test(plain) || /^[-+]?[1-9]\d{0,2},\d{3}$/.test(plain)) return null;
  const value = Number(plain.replace(',', '.'));
  return value === 0 ? 0 : value;
};

/** Why there is no number, and what to write. */
export const notRead = (text: string): string =>
  /^[-+−–]?\d+,\d{3}$/.test(text.trim())
    ? `“${text.trim()}” could be thousands or a fraction: write it without the comma, or with a point.`
    : `“${text.trim()}” is no number. It stays here until you change it.`;
