import { defineConfig } from 'vitest/config';

/** Learners are simulated and plans solved by the dozen. */
const SIMULATED = [
  'tests/unit/memory/{plan,simulate,fit}/**/*.test.ts',
  'tests/unit/cli/simulate.test.ts',
  'tests/unit/workers/plan.test.ts',
];

/**
 * Three projects, one after the other: `fast`; `property`, which searches at random for what breaks a rule and plays
 * simulated learners; `browser`, which drives a real Chromium against the built app.
 */
export default defineConfig({
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  test: {
    projects: [
      {
        extends: true,
        test: {
          name: 'fast',
          include: ['tests/{unit,golden,fixed,arch}/**/*.test.{ts,tsx}'],
          exclude: SIMULATED,
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
          name: 'property',
          include: ['tests/property/**/*.test.ts', ...SIMULATED],
          environment: 'node',
          sequence: { groupOrder: 1 },
          isolate: false,
          maxWorkers: 2,
          testTimeout: 60_000,
        },
      },
      {
        extends: true,
        test: {
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          environment: 'node',
          globalSetup: ['tests/helpers/browser-setup.ts'],
          // Last, so that the browsers have the machine to themselves.
          sequence: { groupOrder: 2 },
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
