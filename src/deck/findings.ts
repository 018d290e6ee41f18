/** What the checker finds; the codes stand with the subjects, which check their own parts. */
export type { Finding } from '../subjects/finding.ts';
