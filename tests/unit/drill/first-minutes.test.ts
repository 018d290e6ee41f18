import { describe, expect, test } from 'vitest';
import { knowsAll, knowsNothing, type Pace, type Played, play, practiceOf, resolvedDeck } from './practice.ts';

/** An unhurried reader: a step, its cue and its reason in seven seconds; answers with their verdicts in twenty. */
const SLOW: Pace = { read: 7, answer: 14, verdict: 6 };

const FLOWN = { engine: ['tk11'], operator: ['calder'] };
const decks = [
  ['merrow-takeoff', 'fictional'],
  ['merrow-abnormal', 'fictional'],
  ['public-rules', 'real'],
] as const;

const firstRead = ({ states }: Played) => {
  const [first] = states;
  if (first?.now.kind !== 'read') throw new Error('a new learner reads first');
  return first.now;
};

describe.each(decks)('a new learner on %s', (name, course) => {
  const started = (answerer: typeof knowsAll, seconds: number) => {
    const practice = practiceOf([resolvedDeck(name, FLOWN)]);
    return { practice, played: play(practice, 0, answerer, { course, seconds, pace: SLOW }) };
  };

  test('reads at most five steps of the first procedure, and has the first question within a minute and a half', () => {
    const { played } = started(knowsNothing, 300);
    const { groupKind, things } = firstRead(played);
    expect(groupKind).toBe('procedure');
    expect(things.length).toBeGreaterThan(2);
    expect(things.length).toBeLessThanOrEqual(5);
    expect(played.times[0]).toBeLessThanOrEqual(90);
    expect(played.asked[0]?.offer.form).toBe('run');
    expect(played.asked[0]?.offer.about.part).toEqual(things);
  });

  test('answers at least five questions on what was read within the first five minutes, of several kinds', () => {
    const { played } = started(knowsNothing, 300);
    expect(played.asked.length).toBeGreaterThanOrEqual(5);
    expect(new Set(played.asked.map(({ offer }) => offer.form)).size).toBeGreaterThanOrEqual(2);
  });
});

describe('days in a row on public-rules', () => {
  const deck = resolvedDeck('public-rules');
  const practice = practiceOf([deck]);
  const days = [0, 1, 2].map((day) => {
    const before = new Map(practice.memory.items);
    let n = 0;
    // Every third question is missed.
    const played = play(
      practice,
      day,
      (now, world) => {
        n += 1;
        return n % 3 === 0 ? knowsNothing(now, world) : knowsAll(now, world);
      },
      { seed: 11 + day },
    );
    return { before, played };
  });

  test('each day new things are met', () => {
    for (const { played } of days) expect(played.session.met.length).toBeGreaterThanOrEqual(5);
    expect(practice.memory.items.size).toBeGreaterThan(40);
  });

  test('what was missed the day before is asked before anything new is read', () => {
    for (const { before, played } of days.slice(1)) {
      const missed = [...before].filter(([, { verdict }]) => verdict === 'missed').map(([key]) => key);
      expect(missed.length).toBeGreaterThan(0);
      expect(played.states[0]?.now.kind).toBe('ask');
      expect(played.asked[0]?.offer.proves.some((key) => missed.includes(key))).toBe(true);
      const asked = new Set(played.asked.flatMap(({ offer }) => offer.proves));
      expect(missed.filter((key) => !asked.has(key))).toEqual([]);
    }
  });

  test('the minutes are used, and not overrun', () => {
    for (const { played } of days) {
      expect(played.session.used).toBeGreaterThan(500);
      expect(played.session.used).toBeLessThan(630);
    }
  });
});
