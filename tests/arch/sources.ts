/** The files of the repository as the architecture tests see them. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { root } from '../../scripts/lib/paths.mjs';

export interface Source {
  /** From the top folder, with `/`. */
  readonly path: string;
  readonly text: string;
}

const NOT_OURS = new Set(['node_modules', 'dist', '.git', '.cache', 'coverage']);
const TEXT = /(^|[\\/])[^.\\/]*$|\.(ts|tsx|mjs|js|css|html|json|webmanifest|md|svg|txt|yml|yaml|sh)$/;

const walk = (folder: string): string[] =>
  readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    if (NOT_OURS.has(entry.name)) return [];
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return walk(path);
    return TEXT.test(path) ? [path] : [];
  });

/** All text files below a folder of the repository. */
export const sources = (folder = '.'): Source[] =>
  walk(join(root, folder)).map((path) => ({
    path: relative(root, path).split(sep).join('/'),
    text: readFileSync(path, 'utf8'),
  }));

/**
 * Code with its comments blanked, lines kept. Strings and regular expressions stay; a `//` within them is taken for a
 * comment only where no quote opens before it on the line.
 */
export const withoutComments = (text: string): string =>
  text
    .replace(/\/\*[\s\S]*?\*\//g, (comment) => comment.replace(/[^\n]/g, ' '))
    .replace(/^([^'"`\n]*?)\/\/.*$/gm, '$1');

export interface Import {
  readonly specifier: string;
  readonly typeOnly: boolean;
}

/** What a module imports, re-exports, loads when wanted, or starts as a worker. */
export const importsOf = (text: string): Import[] => {
  const code = withoutComments(text);
  const found: Import[] = [];
  for (const match of code.matchAll(/\b(?:import|export)\s+(type\s+)?(?:[\w*{][^'"`;]*?\sfrom\s*)['"]([^'"]+)['"]/g)) {
    found.push({ specifier: match[2] ?? '', typeOnly: match[1] !== undefined });
  }
  for (const match of code.matchAll(/\bimport\s*\(?\s*['"]([^'"]+)['"]/g)) {
    found.push({ specifier: match[1] ?? '', typeOnly: false });
  }
  for (const match of code.matchAll(/new URL\(\s*['"](\.[^'"]+\.tsx?)['"]\s*,\s*import\.meta\.url/g)) {
    found.push({ specifier: match[1] ?? '', typeOnly: false });
  }
  return found;
};
