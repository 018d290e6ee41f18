import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { createTally } from '../../../src/drill/tally.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';
import type { Verdict } from '../../../src/model/item.ts';
import type { Report, ReportItem } from '../../../src/model/report.ts';
import { VERDICT_WORDS } from '../../../src/report/item-words.ts';
import { reportLines } from '../../../src/report/lines.ts';
import { toldLabel } from '../../../src/subjects/told-label.ts';
import { deckOf, item, reportOf } from '../../helpers/plain-report.ts';
import { resolvedDeck } from '../drill/practice.ts';

const merrow = resolvedDeck('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] });
const callout = [...merrow.items.values()].find(({ label }) => /^Callout at step \d/.test(label));
if (callout === undefined) throw new Error('no callout that is all of its step');

test('where its answer is known a callout is called by its own words', () => {
  const steps = merrow.views.flatMap(({ procedures }) =>
    procedures.flatMap(({ situations }) => situations[0]?.steps ?? []),
  );
  const said = steps.find(({ words }) => words === callout.key)?.step.say ?? '';
  expect(said).not.toBe('');
  expect(callout.label).not.toContain(said);
  expect(toldLabel(merrow, callout)).toBe(`Callout “${said}”: ${callout.label.replace(/^Callout at step \d+: /, '')}`);
  // Whatever else there is has a name of its own already.
  const others = [...merrow.items.values()].filter(({ label }) => !/^(Callout at step \d|Call for)/.test(label));
  expect(others.length).toBeGreaterThan(30);
  for (const one of others) expect(toldLabel(merrow, one)).toBe(one.label);
});

const merrowReport = (items: readonly ReportItem[], more: Partial<Report> = {}): Report => {
  const { id, version, title } = merrow.deck;
  return reportOf({
    ...more,
    decks: [deckOf(items, { id, version, title, variants: ['engine=tk11,operator=calder'] })],
  });
};
const labelsIn = (items: readonly ReportItem[]) =>
  reportLines(merrowReport(items), 'ABCD', [merrow]).decks[0]?.parts.flatMap((part) =>
    part.items.map(({ label }) => label),
  );

test('a report says the words of a callout that was answered, and of no other', () => {
  expect(labelsIn([item(callout.key, { verdicts: [1, 0, 0, 0] })])).toEqual([toldLabel(merrow, callout)]);
  expect(labelsIn([item(callout.key, { now: null, day: null, verdicts: [0, 0, 0, 0] })])).toEqual([callout.label]);
});

test('names of the file stand apart, titles and labels in the lines', () => {
  const assignment = { id: 'bT1QRiGmM1DcZdcfUZHxRg', n: 1 };
  const report = merrowReport([item(callout.key)], { assignment, minutes: 1, planned: 1 });
  const { about, names, decks } = reportLines(report, 'ABCD', [merrow], 'Type rating, November');
  const of = (what: string) => about.find((line) => line.what === what)?.said;
  expect(of('Assignment')).toBe('“Type rating, November”, as first made');
  expect(of('Time of all answers')).toBe('1 minute');
  expect(reportLines({ ...report, minutes: 0 }, 'ABCD', [merrow]).about).toContainEqual({
    what: 'Time of all answers',
    said: 'less than a minute',
  });
  expect(of('Planned')).toBe('1 minute a day');
  const [deck] = decks;
  expect(deck?.lines.find(({ what }) => what === 'Asked of you')?.said).toBe('1 item');
  const lines = JSON.stringify([
    about,
    deck?.lines,
    deck?.parts.map((part) => [part.said, part.items.map(({ said }) => said)]),
  ]);
  const ids = [assignment.id, merrow.deck.id, 'engine=tk11,operator=calder', 'a'.repeat(64), callout.key];
  for (const id of ids) expect(lines).not.toContain(id);
  // Nothing leaves untold: they can be read all the same.
  for (const id of ids) expect(JSON.stringify([names, deck?.names])).toContain(id);
  const amended = reportLines({ ...report, assignment: { ...assignment, n: 2 } }, 'ABCD', [merrow], 'Type rating');
  expect(amended.about.find(({ what }) => what === 'Assignment')?.said).toBe(
    '“Type rating”, number 2, which amends it',
  );
});

test('a query about what a revision changed names the thing, not its key', () => {
  const old = `${callout.key.replace(/~.*/, '')}~old`;
  const report = merrowReport([item(callout.key)]);
  const decks = report.decks.map((deck) => ({ ...deck, queries: [{ items: [old], on: '2026-11-20', note: 'Why?' }] }));
  const [deck] = reportLines({ ...report, decks }, 'ABCD', [merrow]).decks;
  expect(deck?.queries).toEqual([`20 November 2026, about ${callout.label}: “Why?”`]);
  expect(JSON.stringify(deck?.names)).toContain(old);
});

test('every verdict has its meaning, in the order of the counts', () => {
  const inOrder: readonly Verdict[] = ['missed', 'unsure', 'sound', 'fluent'];
  expect(VERDICT_WORDS.map(([verdict]) => verdict.toLowerCase())).toEqual(inOrder);
});

test('in a run in time nobody said Sure', () => {
  const count = (form: AnswerEntry['form']) => {
    const tally = createTally((key) => key);
    const entry = { k: 'answer', form, deck: 'calder/small@0', sure: true, ms: 1, given: {}, marks: { k: 'wrong' } };
    tally.add(entry as unknown as AnswerEntry, { verdicts: { k: 'missed' } } as never, 1);
    return tally.of([])[0]?.[1].items[0]?.[1].sureWrong;
  };
  expect(count('limit')).toBe(1);
  expect(count('paced')).toBe(0);
});

test('a learner queries a question: nothing on a screen or in a report objects', () => {
  const files = ['src/ui', 'src/report', 'src/class'].flatMap((folder) =>
    readdirSync(folder, { recursive: true, encoding: 'utf8' })
      .filter((name) => /\.tsx?$/.test(name))
      .map((name) => `${folder}/${name}`),
  );
  expect(files.length).toBeGreaterThan(100);
  expect(files.filter((file) => /\bobject(ed|ions?)\b/i.test(readFileSync(file, 'utf8')))).toEqual([]);
});
