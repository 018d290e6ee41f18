import { defineConfig } from 'vitest/config';

/** Two projects: `fast` needs no browser; `browser` drives a real Chromium against the built app. */
export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'fast',
          include: ['tests/{unit,property,golden,fixed,arch}/**/*.test.{ts,tsx}'],
          environment: 'node',
          sequence: { groupOrder: 0 },
          // Nearly all is pure: one process takes file after file, and what they share is read once.
          isolate: false,
          maxWorkers: 2,
          // A check of a deck takes its time where other things run.
          testTimeout: 30_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/helpers/browser-setup.ts'],
          // After the fast ones, so that the browsers have the machine to themselves.
          sequence: { groupOrder: 1 },
          isolate: false,
          maxWorkers: 2,
          // A loaded machine takes its time; nothing waits longer than it must.
          expect: { poll: { timeout: 20_000 } },
          testTimeout: 120_000,
          hookTimeout: 120_000,
        },
      },
    ],
  },
});
