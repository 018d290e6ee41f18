import type { Shares } from './types.ts';

/** s that reading something new takes: first estimate. */
export const READING = 12;

/** First estimates, until answers tell. */
export const SHARES: Shares = {
  right: { unsure: 0.15, sound: 0.85 },
  first: { missed: 0.2, unsure: 0.2, sound: 0.6 },
};
