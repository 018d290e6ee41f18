import type { TestProject } from 'vitest/node';
import { builtDist } from '../../scripts/lib/dist.mjs';
import { serve } from '../../scripts/serve.mjs';

declare module 'vitest' {
  export interface ProvidedContext {
    /** Where the built app is served, ending in `/`. */
    baseUrl: string;
    /** The folder of that build. */
    dist: string;
  }
}

/** Builds the app once for all browser tests (or takes RECENCY_DIST, which `npm test` has built) and serves it. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const dist = process.env.RECENCY_DIST ?? (await builtDist());
  const server = await serve({ dir: dist });
  project.provide('baseUrl', server.url);
  project.provide('dist', dist);
  return server.close;
}
