// Runs a TypeScript entry in Node: `node scripts/run-ts.mjs ENTRY.ts [arguments…]`.
// Node 20 reads no TypeScript, so the entry is bundled first (some 50 ms for the whole core); packages stay outside
// the bundle and are found in node_modules. Arguments, standard input and the exit code are those of the entry.
import { mkdirSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { rolldown } from 'rolldown';

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const [entry, ...rest] = process.argv.slice(2);
if (entry === undefined) {
  console.error('usage: node scripts/run-ts.mjs ENTRY.ts [arguments…]');
  process.exit(2);
}

/** Everything that does not start with a dot or a slash is a package or a part of Node. */
const isPackage = (/** @type {string} */ id) =>
  !id.startsWith('.') && !id.startsWith('/') && !/^[A-Za-z]:[\\/]/.test(id);

const source = resolve(root, entry);
const bundle = await rolldown({
  input: source,
  cwd: root,
  platform: 'node',
  external: isPackage,
  logLevel: 'warn',
});
const { output } = await bundle.generate({ format: 'esm', sourcemap: 'inline', codeSplitting: false });
await bundle.close();

const name = relative(root, source).replace(/[^A-Za-z0-9]+/g, '-');
const target = join(root, 'node_modules/.cache/recency', `${name}.mjs`);
mkdirSync(dirname(target), { recursive: true });
// Written aside and renamed, so that two runs at once never read half a file.
const aside = `${target}.${process.pid}`;
writeFileSync(aside, output[0].code);
renameSync(aside, target);

process.setSourceMapsEnabled(true);
process.argv = [process.argv[0] ?? 'node', source, ...rest];
await import(pathToFileURL(target).href);
