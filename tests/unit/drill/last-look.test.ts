import { describe, expect, test } from 'vitest';
import { lastLook, lastWalk } from '../../../src/drill/last-look.ts';
import { DEFAULT_MODEL } from '../../../src/memory/fsrs.ts';
import type { ItemMemory } from '../../../src/memory/types.ts';
import type { Item, ItemKey } from '../../../src/model/item.ts';
import { resolvedDeck } from './practice.ts';

const ONE = { engine: ['tk11'], operator: ['calder'] };
const TODAY = 100;

const item = (thing: string, more: Partial<Item> = {}): Item => ({
  key: `d#${thing}.value.standard~x`,
  deck: 'd',
  thing,
  facet: 'value',
  group: thing,
  groupKind: 'limit',
  critical: false,
  label: thing,
  rank: 0,
  views: [''],
  ...more,
});
/** Stability s in days: after s days the chance is .9. */
const known = (s: number, alert: number | null = null): ItemMemory => ({
  s,
  d: 5,
  day: TODAY,
  at: 0,
  n: 1,
  rightDays: 1,
  lastRightDay: null,
  first: TODAY,
  verdict: 'sound',
  alert,
});
const look = (of: readonly (readonly [Item, ItemMemory | null])[], checkDay: number | null = TODAY + 3) =>
  lastLook(
    of.map(([one]) => one),
    {
      items: new Map<ItemKey, ItemMemory>(of.flatMap(([{ key }, m]) => (m === null ? [] : [[key, m] as const]))),
      model: DEFAULT_MODEL,
    },
    TODAY,
    checkDay,
  );
const names = (list: ReturnType<typeof look>) => list.map(({ item: { thing }, why }) => `${thing} ${why}`);

describe('what a last look reads', () => {
  test('sure but wrong first, then critical below its target, then the weakest of each part', () => {
    const list = look([
      [item('strong'), known(500)],
      [item('weak'), known(2)],
      [item('weaker'), known(1)],
      [item('step', { groupKind: 'procedure', group: 'p', facet: 'place' }), known(2)],
      [item('crit-new', { critical: true }), null],
      [item('crit-weak', { critical: true }), known(2)],
      [item('crit-strong', { critical: true }), known(500)],
      // Above 0.9 is not enough where it must never be wrong.
      [item('crit-middle', { critical: true }), known(4)],
      [item('alert', { critical: true }), known(600, 1)],
      [item('new'), null],
      [item('cue', { facet: 'cue' }), known(1)],
    ]);
    expect(names(list)).toEqual([
      'alert alert',
      'crit-weak critical',
      'crit-middle critical',
      'crit-new critical',
      'weaker weakest',
      'step weakest',
    ]);
    expect(list.find(({ item: { thing } }) => thing === 'crit-new')?.chance).toBeNull();
  });

  test('what counts is the day of the check; without one today', () => {
    const one = [[item('a'), known(2)]] as const;
    expect(names(look(one))).toEqual(['a weakest']);
    expect(look(one)[0]?.chance).toBeLessThan(0.9);
    expect(look(one, TODAY)).toEqual([]);
    expect(look(one, TODAY - 9)).toEqual([]);
    expect(look(one, null)).toEqual([]);
  });

  test('twelve at most, four of them kept for what is not critical; cases of one limit are one', () => {
    const critical = Array.from({ length: 20 }, (_, i) => [item(`c${i}`, { critical: true }), known(1)] as const);
    const others = Array.from(
      { length: 6 },
      (_, i) => [item(`o${i}`, { groupKind: 'procedure', group: `p${i}`, facet: 'place' }), known(1)] as const,
    );
    const list = look([...critical, ...others]);
    expect(list).toHaveLength(12);
    expect(list.filter(({ why }) => why === 'weakest')).toHaveLength(4);
    expect(look([...critical.slice(0, 3), ...others]).filter(({ why }) => why === 'weakest')).toHaveLength(6);
    expect(look(critical)).toHaveLength(12);
    const second = item('c0', { critical: true, key: 'd#c0.value.other~x' });
    expect(look([critical[0] ?? never(), [second, known(1)]])).toHaveLength(1);
  });
});

describe('how it is read', () => {
  const deck = resolvedDeck('merrow-takeoff', ONE);
  const items = [...deck.items.values()];

  test('a step with those that it stands between, its reason and its source', () => {
    const steps = items.filter(({ facet, group }) => facet === 'place' && group === 'rotation');
    expect(steps.length).toBeGreaterThan(5);
    const walks = steps.map((one) => lastWalk(deck, one));
    expect(walks.map((walk) => walk?.lines.length)).toEqual(steps.map(() => 1));
    expect(walks[0]?.title).toBe('Rotation and initial climb');
    expect(walks[0]?.scene[0]).toMatch(/^First, before “/);
    expect(walks.at(-1)?.scene[0]).toMatch(/^After “.*, last$/);
    expect(walks.every((walk) => walk?.lines[0]?.source !== undefined)).toBe(true);
    expect(walks.every((walk) => walk?.lines[0]?.by !== undefined)).toBe(true);
  });

  test('what nothing stands before is first only where it comes before all others', () => {
    const roll = items.filter(({ facet, group }) => facet === 'place' && group === 'take-off-roll');
    const placeOf = (thing: string) =>
      lastWalk(deck, roll.find((one) => one.thing === thing) ?? never())?.scene[0] ?? '';
    // Stick and tiller come before the call, in lanes of their own.
    expect(placeOf('ro-speed')).toMatch(/^Before “Checked”/);
    expect(placeOf('ro-rotate')).toMatch(/, last$/);
    const thrust = items.find(({ facet, thing }) => facet === 'place' && thing === 'st-announce') ?? never();
    // Which way of starting the roll is meant.
    expect(lastWalk(deck, thrust)?.scene.join('; ')).toMatch(/^First, before “.*; (?:Standing|Rolling) take-off/);
  });

  test('a limit with all its cases; a decision with its rules, and not the other asks of its scenario', () => {
    const limit = items.find(({ facet, thing }) => facet === 'value' && thing === 'autopilot-height') ?? never();
    expect(lastWalk(deck, limit)?.lines[0]?.answers.length).toBeGreaterThan(0);
    const wind = resolvedDeck('wind-altimetry');
    const asks = [...wind.items.values()].filter(({ groupKind }) => groupKind === 'scenario');
    expect(asks.length).toBeGreaterThan(5);
    for (const one of asks) {
      const walk = lastWalk(wind, one);
      expect(new Set(walk?.lines.map(({ id }) => id.replace(/@.*/, ''))).size).toBe(1);
      expect(walk?.lines[0]?.answers.length).toBeGreaterThan(0);
    }
  });

  test('every item of a deck can be read; of another deck none', () => {
    const asked = items.filter(({ facet }) => ['place', 'value', 'rule', 'number'].includes(facet));
    expect(asked.filter((one) => lastWalk(deck, one) === null)).toEqual([]);
    expect(asked.filter(({ groupKind }) => groupKind !== 'procedure').length).toBeGreaterThan(20);
    expect(lastWalk(deck, item('gone'))).toBeNull();
    expect(lastWalk(deck, item('gone', { groupKind: 'procedure', group: 'gone', facet: 'place' }))).toBeNull();
  });
});

const never = (): never => {
  throw new Error('not there');
};
