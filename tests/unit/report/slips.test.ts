import { expect, test } from 'vitest';
import { reportTrouble } from '../../../src/exchange/report-check.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import type { Deck, NumberLimit } from '../../../src/model/deck.ts';
import type { Leavable } from '../../../src/model/report.ts';
import { buildReport } from '../../../src/report/build.ts';
import { reportLines } from '../../../src/report/lines.ts';
import type { Learner, Said } from '../../../src/ui/models/learner.ts';
import { gather } from '../../../src/ui/models/report.ts';
import { type Bench, benchOf, DAY, LIMITS } from '../ui/learners.ts';

/** A number typed as the answer to one of the four limits, marked by the product itself; always sure. */
const gives = async (learner: Learner, thing: string, value: number): Promise<void> => {
  const resolved = learner.practised.value[0]?.resolved;
  const offer =
    resolved && offers(resolved, null, 1).find(({ form, about }) => form === 'limit' && about.thing === thing);
  const shown = offer && draw(resolved, offer, 3);
  if (resolved === undefined || offer === undefined || shown == null) throw new Error(`${thing} is not asked`);
  const given = { value: [value], typed: [String(value)] };
  const { marks, g } = mark(resolved, offer, shown, given);
  const { form, about, variant } = offer;
  const head = { k: 'answer', deck: resolved.ref, form, about, variant } as const;
  await learner.append({ ...head, shown, given, sure: true, ms: 30_000, marks, g, mv: 1 } as Said);
};
const givesAll = async (learner: Learner, thing: string, ...values: number[]) => {
  for (const value of values) await gives(learner, thing, value);
};

const reportOf = async ({ learner }: Bench, leftOut: readonly Leavable[] = []) => {
  const { decks } = await gather(learner, 'fictional');
  const report = buildReport({
    trainee: 'K',
    n: 1,
    day: learner.today(),
    app: 'test',
    checkDay: null,
    planned: 10,
    decks,
    memory: learner.memory.value,
    leftOut: new Set(leftOut),
  });
  expect(reportTrouble(report)).toBeNull();
  const [deck] = report.decks;
  const [lines] = reportLines(
    report,
    'ABCD',
    decks.map(({ resolved }) => resolved),
  ).decks;
  if (deck === undefined || lines === undefined) throw new Error('no deck');
  const said = deck.slips?.map(({ asked, given, times }) => `${asked} ${given.replace(/\s/g, ' ')} × ${times}`);
  const sureWrong = deck.items.reduce((sum, item) => sum + (item.sureWrong ?? 0), 0);
  return { report, deck, lines, said, sureWrong };
};

/** Another revision, in which limits have other values. */
const revise = async (learner: Learner, version: string, mark: string, values: Readonly<Record<string, number>>) => {
  const limits = (LIMITS.limits as NumberLimit[]).map((one) => ({ ...one, value: values[one.id] ?? one.value }));
  const deck = { ...LIMITS, version, limits } as Deck;
  const { id, title, nature } = deck;
  await learner.install({ id, version, title, nature, contentId: mark.repeat(64), text: JSON.stringify(deck) });
};

test('of each item the commonest wrong numbers, also those that are no other limit; the rarer ones are counted', async () => {
  const bench = await benchOf(LIMITS);
  // 1103, 55, 8: of no limit of the deck. 103 is the fourth's.
  await givesAll(bench.learner, 'one', 1103, 55, 1103, 8, 7, 103, 103, 103);
  await givesAll(bench.learner, 'two', 8, 8, 101);
  const { said, deck, lines } = await reportOf(bench);
  expect(said).toEqual([
    'Speed one? 103 kt × 3',
    'Speed one? 1103 kt × 2',
    'Speed two? 8 kt × 2',
    'Speed one? 55 kt × 1',
  ]);
  // 8 and 7, once each.
  expect(deck.slipsLeftOut).toBe(2);
  expect(lines.slips?.[1]).toMatch(/^Speed one\?: 1103\skt, twice$/);
  expect(lines.slipsLeftOut).toMatch(/^2 more wrong answers are left out: .* all but the 3 commonest of an item\.$/);
});

test('a revision takes no slip of what it left alone, and says what it changed', async () => {
  const bench = await benchOf(LIMITS);
  const { learner } = bench;
  await givesAll(learner, 'one', 7, 7);
  await givesAll(learner, 'two', 7, 103, 103);
  await givesAll(learner, 'three', 8);
  const before = await reportOf(bench);
  expect(before.sureWrong).toBe(6);
  expect('former' in before.deck).toBe(false);
  expect('slipsLeftOut' in before.deck).toBe(false);

  await revise(learner, '2.0.0', 'd', { one: 150 });
  const after = await reportOf(bench);
  expect(after.said).toEqual(before.said?.filter((one) => !one.startsWith('Speed one?')));
  expect(after.said).toHaveLength(3);
  expect(after.deck.slipsLeftOut).toBe(2);
  // What is no longer in an item is not lost: both together are all that was answered.
  expect(after.sureWrong).toBe(4);
  expect(after.deck.former).toEqual({ items: 1, verdicts: [2, 0, 0, 0], sureWrong: 2 });
  expect(after.report.answers).toBe(before.report.answers);
  expect(after.lines.lines.find(({ what }) => what === 'No longer asked')?.said).toBe(
    '1 item that a revision changed, or that you left out or no longer fly; 2 answers missed, 0 unsure, 0 sound, 0 fluent; sure, but wrong: 2; all of it told here alone, and in no part below',
  );
  // Answers to both revisions are counted as one, and the first one's again where it returns.
  await givesAll(learner, 'two', 103);
  await givesAll(learner, 'one', 100);
  const later = await reportOf(bench);
  expect(later.said).toContain('Speed two? 103 kt × 3');
  expect(later.said?.filter((one) => one.startsWith('Speed one?'))).toEqual(['Speed one? 100 kt × 1']);
  await revise(learner, '3.0.0', 'e', {});
  expect((await reportOf(bench)).said).toContain('Speed one? 7 kt × 2');
});

test('slips and surety that are left out leave no number behind', async () => {
  const bench = await benchOf(LIMITS);
  await givesAll(bench.learner, 'one', 7, 7);
  await givesAll(bench.learner, 'two', 5, 6, 7, 8);
  await revise(bench.learner, '2.0.0', 'd', { one: 150 });
  const whole = await reportOf(bench);
  expect(whole.deck).toMatchObject({ slipsLeftOut: 3, former: { sureWrong: 2 } });
  const bare = await reportOf(bench, ['sure', 'slips']);
  expect('slipsLeftOut' in bare.deck).toBe(false);
  expect(bare.deck.former).toEqual({ items: 1, verdicts: [2, 0, 0, 0] });
  expect(reportTrouble({ ...bare.report, decks: [{ ...bare.deck, slipsLeftOut: 3 }] })).toMatch(/slipsLeftOut/);
  const former = { items: 1, verdicts: [2, 0, 0, 0], sureWrong: 2 } as const;
  expect(reportTrouble({ ...bare.report, decks: [{ ...bare.deck, former }] })).toMatch(/former: sure/);
  expect(reportTrouble({ ...whole.report, decks: [{ ...whole.deck, former: { ...former, sureWrong: 3 } }] })).toMatch(
    /former: was sure/,
  );
});

test('recall now is never that of the moment after a verdict', async () => {
  const bench = await benchOf(LIMITS);
  await givesAll(bench.learner, 'one', 7, 7);
  const today = await reportOf(bench);
  bench.at += DAY;
  await bench.learner.lookAtClock();
  const tomorrow = await reportOf(bench);
  const of = ({ deck }: typeof today) => deck.items[0]?.now ?? 1;
  expect(of(today)).toBeLessThan(0.9);
  expect(of(today)).toBe(of(tomorrow));
  bench.at += DAY;
  await bench.learner.lookAtClock();
  expect(of(await reportOf(bench))).toBeLessThan(of(today));
  expect(today.lines.parts[0]?.said).toMatch(
    /^4 items; recall of 1 now \d\d %; 2 answers missed, 0 unsure, 0 sound, 0 fluent$/,
  );
});

test('on a check day itself too', async () => {
  const bench = await benchOf(LIMITS);
  await givesAll(bench.learner, 'one', 7);
  const { decks } = await gather(bench.learner, 'fictional');
  const source = { trainee: 'K', n: 1, app: 'test', planned: 10, decks, leftOut: new Set<Leavable>() };
  const day = bench.learner.today();
  const report = buildReport({ ...source, day, checkDay: day, memory: bench.learner.memory.value });
  const [item] = report.decks[0]?.items ?? [];
  expect(item?.day).toBeLessThan(0.9);
  expect(item?.day).toBe(item?.now);
});
