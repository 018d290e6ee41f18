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
          // Two browsers on two cores: a screen may need a moment.
          expect: { poll: { timeout: 8000 } },
          testTimeout: 60_000,
          hookTimeout: 60_000,
          fileParallelism: true,
          maxWorkers: 2,
        },
      },
    ],
  },
});
