/** @typedef {import('./tally.mjs').RunReport} RunReport */

/** As many files may have failed by chance; where more did, something is wrong. */
const MOST_BY_CHANCE = 2;

/**
 * Files that are run once more, alone, because a real browser on a loaded machine may have been late: those that failed
 * where all that failed lies in one folder, in few files, and nothing failed outside a test.
 * @param {RunReport | null} report
 * @param {number} strays Errors outside a test.
 * @param {string} folder Of the tests that may be late, ending in `/`.
 * @returns {string[]} Paths as the report has them; none: nothing is run again.
 */
export const inDoubt = (report, strays, folder) => {
  const failed = (report?.testResults ?? []).filter(
    (file) => file.status !== 'passed' || file.assertionResults?.some(({ status }) => status !== 'passed'),
  );
  const names = failed.map(({ name = '' }) => name);
  return strays === 0 && names.length <= MOST_BY_CHANCE && names.every((name) => name.startsWith(folder)) ? names : [];
};

/**
 * The report with what came of the second run in the place of the first. A file of which the second run says nothing
 * keeps what the first said.
 * @param {RunReport} report
 * @param {RunReport | null} again
 * @returns {RunReport}
 */
export const withAgain = (report, again) => {
  const second = again?.testResults ?? [];
  const names = new Set(second.map(({ name }) => name));
  return { testResults: [...(report.testResults ?? []).filter(({ name }) => !names.has(name)), ...second] };
};
