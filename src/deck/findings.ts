/** What the checker finds; the codes stand with the subjects, which check their own parts. */
export { type Code, type Finding, SEVERITIES, type Severity } from '../subjects/finding.ts';
