import { describe, expect, test } from 'vitest';
import { runSimulation } from '../../../src/cli/simulate-run.ts';
import { BASE } from '../../fixtures/decks/base.ts';

const FILES: Readonly<Record<string, string>> = { 'base.json': JSON.stringify(BASE), 'broken.json': '{' };

function tool(...args: string[]): { code: number; out: string; err: string; told: string[] } {
  const [out, err, told]: [string[], string[], string[]] = [[], [], []];
  const code = runSimulation(args, {
    read: (file) => {
      const text = FILES[file];
      if (text === undefined) throw new Error('no such file');
      return text;
    },
    out: (text) => out.push(text),
    err: (text) => err.push(text),
    progress: (text) => told.push(text),
    today: '2026-11-25',
  });
  return { code, out: out.join('\n'), err: err.join('\n'), told };
}

const short = ['--days', '3', '--minutes', '2', '--seeds', '2'];

describe('simulate', () => {
  test('prints every policy and the bound for a deck, and how far it is', () => {
    const { code, out, err, told } = tool('--deck', 'base.json', ...short);
    expect([code, err]).toEqual([0, '']);
    for (const name of ['due date only', 'lowest recall first', 'cramming', 'greedy', 'plan', 'upper bound'])
      expect(out).toMatch(new RegExp(`^${name} +\\d+\\.\\d %`, 'm'));
    expect(out).toMatch(/3 days × 2 min, 2 learners \(varied\), seed 1/);
    expect(told.length).toBeGreaterThan(3);
    expect(told.slice(-2)).toEqual(['100 %', '']);
  });

  test('figures as JSON, the same for the same seed', () => {
    const first = tool('--json', '--learners', 'same', ...short);
    expect(first.code).toBe(0);
    expect(JSON.parse(first.out)).toMatchObject({ days: 3, minutes: 2, seeds: 2, standings: [{}, {}, {}, {}, {}] });
    expect(tool('--json', '--learners', 'same', ...short).out).toBe(first.out);
    expect(tool('--json', '--learners', 'same', '--seed', '9', ...short).out).not.toBe(first.out);
  });

  test('drills as the app composes them: the same for the same seed, better with the plan than without', () => {
    const asked = ['--deck', 'base.json', '--composed', '--days', '4', '--minutes', '3', '--seeds', '1'];
    const { code, out, err, told } = tool(...asked);
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(/^due date only .*\n^check day, no plan .*\n^plan /m);
    expect(out).not.toContain('upper bound');
    expect(told.slice(-2)).toEqual(['100 %', '']);
    const figures = tool('--json', ...asked).out;
    expect(tool('--json', ...asked).out).toBe(figures);
    const { standings } = JSON.parse(figures) as {
      standings: { name: string; recall: number; asked: number; unmet: number }[];
    };
    for (const { recall, asked } of standings) {
      expect(recall).toBeGreaterThan(0.2);
      expect(recall).toBeLessThan(1);
      expect(asked).toBeGreaterThan(5);
    }
    expect(standings[2]?.recall).toBeGreaterThanOrEqual((standings[0]?.recall ?? 1) - 0.01);
  });

  test('help', () => {
    expect(tool('--help')).toMatchObject({ code: 0, err: '' });
    expect(tool('--help').out).toContain('npm run simulate');
  });

  test.each([
    [['--days', '0'], '--days is a number from 1 to 45, not “0”.'],
    [['--days', '3.5'], '--days is a number'],
    [['--minutes', 'ten'], '--minutes is a number'],
    [['--minutes', ''], '--minutes is a number'],
    [['--seeds'], '--seeds needs a value.'],
    [['--learners', 'clever'], '--learners is varied or same'],
    [['--wrong', '1'], 'There is no option “--wrong”.'],
    [['deck.json'], 'There is no option “deck.json”.'],
    [['--composed'], '--composed needs a --deck'],
    [['--deck', 'none.json'], 'none.json cannot be read: no such file'],
    [['--deck', 'broken.json'], 'broken.json has 1 errors'],
  ])('%j is told', (args, message) => {
    const { code, out, err } = tool(...args);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain(message);
  });
});
