import { expect, test, vi } from 'vitest';
import { lastLook } from '../../../src/drill/last-look.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';
import { isLastDays } from '../../../src/ui/models/last-days.ts';
import { lastLookOf } from '../../../src/ui/models/last-look.ts';
import { createRehearsalModel, type RehearsalModel } from '../../../src/ui/models/rehearsal.ts';
import { failCommits } from '../store/faults.ts';
import { type Bench, benchOf, DAY, LIMITS } from './learners.ts';

const STEPS = ['a', 'b', 'c'];
const DECK = {
  ...LIMITS,
  procedures: [
    {
      id: 'p',
      title: 'Small flow',
      done: 'flow',
      steps: STEPS.map((id, i) => ({ id, do: `Do ${id}`, by: i === 1 ? 'PM' : 'PF', ...(i < 2 && { limit: 'one' }) })),
    },
  ],
} as unknown as Deck;

const modelOf = (bench: Bench): Promise<RehearsalModel> => createRehearsalModel(bench.learner);
const begun = async (bench: Bench): Promise<RehearsalModel> => {
  const model = await modelOf(bench);
  const deck = model.choice.value[0]?.deck ?? '';
  expect(await model.begin(deck, { procedure: 'p', seat: 'PF' })).toBe(false);
  expect(await model.read(deck, STEPS)).toBe(true);
  expect(await model.begin(deck, { procedure: 'p', seat: 'PF' })).toBe(true);
  return model;
};
const answersOf = async (bench: Bench) =>
  (await bench.entries()).filter((one): one is AnswerEntry => one.k === 'answer');

test('each answer is written at once, with its seat; the verdicts come at the end, in order', async () => {
  const bench = await benchOf(DECK);
  const model = await begun(bench);
  expect(model.at.value).toBe(0);
  model.put({ order: ['b', 'a', 'c'] });
  await model.answer(true, []);
  expect((await answersOf(bench)).map(({ form, seat, sure }) => [form, seat, sure])).toEqual([['run', 'PF', true]]);
  expect(model.at.value).toBe(1);
  expect(model.draft.value).toEqual({});
  // Nothing is entered: Sure is not taken.
  await model.answer(true, []);
  expect(model.at.value).toBe(1);
  model.put({ typed: ['100'] });
  await model.answer(false, []);
  expect(model.at.value).toBe(-1);
  const [run, limit] = model.told.value;
  expect(run?.marked.flawed).toBe(true);
  expect(Object.values(limit?.verdicts ?? {})).toEqual(['unsure']);
  expect(bench.learner.memory.value.answers).toBe(2);

  if (limit == null) throw new Error('not told');
  await model.query(limit, ' Which speed? ');
  expect(model.told.value[1]?.voided).toBe('query');
  const voids = (await bench.entries()).filter(({ k }) => k === 'void');
  expect(voids).toMatchObject([
    { of: limit.entry, why: 'query', note: 'Which speed?', drill: model.rehearsal.value?.id },
  ]);
  expect(bench.learner.memory.value.answers).toBe(1);
  await model.end();
  expect(model.rehearsal.value).toBeNull();
  const later = await modelOf(bench);
  expect(later.rehearsal.value).toBeNull();
  expect(later.seat.value).toBe('PF');
});

test('ended in the middle it goes on behind the last answer that was stored', async () => {
  const bench = await benchOf(DECK);
  const first = await begun(bench);
  first.put({ order: STEPS });
  await first.answer(true, []);
  first.put({ typed: ['9'] });
  const again = await createRehearsalModel(await bench.again());
  expect(again.rehearsal.value).toEqual(first.rehearsal.value);
  expect(again.at.value).toBe(1);
  expect(again.draft.value).toEqual({});
  expect(again.told.value[0]).toMatchObject({ sure: true, marked: { flawed: false } });
  await again.answer(null, []);
  expect(again.at.value).toBe(-1);
  expect(await answersOf(bench)).toHaveLength(2);
  // Its verdicts wait until they were read.
  const third = await createRehearsalModel(await bench.again());
  expect(third.at.value).toBe(-1);
  expect(third.told.value.map((one) => one?.sure)).toEqual([true, null]);
});

test('an answer that could not be stored is not passed over, nor written twice', async () => {
  const bench = await benchOf(DECK);
  const model = await begun(bench);
  model.put({ order: STEPS });
  failCommits('QuotaExceededError', { times: 1000 });
  await model.answer(true, []);
  vi.restoreAllMocks();
  expect(bench.learner.problem.value).not.toBeNull();
  expect(model.at.value).toBe(0);
  expect(model.draft.value).toEqual({ order: STEPS });
  expect(model.busy.value).toBe(true);
  await bench.learner.retry();
  await vi.waitFor(() => expect(model.at.value).toBe(1));
  expect(model.busy.value).toBe(false);
  expect(await answersOf(bench)).toHaveLength(1);
  expect(bench.learner.memory.value.answers).toBe(1);
});

test('of a deck that rests nothing is asked: what was answered counts', async () => {
  const bench = await benchOf(DECK);
  const model = await begun(bench);
  model.put({ order: STEPS });
  await model.answer(true, []);
  const [stored] = bench.learner.decks.value;
  if (stored === undefined) throw new Error('no deck');
  await bench.learner.setActive(stored, false);
  expect((await modelOf(bench)).rehearsal.value).toBeNull();
  await bench.learner.setActive(stored, true);
  // Begun again it is another one.
  expect((await modelOf(bench)).rehearsal.value).toBeNull();
  expect(bench.learner.memory.value.answers).toBe(1);
});

test('a last look reads and writes nothing', async () => {
  const bench = await benchOf(DECK);
  const model = await begun(bench);
  while (model.at.value >= 0) await model.answer(null, []);
  const before = (await bench.entries()).length;
  const { learner } = bench;
  bench.at += 5 * DAY;
  const list = lastLookOf(learner);
  expect(list.map(({ why, group, isNew }) => [why, group, isNew])).toEqual([
    // Procedures as the deck has them, then limits.
    ['weakest', 'Small flow', false],
    ['critical', 'Limits', false],
  ]);
  expect(list[1]?.walk.lines[0]?.answers).toEqual([{ given: '', answer: '100\u00a0kt' }]);
  expect(await bench.entries()).toHaveLength(before);
});

test('a last look goes through a procedure in the order of its steps, whatever is weakest', async () => {
  const [flow] = DECK.procedures ?? [];
  const critical = {
    ...DECK,
    procedures: [{ ...flow, steps: flow?.steps.map((step) => ({ ...step, critical: true })) }],
  };
  const bench = await benchOf(critical as Deck);
  const model = await begun(bench);
  model.put({ order: ['c', 'a', 'b'] });
  await model.answer(false, []);
  while (model.at.value >= 0) await model.answer(null, []);
  bench.at += 5 * DAY;
  const { learner } = bench;
  const items = learner.practised.value.flatMap(({ resolved }) => [...resolved.items.values()]);
  const chosen = lastLook(items, learner.memory.value, learner.today(), null).map(({ item }) => item.thing);
  const steps = (of: readonly string[]) => of.filter((id) => STEPS.includes(id));
  expect(steps(chosen)).not.toEqual(STEPS);
  expect(steps(lastLookOf(learner).map(({ walk }) => walk.lines[0]?.id ?? ''))).toEqual(STEPS);
});

test('offered in the last three days and on the day', () => {
  expect([-1, 0, 3, 4].map((days) => isLastDays(100, 100 + days))).toEqual([false, true, true, false]);
  expect(isLastDays(100, null)).toBe(false);
});
