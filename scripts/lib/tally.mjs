/**
 * @typedef {{ name?: string, status?: string, message?: string, assertionResults?: { status?: string, fullName?: string }[] }} FileReport
 * @typedef {{ testResults?: FileReport[] }} RunReport
 * @typedef {{ passed: number, failed: number, why: string[] }} Tally
 */

/**
 * Counts a test run from the runner's JSON report. The runner's own totals leave out files that could not be
 * imported, hooks that threw, errors outside a test and runs without a test; here each of them is a failure, and so
 * is a test that was skipped or left for later.
 * @param {RunReport | null} report Null when the runner wrote none.
 * @param {number} exitCode Of the runner: the only sign of an error outside a test.
 * @returns {Tally}
 */
export const tally = (report, exitCode) => {
  /** @type {Tally} */
  const sum = { passed: 0, failed: 0, why: [] };
  const fail = (/** @type {string} */ why) => {
    sum.failed += 1;
    sum.why.push(why);
  };
  if (report === null) {
    fail('the test runner wrote no report');
    return sum;
  }
  const files = report.testResults ?? [];
  for (const file of files) {
    const tests = file.assertionResults ?? [];
    const before = sum.failed;
    for (const test of tests) {
      if (test.status === 'passed') sum.passed += 1;
      else fail(`${test.fullName ?? 'a test without a name'}: ${test.status ?? 'no status'}`);
    }
    if (tests.length === 0) fail(`${file.name ?? 'a file'}: no test ran`);
    else if (file.status !== 'passed' && sum.failed === before) {
      fail(`${file.name ?? 'a file'}: ${file.message || 'a hook failed'}`);
    }
  }
  if (files.length === 0) fail('no test file ran');
  if (exitCode !== 0 && sum.failed === 0) fail(`the test runner ended with ${exitCode}: an error outside a test`);
  return sum;
};
