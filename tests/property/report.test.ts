import fc from 'fast-check';
import { expect, test } from 'vitest';
import validate from 'xapi-validation';
import { statementsOf } from '../../src/class/xapi.ts';
import { openReport } from '../../src/exchange/report.ts';
import { makeDeviceKey, signReport } from '../../src/exchange/report-sign.ts';
import { isoOfDay } from '../../src/lib/date-words.ts';
import { LEAVABLE, type Report, type ReportDeck, type ReportItem } from '../../src/model/report.ts';
import { traineeOf } from '../../src/model/trainee.ts';
import { reportLines } from '../../src/report/lines.ts';
import { REPORT } from '../fixtures/reports.ts';

const key = await makeDeviceKey();
const text = await signReport(REPORT, key);

const share = fc.integer({ min: 0, max: 1000 }).map((n) => n / 1000);
/** Study day of the check of all. */
const CHECK = 20_794;
const day = fc.integer({ min: 18_000, max: 25_000 });
const count = fc.nat(500);
const words = fc.string({ unit: 'grapheme', minLength: 1, maxLength: 30 });
const name = fc.stringMatching(/^[a-z0-9][a-z0-9-]{0,8}$/);

const reports: fc.Arbitrary<Report> = fc.subarray([...LEAVABLE]).chain((leftOut) => {
  const has = (part: (typeof LEAVABLE)[number]) => !leftOut.includes(part);
  const itemOf = (deck: string, i: number, isDated: boolean): fc.Arbitrary<ReportItem> =>
    fc.record({
      key: name.map((thing) => `${deck}#${thing}.place~${i}`),
      now: fc.option(share),
      day: fc.option(share),
      ...(isDated && { check: fc.integer({ min: 0, max: 9 }).map((days) => isoOfDay(CHECK - 10 + days)) }),
      verdicts: fc.tuple(count, count, count, count),
      voids: count,
      ...(has('sure') && { sureWrong: fc.constant(0) }),
      ...(has('days') && { last: fc.option(day.map(isoOfDay)) }),
    }) as fc.Arbitrary<ReportItem>;
  const deckOf = (i: number): fc.Arbitrary<ReportDeck> =>
    fc.tuple(name, name, fc.nat(6), fc.boolean()).chain(([author, title, items, isDated]) => {
      const id = `${author}/${title}-${i}`;
      return fc.record({
        id: fc.constant(id),
        version: fc.constant('1.0.0'),
        title: words,
        contentId: fc.stringMatching(/^[0-9a-f]{64}$/),
        variants: fc.uniqueArray(words, { maxLength: 3 }),
        items: fc.tuple(...Array.from({ length: items }, (_, k) => itemOf(id, k, isDated && k % 2 === 0))),
        notAsked: count,
        ...(has('queries') && {
          queries: fc.array(
            fc.record({ items: fc.constant([`${id}#a.place~0`]), on: day.map(isoOfDay), note: fc.string() }),
            { maxLength: 2 },
          ),
        }),
        ...(has('slips') && {
          slips: fc.array(
            fc.record({
              key: fc.constant(`${id}#a.place~0`),
              asked: fc.string(),
              given: fc.string(),
              times: fc.integer({ min: 1, max: 9 }),
            }),
            { maxLength: 2 },
          ),
        }),
      }) as fc.Arbitrary<ReportDeck>;
    });
  return fc.nat(3).chain((decks) =>
    fc.record({
      recency: fc.constant('report'),
      v: fc.constant(1),
      trainee: words.map((said) => traineeOf(said) ?? 'Trainee'),
      n: fc.integer({ min: 1, max: 1e6 }),
      made: fc.integer({ min: 18_000, max: CHECK - 10 }).map(isoOfDay),
      app: words,
      checkDate: fc.constant(isoOfDay(CHECK)),
      planned: count,
      plan: fc.record({ minutes: count, recall: share, needed: fc.option(count) }),
      decks: fc.tuple(...Array.from({ length: decks }, (_, i) => deckOf(i))),
      ...(has('days') && {
        days: fc.uniqueArray(day, { maxLength: 9 }).map((list) => list.sort((a, b) => a - b).map(isoOfDay)),
      }),
      ...(has('minutes') && { minutes: count }),
      answers: count,
      leftOut: fc.constant(leftOut),
      selfRecorded: fc.constant(true),
    }),
  ) as fc.Arbitrary<Report>;
});

test('what is signed is opened as it was', async () => {
  await fc.assert(
    fc.asyncProperty(reports, async (report) => {
      const opened = await openReport(await signReport(report, key));
      expect(opened).toMatchObject({ ok: true });
      if (opened.ok) expect(opened.value.report).toEqual(report);
    }),
    { numRuns: 150 },
  );
});

test('of whatever report each statement is one of xAPI 1.0.3, and of another report or item it is another one', async () => {
  const ids = new Map<string, string>();
  await fc.assert(
    fc.asyncProperty(reports, fc.stringMatching(/^[0-9a-f]{64}$/), async (report, hash) => {
      const statements = await statementsOf({ report, key: 'key', hash }, new Map(), 'https://recency.example/');
      const answered = report.decks.flatMap(({ items }) => items.filter(({ verdicts }) => verdicts.some((n) => n > 0)));
      expect(statements).toHaveLength(answered.length);
      for (const [i, statement] of statements.entries()) {
        expect(validate(statement)).toEqual([]);
        const of = `${hash} ${answered[i]?.key}`;
        expect(ids.get(statement.id) ?? of).toBe(of);
        ids.set(statement.id, of);
      }
    }),
    { numRuns: 60 },
  );
  expect(ids.size).toBeGreaterThan(100);
});

test('any changed byte is refused, or gives the same report', async () => {
  const bytes = new TextEncoder().encode(text);
  await fc.assert(
    fc.asyncProperty(fc.nat(bytes.length - 1), fc.nat(255), async (at, byte) => {
      const other = bytes.slice();
      other[at] = byte;
      // As a browser reads a file.
      const opened = await openReport(new TextDecoder().decode(other));
      if (opened.ok) expect(opened.value.report).toEqual(REPORT);
      if (bytes[at] === byte) expect(opened.ok).toBe(true);
      // Any other letter of the alphabet says something else.
      else if (/[A-Za-z0-9_.-]/.test(String.fromCharCode(byte))) expect(opened.ok).toBe(false);
    }),
    { numRuns: 3000 },
  );
});

test('cut off anywhere it is refused', async () => {
  await fc.assert(
    fc.asyncProperty(fc.nat(text.length - 1), async (length) => {
      const opened = await openReport(text.slice(0, length));
      expect(opened.ok).toBe(false);
      if (!opened.ok && length >= 8) expect(opened.error.fault).toBe('cut-off');
    }),
    { numRuns: 500 },
  );
});

/** Whatever a report holds at its ends. */
const leavesOf = (x: unknown): unknown[] =>
  typeof x === 'object' && x !== null ? Object.values(x).flatMap(leavesOf) : [x];

test('what is left out is nowhere in the words either, and says that it is', () => {
  fc.assert(
    fc.property(reports, (report) => {
      const { about, decks } = reportLines(report, 'ABCD', []);
      const isOut = (part: (typeof LEAVABLE)[number]) => report.leftOut.includes(part);
      const of = (what: string) => about.find((line) => line.what === what)?.said;
      expect(of('Days practised') === null).toBe(isOut('days'));
      expect(of('Time of all answers') === null).toBe(isOut('minutes'));
      for (const deck of decks) {
        expect(deck.queries === null).toBe(isOut('queries'));
        expect(deck.slips === null).toBe(isOut('slips'));
      }
      expect(leavesOf(report).includes(undefined)).toBe(false);
    }),
  );
});
