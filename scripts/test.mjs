// `npm test`: everything that must hold, from a fresh clone. `npm test -- --fast` leaves out the build, its size and
// the browser. The last line is `N passed, N failed`; each check that is no test (types, lint, unused code, build,
// size) counts as one failure when it fails. Only Node's own modules at the top: nothing is installed yet.
import { existsSync, readFileSync, rmSync } from 'node:fs';
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
const reportFile = at('node_modules/.cache/recency/test-report.json');
rmSync(reportFile, { force: true });
const projects = ['fast', 'property', ...(browser ? ['browser'] : [])].flatMap((name) => ['--project', name]);
const code = await run(
  bin('vitest'),
  ['run', ...projects, '--reporter=default', '--reporter=json', `--outputFile.json=${reportFile}`],
  browser ? { RECENCY_DIST: at('dist') } : {},
);
const report = existsSync(reportFile) ? JSON.parse(readFileSync(reportFile, 'utf8')) : null;
const tests = tally(report, code);
total.passed += tests.passed;
total.failed += tests.failed;
total.why.push(...tests.why);
finish();
