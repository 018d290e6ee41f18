import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { type RunReport, tally } from '../../../scripts/lib/tally.mjs';

const head = "import { afterAll, beforeAll, expect, test } from 'vitest';\n";
const good = "test('good', () => expect(1).toBe(1));\n";

let folder: string;
beforeAll(() => {
  // Below node_modules, so that the runner in there finds its packages.
  mkdirSync(at('node_modules/.cache/recency'), { recursive: true });
  folder = mkdtempSync(at('node_modules/.cache/recency/tally-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const slug = (name: string) => name.replaceAll(' ', '-');

/** Runs the real runner over files of its own: its report and its exit code. */
const runOver = async (name: string, files: readonly (readonly [name: string, text: string])[]) => {
  const root = join(folder, name);
  mkdirSync(root);
  // One process for all of them: what each file does wrong stays its own all the same.
  const config = "{ include: ['*.test.mjs'], pool: 'threads', isolate: false, maxWorkers: 1 }";
  writeFileSync(join(root, 'vitest.config.mjs'), `export default { test: ${config} };`);
  for (const [file, text] of files) writeFileSync(join(root, `${slug(file)}.test.mjs`), head + text);
  const out = join(root, 'report.json');
  const args = ['run', '--root', root, '--reporter=json', `--outputFile=${out}`];
  const code = await new Promise<number>((done) => {
    const child = execFile(at('node_modules/.bin/vitest'), args, () => done(child.exitCode ?? 1));
  });
  return { report: existsSync(out) ? (JSON.parse(readFileSync(out, 'utf8')) as RunReport) : null, code };
};

const CASES: readonly (readonly [name: string, text: string, passed: number, failed: number])[] = [
  ['all is well', good, 1, 0],
  ['a test fails', `${good}test('bad', () => expect(1).toBe(2));`, 1, 1],
  ['the file cannot be imported', `import './gone.mjs';\n${good}`, 0, 1],
  ['the file throws', `${good}throw new Error('no');`, 0, 1],
  ['the hook before throws', `beforeAll(() => { throw new Error('no'); });\n${good}`, 0, 1],
  ['the hook after throws', `afterAll(() => { throw new Error('no'); });\n${good}`, 1, 1],
  ['a skipped test', `${good}test.skip('later', () => {});`, 1, 1],
  ['a test left for later', `${good}test.todo('later');`, 1, 1],
  ['a file without a test', 'export {};', 0, 1],
];

test('each way to fail within a file is counted', { timeout: 30_000 }, async () => {
  const { report } = await runOver(
    'files',
    CASES.map(([name, text]) => [name, text]),
  );
  const counted = CASES.map(([name]) => {
    const files = report?.testResults?.filter((file) => file.name?.includes(`/${slug(name)}.test`)) ?? [];
    const sum = tally({ testResults: files }, 0);
    expect(sum.why, name).toHaveLength(sum.failed);
    return [name, sum.passed, sum.failed];
  });
  expect(counted).toEqual(CASES.map(([name, , passed, failed]) => [name, passed, failed]));
});

test('an error outside a test is counted', { timeout: 30_000 }, async () => {
  const stray = `${good}setTimeout(() => { throw new Error('no'); }, 0);
test('slow', () => new Promise((done) => setTimeout(done, 50)));`;
  const { report, code } = await runOver('stray', [['stray', stray]]);
  expect(tally(report, code)).toMatchObject({ passed: 2, failed: 1 });
});

test('a run without a file is a failure', { timeout: 30_000 }, async () => {
  const { report, code } = await runOver('empty', []);
  expect(tally(report, code)).toMatchObject({ passed: 0, failed: 1 });
});

test('no report is a failure', () => {
  expect(tally(null, 0)).toMatchObject({ passed: 0, failed: 1 });
});
