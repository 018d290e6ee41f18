import { describe, expect, test } from 'vitest';
import { APART } from '../../../src/drill/compose.ts';
import { startSession } from '../../../src/drill/session.ts';
import type { Session } from '../../../src/drill/types.ts';
import { offers } from '../../../src/forms/registry.ts';
import type { ItemMemory } from '../../../src/memory/types.ts';
import type { Limit } from '../../../src/model/deck.ts';
import type { ItemKey } from '../../../src/model/item.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { flow, resolved } from '../forms/small-decks.ts';
import {
  FIRST_DAY,
  itemsAsked,
  knowsAll,
  knowsNothing,
  type Played,
  type Practice,
  play,
  practiceOf,
} from './practice.ts';

const limits = (n: number, more: Partial<Limit> = {}): Limit[] =>
  [...Array(n).keys()].map(
    (i) =>
      ({
        id: `limit-${i}`,
        ask: `Speed ${'abcdefghijklmnopqrstuvwxyz'[i]}?`,
        unit: 'kt',
        sense: 'at most',
        value: 100 + 7 * i,
        ...more,
      }) as Limit,
  );
const keyOf = (deck: Resolved, thing: string): ItemKey =>
  [...deck.items.values()].find((item) => item.thing === thing)?.key ?? '';

/** As after some weeks. @param s stability, days */
const practised = (practice: Practice, key: ItemKey, s: number, ago: number, more: Partial<ItemMemory> = {}): void => {
  const day = FIRST_DAY - ago;
  practice.memory.items.set(key, {
    s,
    d: 5,
    day,
    at: day * 86_400_000,
    n: 3,
    rightDays: 2,
    lastRightDay: day,
    first: day - 20,
    verdict: 'sound',
    alert: null,
    ...more,
  });
};
const INVENTED = { course: 'fictional' } as const;

/** Kinds of what a drill was in, repeats of the same left out: read, ask, verdict, done. */
const readings = ({ states }: Played) => {
  const found: Extract<Session['now'], { kind: 'read' }>[] = [];
  for (const { now } of states) {
    if (now.kind !== 'read') continue;
    const before = found.at(-1);
    if (before === undefined || JSON.stringify(before) !== JSON.stringify(now)) found.push(now);
  }
  return found;
};

describe('first meeting', () => {
  test('is reading, at most five things, and then a question about them', () => {
    const deck = resolved({ procedures: [flow(9)], limits: limits(7) });
    const played = play(practiceOf([deck]), 0, knowsAll, INVENTED);
    const kinds = played.states.map(({ now }) => now.kind).filter((kind, i, all) => kind !== all[i - 1]);
    expect(kinds.slice(0, 3)).toEqual(['read', 'ask', 'verdict']);
    const read = readings(played);
    expect(read.every(({ things }) => things.length >= 1 && things.length <= 5)).toBe(true);
    // Everything was met: nine steps and seven limits.
    expect(new Set(read.flatMap(({ things }) => things)).size).toBe(16);
    expect(played.session.now).toEqual({ kind: 'done', why: 'empty' });
  });

  test('no question holds anything that was not read before it, or more than five new items', () => {
    const deck = resolved({ procedures: [flow(9), flow(4, { id: 'second', title: 'Second' })], limits: limits(12) });
    const practice = practiceOf([deck]);
    const seen = new Set<ItemKey>();
    const played = play(
      practice,
      0,
      (now, world) => {
        const fresh = now.offer.proves.filter((key) => !seen.has(key));
        expect(fresh.length).toBeLessThanOrEqual(5);
        for (const key of fresh) {
          const item = deck.items.get(key);
          expect(practice.memory.read.has(`${item?.deck}#${item?.thing}`)).toBe(true);
          seen.add(key);
        }
        return knowsAll(now, world);
      },
      INVENTED,
    );
    expect(played.asked.length).toBeGreaterThan(10);
  });

  test('what was read in a drill that ended before it was asked is asked in the next', () => {
    const deck = resolved({ limits: limits(4) });
    const practice = practiceOf([deck]);
    for (const { id } of deck.deck.limits ?? []) practice.memory.read.set(`${deck.deck.id}#${id}`, FIRST_DAY - 1);
    const { now } = startSession(
      { id: 'd', course: 'fictional', started: 0, seconds: 300, seed: 1 },
      practice.world(0),
    );
    expect(now.kind).toBe('ask');
  });

  test('a limit of many cases is read alone; others keep to five items', () => {
    const cases = (n: number) =>
      [...Array(n).keys()].map((i) => ({ id: `c${i}`, given: { text: `Case ${i}` }, value: 50 + i }));
    const many = { id: 'many', ask: 'How many?', unit: 'kt', sense: 'at most', cases: cases(7) } as unknown as Limit;
    const deck = resolved({ limits: [many, ...limits(6)] });
    const read = readings(play(practiceOf([deck]), 0, knowsAll, INVENTED));
    const sizes = read.map(
      ({ things }) => [...deck.items.values()].filter(({ thing }) => things.includes(thing)).length,
    );
    expect(read[0]?.things).toEqual(['many']);
    expect(sizes[0]).toBe(deck.items.size - 6);
    expect(sizes.slice(1)).toEqual([5, 1]);
  });

  test('a whole run waits until each of its steps was right once', () => {
    const deck = resolved({ procedures: [flow(8)] });
    const whole = offers(deck, null, 1).find(({ about }) => about.part === undefined);
    expect(whole?.needs).toBe('right-once');
    const practice = practiceOf([deck]);
    const first = play(practice, 0, knowsAll, INVENTED);
    expect(first.asked.every(({ offer }) => offer.about.part !== undefined)).toBe(true);
    // Three weeks on, all of it is due: one run of everything.
    const later = play(practice, 21, knowsAll, INVENTED);
    expect(later.asked[0]?.offer.about.part).toBe(undefined);
    // Had one step never been right, it would still be parts.
    const other = practiceOf([deck]);
    for (const [i, key] of [...deck.items.keys()].entries())
      practised(other, key, 3, 20, i === 4 ? { rightDays: 0, lastRightDay: null } : {});
    expect(play(other, 0, knowsAll, INVENTED).asked[0]?.offer.about.part).not.toBe(undefined);
  });
});

describe('what comes first', () => {
  const deck = resolved({ limits: limits(12) });
  const at = (i: number) => keyOf(deck, `limit-${i}`);
  test('sure and wrong, then missed, then the least certain, then what gains', () => {
    const practice = practiceOf([deck]);
    for (let i = 0; i < 12; i++) practised(practice, at(i), 60, 1);
    practised(practice, at(7), 60, 1, { alert: 0 });
    practised(practice, at(3), 60, 1, { verdict: 'missed' });
    practised(practice, at(9), 2, 30);
    practised(practice, at(5), 20, 30);
    const first = itemsAsked(play(practice, 0, knowsAll, INVENTED)).slice(0, 4);
    expect(first).toEqual([[at(7)], [at(3)], [at(9)], [at(5)]]);
  });

  test('new items keep coming, however much is due; and not before something due', () => {
    const many = resolved({ limits: limits(26) });
    const practice = practiceOf([many]);
    for (let i = 0; i < 20; i++) practised(practice, keyOf(many, `limit-${i}`), 1, 30);
    const played = play(practice, 0, knowsAll, { ...INVENTED, seconds: 240 });
    expect(played.states[0]?.now.kind).toBe('ask');
    const read = readings(played);
    expect(read.length).toBeGreaterThanOrEqual(1);
    // What was read is asked before anything else.
    const asked = itemsAsked(played).flat();
    const fresh = asked.filter((key) => read[0]?.things.includes(many.items.get(key)?.thing ?? ''));
    expect(fresh).toHaveLength(5);
    expect(played.session.now).toEqual({ kind: 'done', why: 'time' });
  });

  test('in the last days before a check what gains most comes before what is due', () => {
    const practice = practiceOf([deck]);
    for (let i = 0; i < 12; i++) practised(practice, at(i), 60, 1);
    // Due by a hair, and hardly to be gained by asking; against one that is not due and will be gone.
    practised(practice, at(2), 900, 905);
    practised(practice, at(4), 2.5, 2);
    const farOff = itemsAsked(play(practice, 0, knowsAll, { ...INVENTED, checkDay: FIRST_DAY + 6, seconds: 10 }));
    expect(farOff[0]).toEqual([at(2)]);
    const again = practiceOf([deck]);
    for (let i = 0; i < 12; i++) practised(again, at(i), 60, 1);
    practised(again, at(2), 900, 905);
    practised(again, at(4), 2.5, 2);
    const near = itemsAsked(play(again, 0, knowsAll, { ...INVENTED, checkDay: FIRST_DAY + 5, seconds: 10 }));
    expect(near[0]).toEqual([at(4)]);
  });

  test('things easily taken for one another follow each other', () => {
    // Three pairs of the same words and near values; all equally due.
    const words = ['Flap one extension speed', 'Door latch torque load', 'Brake fan outlet air'];
    const pairs = [0, 1].flatMap((j) =>
      words.map(
        (ask, i) =>
          ({
            id: `p${i}-${j}`,
            ask: `${ask} ${j === 0 ? 'left' : 'right'}?`,
            unit: 'kt',
            sense: 'at most',
            value: 100 + 60 * i + j,
          }) as Limit,
      ),
    );
    const alike = resolved({ limits: pairs });
    expect(offers(alike, null, 1).every(({ confusable }) => confusable.length === 1)).toBe(true);
    const practice = practiceOf([alike]);
    for (const key of alike.items.keys()) practised(practice, key, 4, 20);
    const order = play(practice, 0, knowsAll, INVENTED).asked.map(({ offer }) => offer.about.thing.slice(0, 2));
    expect(order).toHaveLength(6);
    expect(order[0]).toBe(order[1]);
    expect(order[2]).toBe(order[3]);
  });

  test('so do cases of one limit', () => {
    const cases = (name: string) =>
      [1, 2].map((i) => ({ id: `c${i}`, given: { text: `${name} ${i}` }, value: 50 * i + name.length }));
    const both = ['Flap', 'Brake fan'].map(
      (name) =>
        ({ id: name[0]?.toLowerCase(), ask: `${name}?`, unit: 'kt', sense: 'at most', cases: cases(name) }) as Limit,
    );
    const deck = resolved({ limits: both });
    const practice = practiceOf([deck]);
    expect(offers(deck, null, 1).every(({ confusable }) => confusable.length === 0)).toBe(true);
    // By their recall alone they would come in turns.
    for (const [i, key] of [...deck.items.keys()].entries()) practised(practice, key, 4, 20 - (i % 2) / 100);
    const order = play(practice, 0, knowsAll, INVENTED).asked.map(({ offer }) => offer.about.thing);
    expect(order).toHaveLength(4);
    expect(order[0]).toBe(order[1]);
    expect(order[2]).toBe(order[3]);
  });
});

describe('the way to ask', () => {
  const deck = resolved({ procedures: [flow(10)] });
  const weak = (...at: readonly number[]) => {
    const practice = practiceOf([deck]);
    for (let i = 0; i < 10; i++) practised(practice, keyOf(deck, `s${i}`), at.includes(i) ? 3 : 400, 12);
    return play(practice, 0, knowsAll, { ...INVENTED, seconds: 20 }).asked[0]?.offer;
  };
  test('a single weak step is asked alone: what comes next, or what must be done before', () => {
    const asked = weak(6);
    expect(asked).toMatchObject({ about: { thing: 'flow', part: ['s6'] } });
    expect(['next', 'before']).toContain(asked?.form);
  });
  test('many weak steps are asked by a run of the whole', () => {
    const asked = weak(1, 2, 4, 5, 6, 8, 9);
    expect(asked?.form).toBe('run');
    expect(asked?.about.part).toBe(undefined);
  });
});

describe('repeats', () => {
  const deck = resolved({ limits: limits(20) });
  const met = () => {
    const practice = practiceOf([deck]);
    for (const key of deck.items.keys()) practised(practice, key, 3, 20);
    return practice;
  };
  test('what was answered right is not asked again in the same drill', () => {
    const keys = itemsAsked(play(met(), 0, knowsAll, { ...INVENTED, seconds: 3000 })).flat();
    expect(keys).toHaveLength(20);
    expect(new Set(keys).size).toBe(20);
  });

  test('what was missed comes back after five others', () => {
    const practice = met();
    const missed = keyOf(deck, 'limit-6');
    const keys = itemsAsked(
      play(
        practice,
        0,
        (now, world) =>
          now.offer.proves.includes(missed) && practice.memory.items.get(missed)?.day !== FIRST_DAY
            ? { given: null, sure: null }
            : knowsAll(now, world),
        { ...INVENTED, seconds: 3000 },
      ),
    ).flat();
    const places = keys.flatMap((key, i) => (key === missed ? [i] : []));
    expect(places).toHaveLength(2);
    expect((places[1] as number) - (places[0] as number)).toBe(APART + 1);
  });

  test('with nothing else left it comes sooner, but not at once', () => {
    const few = resolved({ limits: limits(3) });
    const practice = practiceOf([few]);
    for (const key of few.items.keys()) practised(practice, key, 3, 20);
    const keys = itemsAsked(play(practice, 0, knowsNothing, { ...INVENTED, seconds: 3000 })).flat();
    expect(keys.length).toBeGreaterThan(3);
    for (let i = 1; i < keys.length; i++) expect(keys[i]).not.toBe(keys[i - 1]);
  });

  test('until then no other part of the run holds it', () => {
    const run = resolved({ procedures: [flow(8)], limits: limits(12) });
    const practice = practiceOf([run]);
    // One step was never right, so that the run is asked in parts, which have one step in common.
    const never = { rightDays: 0, lastRightDay: null };
    for (const item of run.items.values())
      practised(practice, item.key, 3, 20, item.facet === 'place' ? { ...never, verdict: 'missed' } : {});
    let isFirst = true;
    const played = play(
      practice,
      0,
      (now, world) => {
        const wrong = isFirst;
        isFirst = false;
        return wrong ? { given: null, sure: null } : knowsAll(now, world);
      },
      { ...INVENTED, seconds: 3000 },
    );
    const asked = itemsAsked(played);
    const missed = asked[0] ?? [];
    expect(missed.length).toBeGreaterThan(2);
    const again = asked.findIndex((keys, i) => i > 0 && keys.some((key) => missed.includes(key)));
    expect(again).toBe(APART + 1);
  });

  test('a part of a run of which most was asked is not asked again', () => {
    const run = resolved({ procedures: [flow(14)] });
    const practice = practiceOf([run]);
    for (const [i, key] of [...run.items.keys()].entries()) practised(practice, key, i === 4 || i === 6 ? 3 : 30, 4);
    const asked = itemsAsked(play(practice, 0, knowsAll, { ...INVENTED, seconds: 3000 }));
    const seen = new Set<ItemKey>();
    for (const keys of asked) {
      expect(keys.filter((key) => seen.has(key)).length * 3).toBeLessThanOrEqual(keys.length);
      for (const key of keys) seen.add(key);
    }
    expect(asked.length).toBeGreaterThan(2);
  });

  test('three times missed, an item rests until the next drill, where it comes first', () => {
    const practice = met();
    const played = play(practice, 0, knowsNothing, { ...INVENTED, seconds: 3000 });
    const counts = new Map<ItemKey, number>();
    for (const key of itemsAsked(played).flat()) counts.set(key, (counts.get(key) ?? 0) + 1);
    expect([...new Set(counts.values())]).toEqual([3]);
    const next = itemsAsked(play(practice, 0, knowsAll, { ...INVENTED, seed: 8, seconds: 3000 })).flat();
    expect(new Set(next)).toEqual(new Set(deck.items.keys()));
  });

  test('a missed step comes back in another part of the run, where one holds it', () => {
    const run = resolved({ procedures: [flow(9)], limits: limits(12) });
    const practice = practiceOf([run]);
    for (const key of run.items.keys()) practised(practice, key, 3, 20);
    let missed: string[] = [];
    const played = play(
      practice,
      0,
      (now, world) => {
        if (now.offer.form !== 'run' || missed.length > 0) return knowsAll(now, world);
        missed = [...now.offer.proves];
        return { given: null, sure: null };
      },
      { ...INVENTED, seconds: 3000 },
    );
    const runs = played.asked.filter(({ offer }) => offer.form === 'run').map(({ offer }) => offer);
    expect(missed.length).toBeGreaterThan(0);
    expect(runs.length).toBeGreaterThan(1);
    expect(runs[1]?.about).not.toEqual(runs[0]?.about);
    expect(runs[1]?.proves.some((key) => missed.includes(key))).toBe(true);
  });
});

describe('the minutes', () => {
  test('are kept: the last question may run over by less than half a minute', () => {
    const deck = resolved({ limits: limits(26) });
    const practice = practiceOf([deck]);
    for (const key of deck.items.keys()) practised(practice, key, 3, 20);
    const { session } = play(practice, 0, knowsAll, { ...INVENTED, seconds: 120 });
    expect(session.now).toEqual({ kind: 'done', why: 'time' });
    expect(session.used).toBeGreaterThanOrEqual(100);
    expect(session.used).toBeLessThan(150);
  });

  test('a long question is not begun in the last seconds', () => {
    const deck = resolved({ procedures: [flow(10)], limits: limits(3) });
    const ask = (seconds: number) => {
      const practice = practiceOf([deck]);
      for (const item of deck.items.values()) practised(practice, item.key, item.facet === 'place' ? 1 : 60, 20);
      return startSession({ id: 'd', course: 'fictional', started: 0, seconds, seed: 1 }, practice.world(0)).now;
    };
    const secondsOf = (now: Session['now']) => (now.kind === 'ask' ? now.offer.seconds : Number.NaN);
    expect(secondsOf(ask(300))).toBeGreaterThan(25);
    expect(secondsOf(ask(5))).toBeLessThanOrEqual(25);
  });

  test('nothing new is read when there is no time left to ask it', () => {
    const deck = resolved({ limits: limits(6) });
    const { now } = startSession(
      { id: 'd', course: 'fictional', started: 0, seconds: 30, seed: 1 },
      practiceOf([deck]).world(0),
    );
    expect(now).toEqual({ kind: 'done', why: 'time' });
  });
});

test('invented and real content never share a drill', () => {
  const invented = resolved({ id: 'calder/one', limits: limits(3) });
  const real = resolved({ id: 'calder/two', nature: 'public', limits: limits(3) });
  for (const [course, expected] of [
    ['fictional', invented.ref],
    ['real', real.ref],
  ] as const) {
    const played = play(practiceOf([invented, real]), 0, knowsAll, { course });
    expect(new Set(played.asked.map(({ deck }) => deck))).toEqual(new Set([expected]));
    expect(played.asked).toHaveLength(3);
  }
});
