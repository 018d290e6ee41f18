import type { StoreFault, StoreProblem } from '../model/ports.ts';

const WORDS: Readonly<Record<StoreFault, string>> = {
  full: 'This device has no room left to keep this. Free some space (photos, other apps), then try again; until then it is on this page only.',
  closed:
    'The browser closed the store of your data and did not open it again. Try again; if that fails, reload the page.',
  newer: 'A newer version of the app is open in another tab and has taken over the stored data. Reload this page.',
  'other-tab': 'The app is in use in another tab or window. Choose "Continue here" to go on in this one.',
  missing:
    'This browser does not let the app keep anything, perhaps because the window is private. Open it in a normal window to keep your answers.',
  unknown: 'Your browser could not store this. Try again; if that fails, save a copy of your data and reload the page.',
};

class Problem extends Error implements StoreProblem {
  override readonly name = 'StoreProblem';
  readonly fault: StoreFault;
  constructor(fault: StoreFault, cause?: unknown) {
    super(WORDS[fault], { cause });
    this.fault = fault;
  }
}

/** An error in words for the learner. */
export const problem = (fault: StoreFault, cause?: unknown): StoreProblem => new Problem(fault, cause);

const nameOf = (error: unknown): string =>
  typeof error === 'object' && error !== null && 'name' in error ? String(error.name) : '';

/**
 * Whether a write may be tried again on a new connection. InvalidStateError: the connection is closed. AbortError: the
 * transaction went down with it (one aborted for want of room has QuotaExceededError). UnknownError: the disk.
 */
export const isConnectionLoss = (error: unknown): boolean =>
  ['InvalidStateError', 'AbortError', 'UnknownError', 'TransactionInactiveError'].includes(nameOf(error));

const FAULTS: Readonly<Record<string, StoreFault>> = {
  QuotaExceededError: 'full',
  InvalidStateError: 'closed',
  AbortError: 'closed',
  VersionError: 'newer',
  SecurityError: 'missing',
};

/** Whatever a browser throws, as one of ours. */
export const asProblem = (error: unknown): StoreProblem =>
  error instanceof Problem ? error : problem(FAULTS[nameOf(error)] ?? 'unknown', error);
