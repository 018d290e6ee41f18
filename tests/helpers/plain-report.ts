/** Reports for tests of the class: as plain JSON, without a signature. */
import type { ReceivedReport, Report, ReportDeck, ReportItem } from '../../src/model/report.ts';

export const item = (key: string, given: Partial<ReportItem> = {}): ReportItem => ({
  key,
  now: 0.9,
  day: 0.8,
  verdicts: [0, 0, 1, 0],
  sureWrong: 0,
  voids: 0,
  last: '2026-11-20',
  ...given,
});

/** Never asked. */
export const unmet = (key: string): ReportItem =>
  item(key, { now: null, day: null, verdicts: [0, 0, 0, 0], last: null });

export const deckOf = (items: readonly ReportItem[], given: Partial<ReportDeck> = {}): ReportDeck => ({
  id: 'calder/try',
  version: '1.0.0',
  title: 'Try',
  contentId: 'a'.repeat(64),
  variants: [''],
  items,
  notAsked: 0,
  queries: [],
  slips: [],
  ...given,
});

export const reportOf = (given: Partial<Report> = {}): Report => ({
  recency: 'report',
  v: 1,
  trainee: 'Falcon',
  n: 1,
  made: '2026-11-25',
  app: '0.1.0',
  checkDate: '2026-12-07',
  planned: 10,
  decks: [],
  days: ['2026-11-20'],
  minutes: 12,
  answers: 3,
  leftOut: [],
  selfRecorded: true,
  ...given,
});

/** As hex of 32 bits, four times: a stand-in for a hash in tests that need no more than another one for another text. */
const digest = (text: string): string => {
  let h = 0x811c9dc5;
  for (const ch of text) h = Math.imul(h ^ (ch.codePointAt(0) as number), 0x01000193);
  return (h >>> 0).toString(16).padStart(8, '0').repeat(8);
};

export const received = (report: Report, key = 'device-one'): ReceivedReport => ({
  report,
  key,
  hash: digest(`${key}${JSON.stringify(report)}`),
});

/** A file: `{ key, report }`. */
export const fileOf = (report: Report, key = 'device-one'): string => JSON.stringify({ key, report });

/** @throws Error in words, as the one that looks at signatures does */
export const openPlain = async (text: string): Promise<ReceivedReport> => {
  let value: { readonly key?: unknown; readonly report?: Report };
  try {
    value = JSON.parse(text) as typeof value;
  } catch {
    throw new Error(text.startsWith('{') ? 'The file ends too early.' : 'This is no report of Recency.');
  }
  if (typeof value.key !== 'string' || value.report?.recency !== 'report')
    throw new Error('This is no report of Recency.');
  return received(value.report, value.key);
};
