/** How open.html hands a fetched deck to the app: through the tab's own session storage, then `./?go=incoming`. */
export interface Incoming {
  /** Address from which the text came, after redirects. */
  readonly from: string;
  /** The deck file as it was sent; untrusted. */
  readonly text: string;
}

const KEY = 'recency.incoming';

/** @throws When the browser has no room or forbids storage. */
export const putIncoming = (storage: Storage, incoming: Incoming): void =>
  storage.setItem(KEY, JSON.stringify(incoming));

/** What was handed over, once: it is removed as it is read. Null when there is nothing, or nothing readable. */
export const takeIncoming = (storage: Storage): Incoming | null => {
  const stored = storage.getItem(KEY);
  storage.removeItem(KEY);
  if (stored === null) return null;
  try {
    const { from, text } = JSON.parse(stored) as Partial<Incoming>;
    return typeof from === 'string' && typeof text === 'string' ? { from, text } : null;
  } catch {
    return null;
  }
};
