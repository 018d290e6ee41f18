import { readFileSync } from 'node:fs';
import * as v from 'valibot';
import { expect, test } from 'vitest';
import { reportTrouble } from '../../../src/exchange/report-check.ts';
import { ReportShape } from '../../../src/exchange/report-shape.ts';
import { draw, offers } from '../../../src/forms/registry.ts';
import { chanceAfter } from '../../../src/memory/fsrs.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Leavable, Report } from '../../../src/model/report.ts';
import { buildReport, type ReportSource, reportName } from '../../../src/report/build.ts';
import { reportLines } from '../../../src/report/lines.ts';
import { practiceRecord } from '../../../src/report/record.ts';
import { ownCheckDays } from '../../../src/ui/models/check-groups.ts';
import type { Learner, Said } from '../../../src/ui/models/learner.ts';
import { contentOf, deviceKey, gather, keepChoice, keptChoice } from '../../../src/ui/models/report.ts';
import { answered, type Bench, benchOf, DAY, LIMITS } from '../ui/learners.ts';

/** The deck of four limits with a wrong answer that is one of its other limits. */
const said = (
  learner: Learner,
  thing: string,
  mark: 'right' | 'wrong',
  sure: boolean | null = true,
  ms = 30_000,
): Said => {
  const one = answered(learner, thing, mark, sure === true) as Said & { k: 'answer' };
  // 103 kt is right for the fourth limit.
  const given = mark === 'wrong' ? { value: [103], typed: ['103'] } : { value: [0], typed: ['0'] };
  return { ...one, sure, ms, shown: shownOf(learner, thing), given: sure === null ? null : given };
};

const shownOf = (learner: Learner, thing: string) => {
  const resolved = learner.practised.value[0]?.resolved;
  if (resolved === undefined) throw new Error('no deck');
  const offer = offers(resolved, null, 1).find(({ about }) => about.thing === thing);
  return offer === undefined ? null : draw(resolved, offer, 3);
};

/**
 * Counted by hand. 25 November: one right, two sure and wrong, two right, three not known. 26 November: one right but
 * not sure, two sure and wrong. Taken back: one answer about three, and one about four with a query.
 */
const practised = async (): Promise<Bench> => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  const write = (...of: Parameters<typeof said> extends [unknown, ...infer R] ? R : never) =>
    learner.append(said(learner, ...of));
  await write('one', 'right');
  await write('two', 'wrong');
  await write('two', 'right');
  await write('three', 'wrong', null);
  bench.at += DAY;
  await write('one', 'right', false);
  await write('two', 'wrong');
  const slip = await write('three', 'right');
  await learner.append({ k: 'void', of: slip.entry.id, why: 'mis-tap' });
  const doubt = await write('four', 'wrong');
  await learner.append({ k: 'void', of: doubt.entry.id, why: 'query', note: 'Is it 103 or 130?' });
  // On two devices the same was taken back twice.
  await learner.append({ k: 'void', of: doubt.entry.id, why: 'mis-tap' });
  bench.at += DAY;
  return bench;
};

const sourceOf = async (bench: Bench, leftOut: readonly Leavable[] = []): Promise<ReportSource> => {
  const { learner } = bench;
  const { decks } = await gather(learner, 'fictional');
  return {
    trainee: 'Trainee K7QD',
    n: 1,
    day: learner.today(),
    app: 'test',
    checkDay: learner.checkDay('fictional'),
    planned: learner.minutes('fictional'),
    decks,
    memory: learner.memory.value,
    leftOut: new Set(leftOut),
  };
};
const isRight = (report: Report) => {
  expect(v.is(ReportShape, JSON.parse(JSON.stringify(report)))).toBe(true);
  expect(reportTrouble(report)).toBeNull();
};
const itemOf = (report: Report, thing: string) => {
  const found = report.decks[0]?.items.find(({ key }) => key.includes(`#${thing}.`));
  if (found === undefined) throw new Error(`${thing} is not in it`);
  return found;
};

test('a small log, counted by hand', async () => {
  const bench = await practised();
  const report = buildReport(await sourceOf(bench));
  isRight(report);
  expect(report).toMatchObject({
    trainee: 'Trainee K7QD',
    made: '2026-11-27',
    checkDate: null,
    planned: 10,
    answers: 6,
    days: ['2026-11-25', '2026-11-26'],
    // Six answers of half a minute.
    minutes: 3,
    leftOut: [],
  });
  const [deck, ...others] = report.decks;
  expect(others).toEqual([]);
  expect(deck).toMatchObject({
    id: 'calder/small',
    version: '1.0.0',
    title: 'Small',
    contentId: 'c'.repeat(64),
    variants: [''],
    notAsked: 0,
  });
  expect(deck?.items.map(({ key }) => key.split(/[#.]/)[1])).toEqual(['one', 'two', 'three', 'four']);
  const counts = { day: null, voids: 0, sureWrong: 0 };
  expect(itemOf(report, 'one')).toMatchObject({ ...counts, verdicts: [0, 1, 1, 0], last: '2026-11-26' });
  expect(itemOf(report, 'two')).toMatchObject({ ...counts, verdicts: [2, 0, 1, 0], sureWrong: 2, last: '2026-11-26' });
  // Not known is missed, and nobody was sure; what was taken back leaves its day with it.
  expect(itemOf(report, 'three')).toMatchObject({ ...counts, verdicts: [1, 0, 0, 0], voids: 1, last: '2026-11-25' });
  expect(itemOf(report, 'four')).toMatchObject({ ...counts, now: null, verdicts: [0, 0, 0, 0], voids: 1, last: null });
  const four = itemOf(report, 'four').key;
  expect(deck?.queries).toEqual([{ items: [four], on: '2026-11-26', note: 'Is it 103 or 130?' }]);
  // Twice the same number that answers the fourth limit; "not known" gives nothing to be told.
  expect(deck?.slips).toEqual([
    { key: itemOf(report, 'two').key, asked: 'Speed two?', given: expect.stringMatching(/^103\skt/), times: 2 },
  ]);
});

test('recall today and on the day is that of the memory, to three decimals, if nothing more is practised', async () => {
  const bench = await practised();
  const source = await sourceOf(bench);
  const key = itemOf(buildReport(source), 'one').key;
  const known = source.memory.items.get(key);
  if (known === undefined) throw new Error('never met');
  const chance = (days: number) => Math.round(1000 * chanceAfter(known.s, source.day + days - known.day)) / 1000;
  const at = (days: number) => itemOf(buildReport({ ...source, checkDay: source.day + days }), 'one');
  expect(itemOf(buildReport(source), 'one')).toMatchObject({ now: chance(0), day: null });
  const ahead = buildReport({ ...source, checkDay: source.day + 9 });
  isRight(ahead);
  expect(ahead.checkDate).toBe('2026-12-06');
  expect(itemOf(ahead, 'one')).toMatchObject({ now: chance(0), day: chance(9) });
  expect(chance(9)).toBeLessThan(chance(0));
  // Far off, and on the day itself, when nothing is planned any more.
  expect(at(2000).day).toBe(chance(2000));
  expect(at(0).day).toBe(chance(0));
  // Never asked, and a check that is past.
  expect(itemOf(ahead, 'four').day).toBeNull();
  expect(at(-1).day).toBeNull();
});

test('a procedure with a check of its own: recall on that day, and which day it is', async () => {
  const deck = JSON.parse(readFileSync('decks/merrow-takeoff.deck.json', 'utf8')) as Deck;
  const bench = await benchOf(deck);
  const { learner } = bench;
  await learner.set(`variants/${deck.id}`, { engine: ['tk11'], operator: ['calder'] });
  const resolved = learner.practised.value[0]?.resolved;
  const first = (group: string) => {
    const found = [...(resolved?.items.values() ?? [])].find((one) => one.group === group);
    if (found === undefined) throw new Error(`${group} is not in the deck`);
    return found;
  };
  const [early, later] = [first('take-off-roll'), first('rotation')];
  for (const { thing } of [early, later]) await learner.append(answered(learner, thing, 'right'));
  bench.at += DAY;
  const group = (date: string, things = [`${deck.id}#take-off-roll`]) => ({ id: 'g', name: 'Session 3', date, things });
  await learner.set('check-date/fictional', '2026-12-20');
  const made = async (groups: unknown) => {
    await learner.set('check-groups/fictional', groups);
    const report = buildReport({
      ...(await sourceOf(bench)),
      ownCheckDays: ownCheckDays(learner, 'fictional', learner.today()),
    });
    isRight(report);
    const of = (key: string) => report.decks[0]?.items.find((one) => one.key === key);
    return { report, early: of(early.key), later: of(later.key) };
  };
  const chance = (key: string, date: string) => {
    const known = learner.memory.value.items.get(key);
    if (known === undefined) throw new Error('never met');
    return Math.round(1000 * chanceAfter(known.s, Date.parse(date) / DAY - known.day)) / 1000;
  };
  const dated = await made([group('2026-12-01')]);
  expect(dated.report.checkDate).toBe('2026-12-20');
  expect(dated.early).toMatchObject({ check: '2026-12-01', day: chance(early.key, '2026-12-01') });
  expect(dated.later).toMatchObject({ day: chance(later.key, '2026-12-20') });
  expect(dated.later).not.toHaveProperty('check');
  expect(dated.early?.day).toBeGreaterThan(chance(early.key, '2026-12-20'));
  // All of the procedure, what was never asked too, and nothing else.
  const items = dated.report.decks[0]?.items ?? [];
  const isOfGroup = (key: string) => resolved?.items.get(key)?.group === 'take-off-roll';
  expect(items.filter(({ check }) => check !== undefined)).toEqual(items.filter(({ key }) => isOfGroup(key)));
  expect(items.filter(({ key }) => isOfGroup(key)).length).toBeGreaterThan(3);
  const lines = reportLines(dated.report, 'ABCD', resolved === undefined ? [] : [resolved]);
  const part = lines.decks[0]?.parts.find(({ title }) => title === 'Take-off roll');
  expect(part?.said).toMatch(/checked before the rest, on 1 December 2026; recall of 1 now \d+ %, on that day \d+ %;/);
  expect(part?.items.find(({ key }) => key === early.key)?.said[0]).toMatch(
    /On its own check date, 1 December 2026: \d+ %\.$/,
  );
  // On its day it is still that day's; behind it, and not before the check of all, it counts for the check of all.
  expect((await made([group('2026-11-26')])).early).toMatchObject({ check: '2026-11-26', day: dated.early?.now });
  for (const date of ['2026-11-25', '2026-12-20', '2026-12-24']) {
    const plain = (await made([group(date)])).early;
    expect(plain).not.toHaveProperty('check');
    expect(plain?.day).toBe(chance(early.key, '2026-12-20'));
  }
});

test('which assignment it answers is in it, where there is one', async () => {
  const source = await sourceOf(await practised());
  expect('assignment' in buildReport(source)).toBe(false);
  const report = buildReport({ ...source, assignment: { id: 'abc', n: 2 } });
  isRight(report);
  expect(report.assignment).toEqual({ id: 'abc', n: 2 });
});

test('what the plan expects goes along while a check is ahead, in words and figures', async () => {
  const source = await sourceOf(await practised());
  const plan = { minutes: 10, recall: 0.93149, needed: 12 };
  const made = (checkDay: number | null, of: ReportSource['plan'] = plan) => {
    const report = buildReport({ ...source, checkDay, plan: of });
    isRight(report);
    return report;
  };
  const ahead = made(source.day + 9);
  expect(ahead.plan).toEqual({ minutes: 10, recall: 0.931, needed: 12 });
  for (const none of [made(null), made(source.day), made(source.day - 1), made(source.day + 9, null)])
    expect(none).not.toHaveProperty('plan');
  const said = (report: Report) =>
    reportLines(report, 'ABCD', []).about.find(({ what }) => what === 'What your plan expects')?.said;
  expect(said(ahead)).toBe(
    'recall of 93 % on the check date with 10 minutes a day; least minutes a day that reach 95 %: 12',
  );
  expect(said(made(source.day + 9, { ...plan, needed: null }))).toContain('no number of minutes would reach 95 %');
  // Made before the plan was there, it is still the one that was made; with another answer it is not.
  expect(contentOf({ ...ahead, n: 2 })).toBe(contentOf(made(source.day + 9, null)));
  expect(contentOf({ ...ahead, answers: 99 })).not.toBe(contentOf(ahead));
  // One that makes no sense is refused.
  expect(reportTrouble({ ...ahead, checkDate: '2026-11-26' })).toContain('plan');
  expect(reportTrouble({ ...ahead, plan: { ...plan, recall: 0.12345 } })).toContain('three decimals');
});

test('what is left out is in no member, and is named', async () => {
  const bench = await practised();
  const all: readonly Leavable[] = ['sure', 'queries', 'days', 'minutes', 'slips'];
  const members: Readonly<Record<Leavable, readonly string[]>> = {
    sure: ['"sureWrong":'],
    queries: ['"queries":', '103 or 130'],
    days: ['"days":', '"last":', '2026-11-25'],
    minutes: ['"minutes":'],
    slips: ['"slips":', '103'],
  };
  for (const part of all) {
    const report = buildReport(await sourceOf(bench, [part]));
    isRight(report);
    expect(report.leftOut).toEqual([part]);
    const text = JSON.stringify(report);
    // What was queried names the number too.
    const own = part === 'slips' ? ['"slips":'] : members[part];
    for (const one of own) expect(text).not.toContain(one);
    for (const other of all.filter((one) => one !== part)) expect(text).toContain(members[other][0]);
  }
  const bare = buildReport(await sourceOf(bench, [...all].reverse()));
  isRight(bare);
  expect(bare.leftOut).toEqual(all);
  for (const one of Object.values(members).flat()) expect(JSON.stringify(bare)).not.toContain(one);
});

test('no time of day, no entry and no writer is in it', async () => {
  const bench = await practised();
  const text = JSON.stringify(buildReport(await sourceOf(bench)));
  expect(text).not.toMatch(/\d\d:\d\d/);
  expect(text).not.toContain(bench.store.writer);
  for (const { at, id } of await bench.entries()) {
    expect(text).not.toContain(String(at));
    expect(text).not.toContain(id);
  }
});

test('before the first answer, and of a deck with what is left out of its steps', async () => {
  const empty = await benchOf(LIMITS);
  const fresh = buildReport(await sourceOf(empty));
  isRight(fresh);
  expect(fresh).toMatchObject({ answers: 0, days: [], minutes: 0 });
  expect(practiceRecord((await sourceOf(empty)).decks).decks).toEqual([]);

  const deck = JSON.parse(readFileSync('decks/merrow-takeoff.deck.json', 'utf8')) as Deck;
  const bench = await benchOf(deck);
  await bench.learner.set(`variants/${deck.id}`, { engine: ['tk11'], operator: ['calder'] });
  const whole = buildReport(await sourceOf(bench));
  isRight(whole);
  await bench.learner.set('left-out/fictional', ['cue']);
  const some = buildReport(await sourceOf(bench));
  isRight(some);
  const cues = whole.decks[0]?.items.filter(({ key }) => key.includes('.cue~')).length ?? 0;
  expect(cues).toBeGreaterThan(3);
  expect(some.decks[0]?.notAsked).toBe(cues);
  expect(some.decks[0]?.items).toHaveLength((whole.decks[0]?.items.length ?? 0) - cues);
  expect(whole.decks[0]?.variants).toEqual(['engine=tk11,operator=calder']);
});

test('every line that leaves is told: each member of the file is found in the words', async () => {
  const bench = await practised();
  await bench.learner.set('check-date/fictional', '2026-12-06');
  const source = await sourceOf(bench);
  const report = buildReport(source);
  const { about, decks } = reportLines(
    report,
    'ABCD EFGH IJKL MNOP',
    source.decks.map(({ resolved }) => resolved),
  );
  const words = JSON.stringify([about, decks]);
  // A slip says its item in brackets where the question does not say it, and of a longer name only what is more.
  const two = itemOf(report, 'two').key;
  const toldAs = (asked: string) => {
    const [deck] = report.decks;
    if (deck === undefined) throw new Error('no deck');
    const slips = [{ key: two, asked, given: '103 kt', times: 2 }];
    const label = source.decks[0]?.resolved.items.get(two)?.label;
    const resolved = source.decks.map((one) => ({
      ...one.resolved,
      items: new Map(
        [...one.resolved.items].map(([key, of]) => [key, key === two ? { ...of, label: `${label} (dry)` } : of]),
      ),
    }));
    return reportLines({ ...report, decks: [{ ...deck, slips }] }, '', resolved).decks[0]?.slips;
  };
  expect(toldAs('Speed two?')).toEqual(['Speed two?: 103 kt, twice (dry)']);
  expect(toldAs('Speed two? (dry)')).toEqual(['Speed two? (dry): 103 kt, twice']);
  expect(toldAs('In its step')).toEqual(['In its step: 103 kt, twice (Speed two? (dry))']);
  const [deck] = report.decks;
  for (const one of [
    'Trainee K7QD',
    '27 November 2026',
    'number 1',
    'ABCD EFGH',
    '6 December 2026',
    '10 minutes a day',
    '25 November 2026',
    '3 minutes',
    'Recency test, report format 2',
    'yourself alone',
    'c'.repeat(64),
    'version 1.0.0',
    'calder/small',
    '4 items',
    'Is it 103 or 130?',
    '103',
    'twice',
  ])
    expect(words).toContain(one);
  expect(about.find(({ what }) => what === 'Questions answered')?.said).toBe('6');
  // Of each item every number.
  const told = decks[0]?.parts.flatMap(({ items }) => items) ?? [];
  expect(told.map(({ key }) => key)).toEqual(deck?.items.map(({ key }) => key));
  expect(told[1]?.said.join(' ')).toBe(
    `Recall now: ${Math.round((deck?.items[1]?.now ?? 0) * 100)} %. On the check date: ${Math.round((deck?.items[1]?.day ?? 0) * 100)} %. 2 answers missed, 0 unsure, 1 sound, 0 fluent. Sure, but wrong: 2. Taken back: 0. Last answered: 26 November 2026.`,
  );
  expect(decks[0]?.parts.map(({ title, said: sum }) => [title, sum])).toEqual([
    [
      'Limits',
      expect.stringMatching(
        /^4 items; recall of 3 now \d+ %, on the check date \d+ %; 3 answers missed, 1 unsure, 2 sound, 0 fluent$/,
      ),
    ],
  ]);
  expect(decks[0]?.fictional).toBe(true);
});

test('the record for a training file: the same counts, by part, with its days', async () => {
  const bench = await practised();
  const { decks } = await sourceOf(bench);
  const record = practiceRecord(decks);
  const day = Date.parse('2026-11-25T00:00:00Z') / DAY;
  expect(record).toMatchObject({ from: day, to: day + 1, days: 2, minutes: 3, answers: 6 });
  expect(record.decks).toHaveLength(1);
  expect(record.decks[0]).toMatchObject({
    title: 'Small',
    version: '1.0.0',
    nature: 'fictional',
    contentId: 'c'.repeat(64),
    from: day,
    to: day + 1,
    days: 2,
    answers: 6,
    rows: [{ title: 'Limits', items: 4, verdicts: [3, 1, 2, 0] }],
    former: null,
  });
  // Of items that are no longer asked the verdicts are not lost.
  const [source] = decks;
  if (source === undefined) throw new Error('no deck');
  const later = practiceRecord([{ ...source, asked: source.asked.filter(({ thing }) => thing !== 'two') }]);
  expect(later.decks[0]).toMatchObject({
    rows: [{ items: 3, verdicts: [1, 1, 1, 0] }],
    former: { items: 1, verdicts: [2, 0, 1, 0] },
  });
});

test('key and choice stay on the device; the key is made once', async () => {
  const { signing } = await import('../../../src/exchange/signing.ts');
  const bench = await benchOf(LIMITS, { signing: async () => signing });
  const key = await deviceKey(bench.learner);
  expect((await deviceKey(bench.learner)).x).toBe(key.x);
  expect(await keptChoice(bench.learner, key)).toEqual({
    trainee: `Trainee ${key.fingerprint.letters.slice(0, 4)}`,
    leftOut: [],
    n: 0,
  });
  await keepChoice(bench.learner, { trainee: 'K. 7', leftOut: ['days'], n: 4 });
  expect(await keptChoice(bench.learner, key)).toEqual({ trainee: 'K. 7', leftOut: ['days'], n: 4 });
});

test.each([
  ['Trainee K7QD', 'Trainee-K7QD-2026-11-25.report.txt'],
  ['../Jörg / 2', 'Jörg-2-2026-11-25.report.txt'],
  ['...', 'trainee-2026-11-25.report.txt'],
])('the file of %j is called %s', (trainee, name) => {
  expect(reportName({ trainee, made: '2026-11-25' })).toBe(name);
});
