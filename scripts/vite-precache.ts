import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { type OutputBundle, type OutputChunk, rolldown } from 'rolldown';
import type { Plugin } from 'vite';
import { headersFile, headersFor } from './headers.mjs';

/**
 * Files to be kept, one word each, in the shortest form, for the worker holds them all: a name in `assets/` that carries
 * a hash (`.js` left out where no other dot is in it), or an address, `?` and a revision. src/sw/rest.ts reads it.
 */
type Listed = string;

/** What dist/build.json says; scripts/size.mjs and the tests read it. File names relative to dist. */
export interface BuildReport {
  /** JavaScript that a learner's first screen waits for. */
  readonly start: readonly string[];
  /** Kept before the service worker counts as installed. */
  readonly first: readonly string[];
  /** Kept afterwards. */
  readonly rest: readonly string[];
  /** Kept once it was opened: learners never do. */
  readonly workshop: readonly string[];
}

interface Options {
  /** Service worker source. */
  readonly worker: string;
  /** Files for `first` beyond the start and its styles, icons, manifest and decks: matched with a chunk's source and name. */
  readonly alsoFirst: readonly RegExp[];
  /** Modules of the Workshop, from the top folder; with what only they lead to they are a list of their own. */
  readonly apart: RegExp;
}

const walk = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) =>
    entry.isDirectory() ? walk(join(folder, entry.name)) : [join(folder, entry.name)],
  );

/** A chunk and all that it imports statically, and with `later` also what it loads when wanted, as far as `may` lets. */
const reach = (
  bundle: OutputBundle,
  names: readonly string[],
  seen = new Set<string>(),
  later = false,
  may: (chunk: OutputChunk) => boolean = () => true,
): Set<string> => {
  for (const name of names) {
    const part = bundle[name];
    if (part?.type !== 'chunk' || seen.has(name) || !may(part)) continue;
    seen.add(name);
    reach(bundle, later ? [...part.imports, ...part.dynamicImports] : part.imports, seen, later, may);
  }
  return seen;
};

/** Styles that come with a chunk (vite says so). */
const stylesOf = (chunk: OutputChunk): readonly string[] => [
  ...((chunk as { viteMetadata?: { importedCss?: Set<string> } }).viteMetadata?.importedCss ?? []),
];

const chunks = (bundle: OutputBundle): OutputChunk[] =>
  Object.values(bundle).filter((part): part is OutputChunk => part.type === 'chunk');

/** For hosts, engines and shops, not for the app: never kept. */
const NEVER = /^(_headers|robots\.txt|build\.json|sw\.js|screenshots\/.*|.*\.map)$/;
const ALWAYS_FIRST = /^(index\.html|manifest\.webmanifest|icons\/mark\.svg|icons\/mark-192\.png|decks\/.*)$/;

/**
 * Lists the build output for the service worker and builds it with the lists inside, as sw.js at the top, where its
 * scope is the whole app. Also writes `_headers` for static hosts and build.json.
 */
export const precache = ({ worker, alsoFirst, apart }: Options): Plugin => {
  let root = '';
  let outDir = '';
  let bundled: OutputBundle = {};

  const entry = (name: string): string => {
    if (name.startsWith('assets/')) return name.slice('assets/'.length).replace(/^([^.]*)\.js$/, '$1');
    // A page is kept with its headers, so a changed policy is a changed page.
    const hash = createHash('sha256').update(readFileSync(join(outDir, name)));
    if (name.endsWith('.html')) hash.update(JSON.stringify(headersFor(`/${name}`)));
    return `${name}?${hash.digest('hex').slice(0, 12)}`;
  };

  const listed = (names: readonly string[]): Listed => JSON.stringify(names.map(entry).join(' '));

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
    const isApart = (chunk: OutputChunk) =>
      chunk.moduleIds.length > 0 && chunk.moduleIds.some((id) => apart.test(relative(root, id)));
    const entries = all.filter((chunk) => chunk.isEntry).map((chunk) => chunk.fileName);
    const learners = reach(bundled, entries, new Set(), true, (chunk) => !isApart(chunk));
    const theirs = new Set(all.flatMap((chunk) => (learners.has(chunk.fileName) ? stylesOf(chunk) : [])));
    const others = new Set(
      all.filter(({ fileName }) => !learners.has(fileName)).flatMap((chunk) => [chunk.fileName, ...stylesOf(chunk)]),
    );
    /** Workers are built apart from the page and known by their names. */
    const isWorkshop = (name: string) => (others.has(name) && !theirs.has(name)) || /\/workshop\.worker-/.test(name);
    const styles = new Set(all.flatMap((chunk) => (early.has(chunk.fileName) ? stylesOf(chunk) : [])));
    const isFirst = (name: string) =>
      !isWorkshop(name) &&
      (early.has(name) || styles.has(name) || ALWAYS_FIRST.test(name) || alsoFirst.some((like) => like.test(name)));
    return {
      start: [...start].sort(),
      first: files.filter(isFirst),
      rest: files.filter((name) => !isFirst(name) && !isWorkshop(name)),
      workshop: files.filter(isWorkshop),
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
            __FIRST__: listed(lists.first),
            __REST__: listed(lists.rest),
            __WORKSHOP__: listed(lists.workshop),
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
