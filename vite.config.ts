import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';
import { devPolicy, headersFor } from './scripts/headers.mjs';
import { decks } from './scripts/vite-decks.ts';
import { precache } from './scripts/vite-precache.ts';

const { version } = JSON.parse(readFileSync(new URL('package.json', import.meta.url), 'utf8')) as { version: string };
/** RECENCY_BUILD tells two builds of one version apart: the tests of the update need a second one. */
const label = process.env.RECENCY_BUILD === undefined ? version : `${version}+${process.env.RECENCY_BUILD}`;

/** UTC ms of the commit, so that the same commit builds the same files; of the build itself outside a repository. */
const builtAt = (): number => {
  if (process.env.SOURCE_DATE_EPOCH !== undefined) return Number(process.env.SOURCE_DATE_EPOCH) * 1000;
  try {
    const stdio: ['ignore', 'pipe', 'ignore'] = ['ignore', 'pipe', 'ignore'];
    return Number(execFileSync('git', ['log', '-1', '--format=%ct'], { encoding: 'utf8', stdio })) * 1000;
  } catch {
    return Date.now();
  }
};

/** The version in the page itself, so that it can be read before any script runs. */
const versionTag: Plugin = {
  name: 'recency-version',
  transformIndexHtml: () => [{ tag: 'meta', attrs: { name: 'version', content: label }, injectTo: 'head' }],
};

const devHeaders: Plugin = {
  name: 'recency-dev-headers',
  apply: 'serve',
  configureServer(server) {
    server.middlewares.use((request, response, next) => {
      const headers = headersFor(new URL(request.url ?? '/', 'http://localhost').pathname);
      const { 'Content-Security-Policy': served = '', 'Cache-Control': _, ...others } = headers;
      for (const [name, value] of Object.entries(others)) response.setHeader(name, value);
      response.setHeader('Content-Security-Policy', devPolicy(served));
      next();
    });
  },
};

type Info = { readonly isEntry: boolean; readonly importers: readonly string[] } | null;

/** Pages whose scripts wait for a module: those from which static imports lead to it. */
const pagesOf = (id: string, infoOf: (id: string) => Info): Set<string> => {
  const pages = new Set<string>();
  const seen = new Set([id]);
  for (const one of seen) {
    const info = infoOf(one);
    if (info?.isEntry) pages.add(one);
    for (const importer of info?.importers ?? []) seen.add(importer);
  }
  return pages;
};

const startGroup = (id: string, infoOf: (id: string) => Info): string | null => {
  const pages = [...pagesOf(id, infoOf)];
  // The page of linked decks must not load the app.
  return pages.length > 0 && pages.every((page) => page.endsWith('index.html')) ? 'start' : null;
};

export default defineConfig({
  // Relative, so that the app can be hosted in any folder.
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es' },
  define: { __VERSION__: JSON.stringify(label), __BUILT_AT__: JSON.stringify(builtAt()) },
  build: {
    target: 'es2022',
    // The policy allows no data: address.
    assetsInlineLimit: 0,
    // What a part needs is found by the worker that keeps it, or loaded a moment later: lists of it would only weigh.
    modulePreload: { polyfill: false, resolveDependencies: () => [] },
    rollupOptions: {
      input: ['index.html', 'open.html'],
      // What the first screen waits for is one file: many small ones pack worse, and whatever else came to share a
      // module with a later part would split it further.
      output: {
        // The service worker holds a list of all names: short hashes alone keep it short. In letters and digits, since
        // several hosts serve no file whose name begins with an underscore.
        hashCharacters: 'base36',
        chunkFileNames: 'assets/[hash:7].js',
        assetFileNames: 'assets/[hash:7][extname]',
        codeSplitting: {
          includeDependenciesRecursively: false,
          groups: [
            { debugName: 'start', name: (id, graph) => startGroup(id, (one) => graph.getModuleInfo(one)) },
            // One file each: apart they pack worse, and each is one more name for the worker to keep.
            { name: 'stored', test: /src\/store\/(copies|merge|recover|bulk|through|seal|tidy|readable)\./ },
            { name: 'ahead', test: /src\/memory\/(plan|fit|forecast)/ },
            { name: 'walked', test: /src\/ui\/parts\/(Walk|Panel|ProcedureLine|ProcedureMap|Guess)/ },
            { name: 'copies', test: /src\/ui\/(models\/(copies|said-elsewhere)|parts\/CopyIn)\./ },
            { name: 'ways', test: /src\/ui\/(forms\/(?!paced|registry|given|contract)|pictures\/)/ },
          ],
        },
      },
    },
  },
  plugins: [
    versionTag,
    devHeaders,
    decks('decks'),
    precache({
      worker: 'src/sw/sw.ts',
      // A first visit that ends at once must still be able to install a deck offline.
      alsoFirst: [/install/i, /(Screens|device-later)\.tsx?$/],
      apart:
        /^src\/(ui\/(workshop|class)\/|ui\/assign\/Assign\.|class\/|app\/class-door|draft\/|workers\/workshop|exchange\/rows)/,
    }),
  ],
});
