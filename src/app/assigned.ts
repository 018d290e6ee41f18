/**
 * How the app asks open.html, the one page that may fetch from elsewhere, for the decks of an assignment, and what comes
 * back: through the tab's own session storage. What is there was put by the app itself once a person agreed to it.
 */
import type { FetchAsk, Fetched } from '../ui/device.ts';

const ASK = 'recency.assigned.ask';
const FETCHED = 'recency.assigned.fetched';

/** What was put under a key, once; null where it is none, or unreadable. */
const take = (storage: Storage, key: string): Readonly<Record<string, unknown>> | null => {
  const stored = storage.getItem(key);
  storage.removeItem(key);
  try {
    const value: unknown = JSON.parse(stored ?? 'null');
    return typeof value === 'object' && value !== null ? (value as Record<string, unknown>) : null;
  } catch {
    return null;
  }
};

const isChoices = (value: unknown): value is Readonly<Record<string, boolean>> =>
  typeof value === 'object' && value !== null && Object.values(value).every((one) => typeof one === 'boolean');

/** @throws where the browser has no room or forbids storage */
export const putAsk = (storage: Storage, ask: FetchAsk): void => storage.setItem(ASK, JSON.stringify(ask));

export const takeAsk = (storage: Storage): FetchAsk | null => {
  const { text, addresses, choices } = take(storage, ASK) ?? {};
  const whole =
    typeof text === 'string' &&
    Array.isArray(addresses) &&
    addresses.every((one) => typeof one === 'string') &&
    isChoices(choices);
  return whole ? { text, addresses, choices } : null;
};

/** @throws as `putAsk` */
export const putFetched = (storage: Storage, text: string, fetched: Fetched): void =>
  storage.setItem(FETCHED, JSON.stringify({ text, ...fetched }));

const isGot = (value: unknown): boolean => {
  if (typeof value !== 'object' || value === null) return false;
  const { text, why } = value as { readonly text?: unknown; readonly why?: unknown };
  return typeof text === 'string' || typeof why === 'string';
};

/** @param text of the assignment for which it must have been fetched */
export const takeFetched = (storage: Storage, text: string): Fetched | null => {
  const { text: of, choices, decks } = take(storage, FETCHED) ?? {};
  if (of !== text || !isChoices(choices) || typeof decks !== 'object' || decks === null) return null;
  return Object.values(decks).every(isGot) ? { choices, decks: decks as Fetched['decks'] } : null;
};
