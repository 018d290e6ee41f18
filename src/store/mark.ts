/**
 * That there was data, remembered outside the database: how many entries, as last known. Without it a browser that lost
 * the database would look like a new one.
 */
const KEY = 'recency.had-data';

/** @returns null when nothing was ever kept, or the browser forbids to look */
export const readMark = (): number | null => {
  try {
    const text = localStorage.getItem(KEY);
    return text === null ? null : Number(text) || 0;
  } catch {
    return null;
  }
};

export const writeMark = (entries: number): void => {
  try {
    localStorage.setItem(KEY, String(entries));
  } catch {
    // Forbidden or full: one safeguard less, no reason to stop.
  }
};
