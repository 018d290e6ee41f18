// Only Node's own modules here: this runs on a fresh clone, before anything is installed.
import { readFileSync } from 'node:fs';
import { at } from './paths.mjs';
import { run } from './run.mjs';

/** @typedef {Record<string, { version?: string, optional?: boolean }>} Locked */

/**
 * @param {string} path
 * @returns {Locked | null} Null when the file is missing or unreadable.
 */
const locked = (path) => {
  try {
    return JSON.parse(readFileSync(path, 'utf8')).packages ?? {};
  } catch {
    return null;
  }
};

/**
 * Whether what is there is what package-lock.json wants. Optional packages of other platforms are never installed and
 * do not count.
 * @param {Locked} wanted
 * @param {Locked} there
 */
export const covers = (wanted, there) =>
  Object.entries(wanted).every(
    ([path, { version, optional }]) =>
      path === '' || there[path]?.version === version || (optional === true && there[path] === undefined),
  );

const isInstalled = () => {
  const wanted = locked(at('package-lock.json'));
  // npm's own list of what it installed.
  const there = locked(at('node_modules/.package-lock.json'));
  return wanted !== null && there !== null && covers(wanted, there);
};

/** Runs `npm ci` when node_modules is missing or outdated. @returns {Promise<boolean>} False when npm failed. */
export const install = async () => {
  if (isInstalled()) return true;
  console.log('Installing packages (npm ci) …');
  return (await run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund'])) === 0;
};
