/**
 * Which folder of src may import which, and what the pure folders may not touch. Functions from sources to
 * complaints, so that the tests can show that each of them complains.
 */
import { posix } from 'node:path';
import { importsOf, type Source, withoutComments } from './sources.ts';

/** What each folder may import besides itself and (closed over) what that may import. */
const MAY: Readonly<Record<string, readonly string[]>> = {
  lib: [],
  model: ['lib'],
  formula: ['model'],
  log: ['model'],
  subjects: ['formula'],
  paced: ['subjects'],
  forms: ['subjects', 'paced'],
  deck: ['subjects'],
  memory: ['log'],
  draft: ['deck'],
  drill: ['forms', 'memory', 'deck'],
  report: ['drill'],
  store: ['log'],
  journal: ['log'],
  exchange: ['log', 'deck', 'draft'],
  class: ['memory', 'deck'],
  sync: ['log', 'exchange'],
  workers: ['drill', 'draft', 'exchange'],
  sw: [],
  ui: ['drill', 'draft', 'report', 'class'],
  app: ['ui', 'drill', 'store', 'journal', 'exchange', 'sync', 'workers'],
  cli: ['drill', 'draft', 'exchange'],
};

/** Where a package may be imported: a folder of src, or one file. */
const PACKAGES: Readonly<Record<string, readonly string[]>> = {
  'ts-fsrs': ['memory/fsrs.ts'],
  idb: ['store', 'class/store.ts'],
  uqr: ['app'],
  preact: ['ui', 'app'],
  '@preact/signals': ['ui', 'app'],
  valibot: ['model', 'log', 'subjects', 'deck', 'exchange'],
  papaparse: ['exchange/rows.ts', 'exchange/rows-out.ts'],
  'workbox-window': ['app/update.ts'],
  'workbox-precaching': ['sw'],
  'workbox-routing': ['sw'],
};

export const PURE = [
  'lib',
  'model',
  'formula',
  'log',
  'subjects',
  'paced',
  'forms',
  'deck',
  'draft',
  'memory',
  'drill',
  'report',
] as const;

/** A folder, all that it may import, and itself. */
const reach = (folder: string, seen = new Set<string>()): Set<string> => {
  if (seen.has(folder)) return seen;
  seen.add(folder);
  for (const next of MAY[folder] ?? []) reach(next, seen);
  return seen;
};

const folderOf = (path: string): string => path.split('/')[1] ?? '';
const packageOf = (specifier: string): string =>
  specifier
    .split('/')
    .slice(0, specifier.startsWith('@') ? 2 : 1)
    .join('/');

/** @param files Of src, `path` starting with `src/`. */
export const importComplaints = (files: readonly Source[]): string[] => {
  const known = new Set(files.map((file) => file.path));
  return files
    .filter((file) => /\.tsx?$/.test(file.path))
    .flatMap(({ path, text }) => {
      const folder = folderOf(path);
      if (MAY[folder] === undefined) return [`${path}: src/${folder} is not in the table of folders`];
      return importsOf(text).flatMap(({ specifier }) => {
        if (!specifier.startsWith('.')) {
          if (specifier.startsWith('node:')) return folder === 'cli' ? [] : [`${path} imports ${specifier}`];
          const places = PACKAGES[packageOf(specifier)] ?? [];
          const allowed = places.some((place) => path === `src/${place}` || path.startsWith(`src/${place}/`));
          return allowed ? [] : [`${path} imports the package ${specifier}`];
        }
        const target = posix.normalize(posix.join(posix.dirname(path), specifier));
        if (!known.has(target)) return [`${path} imports ${specifier}, which is no file of src`];
        return reach(folder).has(folderOf(target)) ? [] : [`${path} imports ${target}`];
      });
    });
};

const IMPURE: readonly [RegExp, string][] = [
  [/\bDate\s*\.\s*now\b/, 'reads the clock (Date.now)'],
  [/\bnew\s+Date\s*(\(\s*\)|(?!\s*[\w(]))/, 'reads the clock (new Date without an argument)'],
  [/(?<!new\s)(?<![.\w])Date\s*\(/, 'reads the clock (Date called)'],
  [/\bMath\s*\.\s*random\b/, 'rolls a die (Math.random)'],
  [/\bperformance\s*\.\s*(now|timeOrigin)\b/, 'reads the clock (performance)'],
  [/\bcrypto\s*\.\s*(getRandomValues|randomUUID|subtle)\b/, 'uses the platform (crypto)'],
  [/\b(setTimeout|setInterval|requestAnimationFrame|queueMicrotask)\s*\(/, 'uses a timer'],
  [/\b(document|navigator|location)\s*\.\s*\w|\b(localStorage|sessionStorage|indexedDB)\b/, 'uses the browser'],
  [/(?<![.\w])fetch\s*\(/, 'uses the network'],
  [/\b(?:eval|Function)\s*\(\s*['"`]/, 'runs text as code'],
  [
    /\bIntl\.DateTimeFormat\(\s*\)|\.toLocale(?:Date|Time)?String\(\s*\)/,
    "depends on the machine's own language or zone",
  ],
];

/** @param files Of the pure folders. */
export const purityComplaints = (files: readonly Source[]): string[] =>
  files
    .filter((file) => /\.tsx?$/.test(file.path))
    .flatMap(({ path, text }) =>
      withoutComments(text)
        .split('\n')
        .flatMap((line, index) =>
          IMPURE.filter(([pattern]) => pattern.test(line)).map(([, why]) => `${path}:${index + 1} ${why}`),
        ),
    );

/** Lines beyond which a file must be split. */
const MOST_LINES = 400;

export const sizeComplaints = (files: readonly Source[]): string[] =>
  files
    .map(({ path, text }) => ({ path, lines: text.trimEnd().split('\n').length }))
    .filter(({ lines }) => lines > MOST_LINES)
    .map(({ path, lines }) => `${path} has ${lines} lines; split it at ${MOST_LINES}`);
