import { chromium } from 'playwright-core';
import type { TestProject } from 'vitest/node';
import { builtDist } from '../../scripts/lib/dist.mjs';
import { serve } from '../../scripts/serve.mjs';
import { chromiumOptions } from './chromium.ts';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, ending in `/`. */
    baseUrl: string;
    /** The folder of that build. */
    dist: string;
    /** Where the Chromium listens that all tests share. */
    browser: string;
  }
}

/**
 * Builds the app once for all browser tests (or takes RECENCY_DIST, which `npm test` has built) and serves it; starts
 * the Chromium that they share.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const dist = process.env.RECENCY_DIST ?? (await builtDist());
  const [server, browser] = await Promise.all([
    serve({ dir: dist }),
    chromium.launchServer({ ...chromiumOptions, host: '127.0.0.1' }),
  ]);
  project.provide('baseUrl', server.url);
  project.provide('dist', dist);
  project.provide('browser', browser.wsEndpoint());
  return async () => {
    await browser.close();
    await server.close();
  };
}
