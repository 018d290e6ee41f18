import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { type Tally, tally } from '../../../scripts/lib/tally.mjs';

const head = "import { afterAll, beforeAll, expect, test } from 'vitest';\n";
const good = "test('good', () => expect(1).toBe(1));\n";

let folder: string;
beforeAll(() => {
  // Below node_modules, so that the runner in there finds its packages.
  mkdirSync(at('node_modules/.cache/recency'), { recursive: true });
  folder = mkdtempSync(at('node_modules/.cache/recency/tally-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What the real runner reports about one file, counted as `npm test` counts. */
const counted = async (name: string, text: string | null): Promise<Tally> => {
  const root = join(folder, name);
  mkdirSync(root);
  writeFileSync(join(root, 'vitest.config.mjs'), "export default { test: { include: ['*.test.mjs'] } };");
  if (text !== null) writeFileSync(join(root, 'one.test.mjs'), head + text);
  const report = join(root, 'report.json');
  const args = ['run', '--root', root, '--reporter=json', `--outputFile=${report}`];
  const code = await new Promise<number>((done) => {
    const child = execFile(at('node_modules/.bin/vitest'), args, () => done(child.exitCode ?? 1));
  });
  return tally(existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : null, code);
};

test.concurrent.each([
  ['all is well', good, 1, 0],
  ['a test fails', `${good}test('bad', () => expect(1).toBe(2));`, 1, 1],
  ['the file cannot be imported', `import './gone.mjs';\n${good}`, 0, 1],
  ['the file throws', `${good}throw new Error('no');`, 0, 1],
  ['the hook before throws', `beforeAll(() => { throw new Error('no'); });\n${good}`, 0, 1],
  ['the hook after throws', `afterAll(() => { throw new Error('no'); });\n${good}`, 1, 1],
  [
    'an error outside a test',
    `${good}setTimeout(() => { throw new Error('no'); }, 0);\ntest('slow', () => new Promise((d) => setTimeout(d, 50)));`,
    2,
    1,
  ],
  ['a skipped test', `${good}test.skip('later', () => {});`, 1, 1],
  ['a test left for later', `${good}test.todo('later');`, 1, 1],
  ['a file without a test', 'export {};', 0, 1],
  ['no file', null, 0, 1],
])('%s', { timeout: 30_000 }, async (name, text, passed, failed) => {
  const sum = await counted(name.replaceAll(' ', '-'), text);
  expect({ passed: sum.passed, failed: sum.failed }, sum.why.join('\n')).toEqual({ passed, failed });
  expect(sum.why).toHaveLength(failed);
});

test('no report is a failure', () => {
  expect(tally(null, 0)).toMatchObject({ passed: 0, failed: 1 });
});
