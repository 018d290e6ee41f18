import { execFile } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { inDoubt, withAgain } from '../../../scripts/lib/again.mjs';
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
  const strays = join(root, 'strays');
  const reporters = ['--reporter=json', `--reporter=${at('scripts/lib/strays.mjs')}`];
  const args = ['run', '--root', root, ...reporters, `--outputFile.json=${out}`];
  const env = { ...process.env, RECENCY_STRAYS: strays };
  const code = await new Promise<number>((done) => {
    const child = execFile(at('node_modules/.bin/vitest'), args, { env }, () => done(child.exitCode ?? 1));
  });
  return {
    strays: Number(readFileSync(strays, 'utf8')),
    report: existsSync(out) ? (JSON.parse(readFileSync(out, 'utf8')) as RunReport) : null,
    code,
  };
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
  const { report, strays } = await runOver(
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
  expect(strays).toBe(0);
});

test('an error outside a test is counted', { timeout: 30_000 }, async () => {
  const stray = `${good}setTimeout(() => { throw new Error('no'); }, 0);
test('slow', () => new Promise((done) => setTimeout(done, 50)));`;
  const { report, code, strays } = await runOver('stray', [['stray', stray]]);
  expect(tally(report, code)).toMatchObject({ passed: 2, failed: 1 });
  expect(strays).toBe(1);
});

test('a run without a file is a failure', { timeout: 30_000 }, async () => {
  const { report, code } = await runOver('empty', []);
  expect(tally(report, code)).toMatchObject({ passed: 0, failed: 1 });
});

test('no report is a failure', () => {
  expect(tally(null, 0)).toMatchObject({ passed: 0, failed: 1 });
});

describe('what is run once more', () => {
  const LATE = '/x/tests/browser/';
  const file = (name: string, status = 'passed') => ({
    name,
    status,
    assertionResults: [
      { status: 'passed', fullName: 'one' },
      { status, fullName: 'two' },
    ],
  });
  const green = [file('/x/tests/unit/a.test.ts'), file(`${LATE}b.test.ts`)];
  const late = file(`${LATE}c.test.ts`, 'failed');

  test('few files of a browser, where all else passed', () => {
    expect(inDoubt({ testResults: green }, 0, LATE)).toEqual([]);
    expect(inDoubt({ testResults: [...green, late] }, 0, LATE)).toEqual([late.name]);
    // A hook failed, or a test was not run.
    const hook = { ...file(`${LATE}d.test.ts`), status: 'failed' };
    const left = { ...file(`${LATE}e.test.ts`, 'skipped'), status: 'passed' };
    expect(inDoubt({ testResults: [...green, hook, left] }, 0, LATE)).toEqual([hook.name, left.name]);
  });

  test('not more of them, nothing else, and not where something failed outside a test', () => {
    const more = ['d', 'e'].map((name) => file(`${LATE}${name}.test.ts`, 'failed'));
    expect(inDoubt({ testResults: [...green, late, ...more] }, 0, LATE)).toEqual([]);
    expect(inDoubt({ testResults: [...green, late, file('/x/tests/unit/f.test.ts', 'failed')] }, 0, LATE)).toEqual([]);
    expect(inDoubt({ testResults: [...green, late] }, 1, LATE)).toEqual([]);
    expect(inDoubt(null, 0, LATE)).toEqual([]);
  });

  test('what failed again has failed, and what did not run again has failed too', () => {
    const first = { testResults: [...green, late] };
    const second = (again: RunReport | null, code: number) => tally(withAgain(first, again), code);
    expect(second({ testResults: [file(late.name)] }, 0)).toEqual({ passed: 6, failed: 0, why: [] });
    expect(second({ testResults: [late] }, 1)).toEqual({ passed: 5, failed: 1, why: ['two: failed'] });
    expect(second({ testResults: [] }, 1)).toMatchObject({ passed: 5, failed: 1 });
    expect(second(null, 1)).toMatchObject({ passed: 5, failed: 1 });
    // An error outside a test in the second run.
    expect(second({ testResults: [file(late.name)] }, 1)).toMatchObject({ passed: 6, failed: 1 });
  });
});
