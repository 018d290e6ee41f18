import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { build } from 'vite';
import { serve } from '../../../scripts/serve.mjs';

export interface GalleryServer {
  readonly url: string;
  close(): Promise<void>;
}

/** A page of tests alone (the forms, or that of another folder), built as the app is and served under the same policy. */
export const galleryServer = async (root = import.meta.dirname): Promise<GalleryServer> => {
  const dir = mkdtempSync(join(tmpdir(), 'recency-gallery-'));
  await build({
    configFile: false,
    root,
    base: './',
    logLevel: 'warn',
    oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
    build: {
      outDir: dir,
      emptyOutDir: true,
      target: 'es2022',
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
    },
  });
  const server = await serve({ dir });
  return {
    url: server.url,
    close: async () => {
      await server.close();
      rmSync(dir, { recursive: true, force: true });
    },
  };
};
