import { describe, expect, test } from 'vitest';
import { nearMisses } from '../../../src/forms/words/near.ts';
import { seeded } from '../../../src/lib/random.ts';

const SAID = ['Lining up and waiting', 'Checked', 'Thrust set', 'V one', 'Flaps one', 'Flaps zero', 'Eighty-five'];

/** All that may stand beside some words, over many draws. */
const missesOf = (right: string, said: readonly string[] = SAID, also: readonly string[] = []): Set<string> => {
  const pool = said.filter((text) => text !== right).map((text, i) => ({ id: `s${i}`, text }));
  return new Set(
    [...Array(40).keys()].flatMap((seed) => nearMisses(seeded(seed), right, also, pool, said).map(({ text }) => text)),
  );
};
const madeFor = (right: string, said: readonly string[] = SAID): string[] =>
  [...missesOf(right, said)].filter((text) => !said.includes(text)).sort();

describe('what is made beside the right words', () => {
  test('no two callouts are joined: of "Lining up and waiting" nothing is made', () => {
    for (const said of [SAID, [...SAID, 'Checked for the weather', 'Speed up'], [...SAID, 'Set and compared']])
      expect(madeFor('Lining up and waiting', said)).toEqual([]);
  });

  test('a number near the one at its end, as it is written', () => {
    expect(madeFor('Eighty-five')).toEqual(['Ninety-five', 'Seventy-five']);
    expect(madeFor('V one')).toEqual(['V two']);
    expect(madeFor('500', ['500', ...SAID])).toEqual(['400', '600']);
    expect(madeFor('One hundred', ['One hundred', ...SAID])).toEqual([]);
  });

  test('another state, in the place of the one that is reported', () => {
    expect(madeFor('Thrust set')).toEqual(['Thrust checked', 'Thrust confirmed']);
    expect(madeFor('Gear up, locked', ['Gear up, locked', ...SAID])).toEqual([]);
    expect(madeFor('Lights OFF.', ['Lights OFF.', ...SAID])).toEqual(['Lights ON.']);
    expect(madeFor('Up', ['Up', ...SAID])).toEqual([]);
  });

  test('a word by which two callouts alone differ, behind the same word', () => {
    const said = ['Engine failure list', 'Engine fire', 'Engine failure', 'Wing fire', 'Failure of the wing'];
    expect(madeFor('Engine failure list', said)).toEqual(['Engine fire list']);
    expect(madeFor('Failure of the wing', said)).toEqual([]);
    // "One" and "zero" are exchanged behind "flaps" alone.
    expect(madeFor('V one')).not.toContain('V zero');
  });
});

test('callouts that share words come first, none that is right, and four at most', () => {
  const pool = SAID.map((text, i) => ({ id: `s${i}`, text }));
  for (let seed = 0; seed < 20; seed++) {
    const found = nearMisses(seeded(seed), 'Speed checked, flaps one', [], pool, SAID).map(({ text }) => text);
    expect(found.slice(0, 3)).toContain('Flaps one');
    for (const text of found.slice(0, 3)) expect(['Checked', 'V one', 'Flaps one', 'Flaps zero']).toContain(text);
    expect(found).toHaveLength(4);
    expect(new Set(found).size).toBe(4);
  }
  expect(missesOf('Flaps one', SAID, ['Flaps zero'])).not.toContain('Flaps zero');
  expect([...missesOf('Thrust set', SAID, ['Thrust checked'])]).not.toContain('Thrust checked');
});

test('with nothing else that is said there is nothing to choose from', () => {
  expect([...missesOf('Rotate', ['Rotate'])]).toEqual([]);
  expect([...missesOf('推力 設定', ['推力 設定', '離陸'])]).toEqual(['離陸']);
});
