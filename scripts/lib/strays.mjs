import { writeFileSync } from 'node:fs';

/** For the test runner: errors outside a test, which its JSON report leaves out, are counted into RECENCY_STRAYS. */
export default class Strays {
  /**
   * @param {unknown} _files
   * @param {readonly unknown[]} errors
   */
  onTestRunEnd(_files, errors) {
    if (process.env.RECENCY_STRAYS !== undefined) writeFileSync(process.env.RECENCY_STRAYS, String(errors.length));
  }
}
