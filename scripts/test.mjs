// `npm test`: everything that must hold, from a fresh clone. `npm test -- --fast` leaves out the build, its size and
// the browser. The last line is `N passed, N failed`; each check that is no test (types, lint, unused code, build,
// size) counts as one failure when it fails. Only Node's own modules at the top: nothing is installed yet.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { inDoubt, withAgain } from './lib/again.mjs';
import { install } from './lib/install.mjs';
import { apache, at, chromium } from './lib/paths.mjs';
import { run, runQuietly } from './lib/run.mjs';
import { tally } from './lib/tally.mjs';

const fast = process.argv.includes('--fast');
const bin = (/** @type {string} */ name) => at('node_modules/.bin', name);

/** @type {import('./lib/tally.mjs').Tally} */
const total = { passed: 0, failed: 0, why: [] };

const finish = () => {
  for (const why of total.why) console.log(`failed: ${why}`);
  console.log(`${total.passed} passed, ${total.failed} failed`);
  process.exit(total.failed === 0 ? 0 : 1);
};

const fail = (/** @type {string} */ why) => {
  total.failed += 1;
  total.why.push(why);
};

/**
 * A program that some tests need, by apt-get where it is missing.
 * @param {{ path: string, name: string, variable: string, packages: string }} program
 */
const installProgram = async ({ path, name, variable, packages }) => {
  if (existsSync(path)) return true;
  if (process.env[variable] !== undefined) {
    console.error(`${variable} names ${path}, which is not there.`);
    return false;
  }
  if (process.getuid?.() !== 0) {
    console.error(`Some tests need ${name}: install it, or set ${variable} to its path, or run this as root.`);
    return false;
  }
  console.log(`Installing ${name} (apt-get) …`);
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  return (
    (await run('apt-get', ['update', '-qq'], env)) === 0 &&
    (await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', packages], env)) === 0 &&
    existsSync(path)
  );
};

if (!(await install())) {
  fail('npm ci');
  finish();
}

// What needs no build runs side by side; the output of each is shown whole.
/** @type {[string, string[]][]} */
const checks = [
  ['tsc', ['-b']],
  ['biome', ['check', '--colors=off', '--error-on-warnings']],
  ['knip', ['--no-progress']],
];
const results = await Promise.all(checks.map(([name, args]) => runQuietly(bin(name), args)));
for (const [index, [name]] of checks.entries()) {
  const { code, output } = results[index] ?? { code: 1, output: '' };
  console.log(`${name}: ${code === 0 ? 'ok' : `failed (${code})\n${output.trimEnd()}`}`);
  if (code !== 0) fail(name);
}

let browser = !fast;
if (browser) {
  if (!(await installProgram({ path: chromium, name: 'Chromium', variable: 'CHROMIUM', packages: 'chromium' }))) {
    fail('Chromium is missing');
    browser = false;
  }
  if ((await run(process.execPath, [at('scripts/build.mjs')])) !== 0) {
    fail('build');
    browser = false;
  } else if ((await run(process.execPath, [at('scripts/size.mjs')])) !== 0) fail('size');
}

// Its tests say so themselves where it is missing.
await installProgram({ path: apache, name: 'Apache', variable: 'APACHE', packages: 'apache2' });

// Not among the sources: tests read all of those.
const cache = at('node_modules/.cache/recency');
mkdirSync(cache, { recursive: true });
/**
 * Runs tests.
 * @param {string} name Of the run.
 * @param {readonly string[]} which
 * @returns {Promise<{ code: number, report: import('./lib/tally.mjs').RunReport | null, strays: number }>}
 */
const test = async (name, which) => {
  const [reportFile, straysFile] = [`${cache}/${name}.json`, `${cache}/${name}.strays`];
  for (const file of [reportFile, straysFile]) rmSync(file, { force: true });
  const reporters = ['default', 'json', at('scripts/lib/strays.mjs')].map((one) => `--reporter=${one}`);
  const code = await run(bin('vitest'), ['run', ...which, ...reporters, `--outputFile.json=${reportFile}`], {
    RECENCY_STRAYS: straysFile,
    ...(browser && { RECENCY_DIST: at('dist') }),
  });
  return {
    code,
    report: existsSync(reportFile) ? JSON.parse(readFileSync(reportFile, 'utf8')) : null,
    // Not told: something outside a test, for all that is known.
    strays: existsSync(straysFile) ? Number(readFileSync(straysFile, 'utf8')) : 1,
  };
};
const projects = (/** @type {readonly string[]} */ ...names) => names.flatMap((name) => ['--project', name]);

const whole = await test('test-report', projects('fast', 'property', ...(browser ? ['browser'] : [])));
let { code, report } = whole;
const doubted = inDoubt(report, whole.strays, at('tests/browser/'));
if (report !== null && doubted.length > 0) {
  // Told, never hushed up: what fails by chance is mended too.
  const first = tally({ testResults: report.testResults?.filter(({ name = '' }) => doubted.includes(name)) ?? [] }, 0);
  console.log(`Run once more, alone:\n${doubted.join('\n')}`);
  const again = await test('test-report-again', [...projects('browser'), '--no-file-parallelism', ...doubted]);
  report = withAgain(report, again.report);
  code = again.code;
  for (const why of first.why) console.log(`in the first run: ${why}`);
}
const tests = tally(report, code);
total.passed += tests.passed;
total.failed += tests.failed;
total.why.push(...tests.why);
finish();
