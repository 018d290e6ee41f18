const QUOTE = 0x22;
const PLAIN_ID = /^[a-z0-9]+\.[0-9]+(\/m[0-9]+)?$/;

/**
 * Id of a line that this app wrote (canonical JSON), without parsing it; null for one that took a longer id in a
 * clash, and for lines that are not read so easily: those are parsed.
 */
export const plainIdOf = (line: string): string | null => {
  // A backslash might hide where a text ends.
  if (line.includes('\\')) return null;
  let levels = 0;
  let i = 0;
  while (i < line.length) {
    const code = line.charCodeAt(i);
    if (code !== QUOTE) {
      // [ and {, ] and }.
      if (code === 0x5b || code === 0x7b) levels += 1;
      else if (code === 0x5d || code === 0x7d) levels -= 1;
      i += 1;
      continue;
    }
    const end = line.indexOf('"', i + 1);
    if (end < 0) return null;
    // A member of the entry itself: of what it holds there may be ids too, and a text may say so.
    if (levels === 1 && line.startsWith('"id":"', i)) {
      const from = i + 6;
      const id = line.slice(from, line.indexOf('"', from));
      return PLAIN_ID.test(id) ? id : null;
    }
    i = end + 1;
  }
  return null;
};
