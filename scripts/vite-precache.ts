import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { type OutputBundle, type OutputChunk, rolldown } from 'rolldown';
import type { Plugin } from 'vite';
import { headersFile, headersFor } from './headers.mjs';

/** A file to be kept: `revision` is null where the name itself carries a hash. */
export interface Entry {
  readonly url: string;
  readonly revision: string | null;
}

/** What dist/build.json says; scripts/size.mjs and the tests read it. File names relative to dist. */
export interface BuildReport {
  /** JavaScript that a learner's first screen waits for. */
  readonly start: readonly string[];
  /** Kept before the service worker counts as installed. */
  readonly first: readonly string[];
  /** Kept afterwards. */
  readonly rest: readonly string[];
}

interface Options {
  /** Service worker source. */
  readonly worker: string;
  /** Files for `first` beyond the start, styles, icons, manifest and decks: matched with a chunk's source and name. */
  readonly alsoFirst: readonly RegExp[];
}

const walk = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? walk(join(folder, entry.name)) : [join(folder, entry.name)],
  );

/** A chunk and all that it imports statically. */
const reach = (bundle: OutputBundle, names: readonly string[], seen = new Set<string>()): Set<string> => {
  for (const name of names) {
    const part = bundle[name];
    if (part?.type !== 'chunk' || seen.has(name)) continue;
    seen.add(name);
    reach(bundle, part.imports, seen);
  }
  return seen;
};

const chunks = (bundle: OutputBundle): OutputChunk[] =>
  Object.values(bundle).filter((part): part is OutputChunk => part.type === 'chunk');

/** For hosts, engines and shops, not for the app: never kept. */
const NEVER = /^(_headers|robots\.txt|build\.json|sw\.js|screenshots\/.*|.*\.map)$/;
const ALWAYS_FIRST = /^(index\.html|manifest\.webmanifest|icons\/.*|decks\/.*|.*\.css)$/;

/**
 * Lists the build output for the service worker and builds it with the lists inside, as sw.js at the top, where its
 * scope is the whole app. Also writes `_headers` for static hosts and build.json.
 */
export const precache = ({ worker, alsoFirst }: Options): Plugin => {
  let root = '';
  let outDir = '';
  let bundled: OutputBundle = {};

  const entry = (name: string): Entry => {
    if (name.startsWith('assets/')) return { url: name, revision: null };
    // A page is kept with its headers, so a changed policy is a changed page.
    const hash = createHash('sha256').update(readFileSync(join(outDir, name)));
    if (name.endsWith('.html')) hash.update(JSON.stringify(headersFor(`/${name}`)));
    return { url: name, revision: hash.digest('hex').slice(0, 12) };
  };

  const report = (): BuildReport => {
    const all = chunks(bundled);
    const start = reach(
      bundled,
      all.filter((chunk) => chunk.isEntry && /\bindex\.html$/.test(chunk.facadeModuleId ?? '')).map((c) => c.fileName),
    );
    if (start.size === 0) throw new Error('precache: index.html starts no script');
    // Relative, so that the folder in which somebody keeps the repository plays no part.
    const source = (chunk: OutputChunk) => relative(root, chunk.facadeModuleId ?? root);
    const wanted = all.filter((c) => alsoFirst.some((like) => like.test(source(c)) || like.test(c.fileName)));
    const early = reach(
      bundled,
      wanted.map((chunk) => chunk.fileName),
      new Set(start),
    );
    const files = walk(outDir)
      .map((path) => relative(outDir, path).split(sep).join('/'))
      .filter((name) => !NEVER.test(name))
      .sort();
    const isFirst = (name: string) =>
      early.has(name) || ALWAYS_FIRST.test(name) || alsoFirst.some((like) => like.test(name));
    return {
      start: [...start].sort(),
      first: files.filter(isFirst),
      rest: files.filter((name) => !isFirst(name)),
    };
  };

  return {
    name: 'recency-precache',
    apply: 'build',
    configResolved(config) {
      root = config.root;
      outDir = resolve(config.root, config.build.outDir);
    },
    writeBundle(_options, bundle) {
      bundled = bundle;
    },
    async closeBundle(error) {
      // Also called after a failed build, with nothing written.
      if (error !== undefined || Object.keys(bundled).length === 0) return;
      const lists = report();
      const build = await rolldown({
        input: resolve(root, worker),
        platform: 'browser',
        logLevel: 'warn',
        transform: {
          target: 'es2022',
          define: {
            'process.env.NODE_ENV': '"production"',
            __FIRST__: JSON.stringify(lists.first.map(entry)),
            __REST__: JSON.stringify(lists.rest.map(entry)),
          },
        },
      });
      const { output } = await build.generate({ format: 'iife', minify: true, codeSplitting: false });
      await build.close();
      writeFileSync(join(outDir, 'sw.js'), output[0].code);
      writeFileSync(join(outDir, '_headers'), headersFile());
      writeFileSync(join(outDir, 'build.json'), `${JSON.stringify(lists, null, 1)}\n`);
    },
  };
};
