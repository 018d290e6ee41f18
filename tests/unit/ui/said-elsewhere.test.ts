import { describe, expect, test } from 'vitest';
import { contentId } from '../../../src/exchange/content-id.ts';
import { writeCopy } from '../../../src/exchange/saved-copy.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { Exchanged, SecondDevice } from '../../../src/model/second-device.ts';
import { takeCopy } from '../../../src/ui/models/copies.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { exchange } from '../../../src/ui/models/second-device.ts';
import { AT, answered, type Bench, benchOf, DAY, LIMITS } from './learners.ts';

const FLOWN: Deck = {
  ...LIMITS,
  variants: [{ id: 'engine', label: 'Engine', options: { early: 'Early', late: 'Late' } }],
} as Deck;
const NEXT: Deck = { ...FLOWN, version: '2.0.0', title: 'Small, amended' };
const DATE = '2026-12-14';
const HELD = 'What was not told on this device is as the copy has it: date, variants, versions.';

const install = async (learner: Learner, deck: Deck) => {
  const { id, version, title, nature } = deck;
  const text = JSON.stringify(deck);
  return learner.install({ id, version, title, nature, contentId: await contentId(text), text });
};

/** A phone with practice: date, minutes, variants and a newer version, all of them older than whatever the other says. */
const practised = async (): Promise<Bench> => {
  const bench = await benchOf(FLOWN, {}, AT - 9 * DAY);
  const { learner } = bench;
  await learner.set('check-date/fictional', '2026-12-01');
  await learner.set('check-date/fictional', DATE);
  await learner.set('minutes/fictional', 25);
  await learner.set('variants/calder/small', { engine: ['late'] });
  bench.at += DAY;
  await learner.append(answered(learner, 'one', 'right'));
  await install(learner, NEXT);
  await learner.append(answered(learner, 'two', 'wrong'));
  return bench;
};
const linesIn = async ({ store }: Bench): Promise<string[]> => {
  const lines: string[] = [];
  await store.log.all((part) => void lines.push(...part));
  return lines.sort();
};
/** The first revision has no content id of its own on a bench: the newer one alone goes along. */
const copyOf = async (bench: Bench): Promise<Blob> => {
  const decks = (await bench.store.decks.list()).filter(({ version }) => version === NEXT.version);
  return new Blob([writeCopy({ decks, lines: await linesIn(bench) }, { app: 'test', at: 0 })]);
};
const stateOf = (learner: Learner) => ({
  date: learner.setting('check-date/fictional'),
  minutes: learner.minutes('fictional'),
  variants: learner.setting('variants/calder/small'),
  asked: learner.practised.value.map(({ deck }) => deck.version),
  taken: learner.decks.value.filter(({ active }) => active).map(({ version }) => version),
});
const THEIRS = {
  date: DATE,
  minutes: 25,
  variants: { engine: ['late'] },
  asked: ['2.0.0'],
  taken: ['2.0.0'],
};

/** Set up anew, and told nothing. */
const fresh = async (more: Parameters<typeof benchOf>[1] = {}): Promise<Bench> => {
  const bench = await benchOf(FLOWN, more);
  await bench.learner.set('variants/calder/small', { engine: [] });
  await bench.learner.set('check-date/fictional', null);
  return bench;
};

describe('a device without an answer of its own', () => {
  test('takes date, minutes, variants and the newer version from a copy, though it said "not yet" later', async () => {
    const copy = await copyOf(await practised());
    const { learner } = await fresh();
    const lines = await takeCopy(learner, copy);
    expect(stateOf(learner)).toEqual(THEIRS);
    expect(learner.memory.value.answers).toBe(2);
    expect(lines).toEqual([expect.stringMatching(/^Taken in: 2 answers .*1 deck was new\./), HELD]);
  });

  test('the same copy once more writes nothing', async () => {
    const copy = await copyOf(await practised());
    const bench = await fresh();
    await takeCopy(bench.learner, copy);
    const before = await linesIn(bench);
    expect(await takeCopy(bench.learner, copy)).not.toContain(HELD);
    expect(await linesIn(bench)).toEqual(before);
    // What is said from now on is the learner's own.
    await bench.learner.set('check-date/fictional', null);
    await takeCopy(bench.learner, copy);
    expect(bench.learner.setting('check-date/fictional')).toBeNull();
  });

  test('what it did say holds, and a newer version that it took is not given back', async () => {
    const copy = await copyOf(await practised());
    const { learner } = await fresh();
    await learner.set('check-date/fictional', '2027-01-10');
    await learner.set('minutes/fictional', 5);
    await install(learner, { ...NEXT, version: '3.0.0' });
    await takeCopy(learner, copy);
    expect(stateOf(learner)).toEqual({
      date: '2027-01-10',
      minutes: 5,
      variants: { engine: ['late'] },
      asked: ['3.0.0'],
      taken: ['3.0.0'],
    });
  });

  test('a copy in which the date was taken back brings none', async () => {
    const old = await practised();
    await old.learner.set('check-date/fictional', null);
    const { learner } = await fresh();
    await takeCopy(learner, await copyOf(old));
    expect(learner.setting('check-date/fictional')).toBeNull();
    expect(learner.setting('variants/calder/small')).toEqual({ engine: ['late'] });
  });

  test('nothing is written where the copy holds by itself', async () => {
    const old = await practised();
    const bench = await benchOf(NEXT);
    const [own] = await linesIn(bench);
    await takeCopy(bench.learner, await copyOf(old));
    expect(bench.learner.setting('check-date/fictional')).toBe(DATE);
    expect(await linesIn(bench)).toEqual([...(await linesIn(old)), own].sort());
  });

  test('from the folder of another device it takes the same', async () => {
    const copy = await (await copyOf(await practised())).text();
    const never = () => Promise.reject(new Error('not asked for'));
    let left = 1;
    const folder: SecondDevice = {
      state: never,
      look: never,
      make: never,
      begin: never,
      stop: never,
      tell: () => undefined,
      exchange: async (): Promise<Exchanged | null> => {
        left -= 1;
        if (left < 0) return null;
        const { added: entries, answers, days, decks, clashes } = await bench.store.importAll(copy);
        const came = { entries, answers, days, decks, clashes };
        return { came, went: { entries: 0, answers: 0, decks: 0 }, aside: [], badLines: 0, more: false };
      },
    };
    const bench = await fresh({ secondDevice: async () => folder });
    await exchange(bench.learner, true);
    expect(stateOf(bench.learner)).toEqual(THEIRS);
  });
});

test('of two devices with answers the latest say holds, "no date yet" too, and each keeps the version it took', async () => {
  const copy = await copyOf(await practised());
  const bench = await fresh();
  await bench.learner.append(answered(bench.learner, 'three', 'right'));
  const before = await linesIn(bench);
  expect(await takeCopy(bench.learner, copy)).not.toContain(HELD);
  expect(stateOf(bench.learner)).toEqual({
    date: null,
    minutes: 25,
    variants: { engine: [] },
    asked: ['1.0.0'],
    taken: ['1.0.0'],
  });
  const theirs = (await copy.text()).split('\n').filter((line) => line.includes('"app"') && !line.includes('recency'));
  expect(await linesIn(bench)).toEqual([...new Set([...before, ...theirs])].sort());
});
