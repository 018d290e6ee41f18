import { createHash, randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { at, root } from './paths.mjs';
import { runQuietly } from './run.mjs';

/** What a build is made of; all else may change without a new one. */
const INPUTS = ['src', 'decks', 'public', 'scripts', 'index.html', 'open.html', 'vite.config.ts', 'package-lock.json'];

/** @param {string} path @returns {string[]} The files at or below it, in order. */
const filesBelow = (path) =>
  statSync(path).isDirectory()
    ? readdirSync(path)
        .sort()
        .flatMap((name) => filesBelow(join(path, name)))
    : [path];

const fingerprint = () => {
  const hash = createHash('sha256');
  for (const path of INPUTS.map((name) => at(name))
    .filter((path) => existsSync(path))
    .flatMap(filesBelow)) {
    hash.update(path.slice(root.length)).update('\0').update(readFileSync(path)).update('\0');
  }
  return hash.digest('hex').slice(0, 12);
};

/**
 * A production build for tests and screenshots, made anew only when its inputs changed. Built aside and renamed, so
 * that two test runs at once never see half of it.
 * @param {string} [label] Sets RECENCY_BUILD: another version of the same sources.
 * @returns {Promise<string>} Folder.
 * @throws With the output of the build when it fails.
 */
export const builtDist = async (label = '') => {
  const cache = at('node_modules/.cache/recency');
  const kind = `dist-${label === '' ? 'plain' : label}-`;
  const folder = join(cache, kind + fingerprint());
  if (existsSync(folder)) return folder;
  mkdirSync(cache, { recursive: true });
  // Two files of tests in one process may both want it.
  const aside = join(cache, `building-${randomUUID()}-${kind}`);
  const args = [`RECENCY_BUILD=${label}`, process.execPath, at('scripts/build.mjs'), aside];
  const { code, output } = await runQuietly('env', label === '' ? args.slice(1) : args);
  if (code !== 0 || !existsSync(join(aside, 'build.json'))) throw new Error(`the build failed (${code}):\n${output}`);
  // The one before stays: another run may still be using it.
  const older = readdirSync(cache)
    .filter((name) => name.startsWith(kind))
    .map((name) => ({ name, at: statSync(join(cache, name)).mtimeMs }))
    .sort((a, b) => b.at - a.at);
  for (const { name } of older.slice(2)) rmSync(join(cache, name), { recursive: true, force: true });
  if (existsSync(folder)) rmSync(aside, { recursive: true, force: true });
  else renameSync(aside, folder);
  return folder;
};
