import { describe, expect, test } from 'vitest';
import { runAny } from '../../../src/cli/commands.ts';
import { checkText } from '../../../src/deck/check.ts';
import type { Deck } from '../../../src/model/deck.ts';
import { BASE } from '../../fixtures/decks/base.ts';

const LIST =
  'ROLL\n\n1. PF: Thrust levers — set take-off thrust\n2. PM calls "One hundred"\n3. "Checked" (PF)\nPage 3 of 4';
const DECK: Deck = {
  format: 1,
  id: 'my/roll',
  version: '1.0.0',
  title: 'Roll',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 'som', title: 'Manual', basis: 'invented' }],
  procedures: [
    {
      id: 'roll',
      title: 'Take-off roll',
      done: 'memory',
      source: 'som#1',
      steps: [
        { id: 'thrust', by: 'PF', do: 'Thrust levers: set take-off thrust', why: 'First of all.', critical: true },
        { id: 'timer', by: 'PM', do: 'Start the timer' },
      ],
    },
  ],
  limits: [{ id: 'gate', ask: 'Gate height', unit: 'ft', sense: 'at least', cases: [{ id: 'standard', value: 400 }] }],
};

const FILES: Readonly<Record<string, string>> = {
  'roll.txt': LIST,
  'quote.csv': 'crew,action\nPF,set\nPM,"start',
  'empty.txt': '\n\nPage 1 of 2\n',
  'lanes.csv': 'PF;PM\nSet thrust;Start the timer\n;Monitor engines\nHold the stick;',
  'deck.json': JSON.stringify(DECK),
  'base.json': JSON.stringify(BASE),
  'broken.json': '{"format": 1}',
};

const tool = async (...args: string[]) => {
  const [out, err]: [string[], string[]] = [[], []];
  const code = await runAny(['from-csv', ...args], {
    read: (file) => {
      const text = FILES[file];
      if (text === undefined) throw new Error(`no such file: ${file}`);
      return text;
    },
    write: () => {
      throw new Error('nothing is written');
    },
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    today: '2026-11-25',
  });
  return { code, out: out.join('\n'), err: err.join('\n') };
};
const deckOf = (out: string): Deck => JSON.parse(out) as Deck;

describe('a deck of its own', () => {
  test('holds the procedure, and no error', async () => {
    const { code, out, err } = await tool('roll.txt');
    expect(code).toBe(0);
    const deck = deckOf(out);
    expect(deck).toMatchObject({ id: 'my/roll', title: 'ROLL', nature: 'operator' });
    expect(deck.procedures).toEqual([
      {
        id: 'roll',
        title: 'ROLL',
        done: 'memory',
        steps: [
          { id: 'thrust-levers-set-take', by: 'PF', do: 'Thrust levers — set take-off thrust' },
          { id: 'one-hundred', by: 'PM', say: 'One hundred' },
          { id: 'checked', by: 'PF', say: 'Checked' },
        ],
      },
    ]);
    expect(checkText(out, { today: '2026-11-25' }).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
    expect(err.split('\n')).toEqual([
      'roll.txt: read as a list. 3 steps read. 2 rows left out.',
      'roll.txt:1: It stands above the list: a heading. ROLL',
      'roll.txt:3: New: PF Thrust levers — set take-off thrust',
      'roll.txt:4: New: PM “One hundred”',
      'roll.txt:5: New: PF “Checked”',
      'roll.txt:6: A page number. Page 3 of 4',
    ]);
  });

  test('title and id as they are told', async () => {
    const { out } = await tool('roll.txt', '--title', 'The roll', '--procedure', 'the-roll');
    expect(deckOf(out)).toMatchObject({ id: 'my/the-roll', procedures: [{ id: 'the-roll', title: 'The roll' }] });
  });

  test('lanes, or row by row', async () => {
    const steps = async (...more: string[]) =>
      JSON.stringify(deckOf((await tool('lanes.csv', ...more)).out).procedures?.[0]?.steps);
    expect(await steps()).toMatch(
      /^\[\{"lanes":\[\[.*"set-thrust".*"hold-stick".*\],\[.*"start-timer".*"monitor-engines".*\]\]\}\]$/,
    );
    expect(await steps('--order', 'rows')).toMatch(
      /^\[\{"lanes":\[\[.*"set-thrust".*\],\[.*"start-timer".*\]\]\},.*"monitor-engines".*"hold-stick".*\]$/,
    );
    expect(deckOf((await tool('lanes.csv', '--as', 'list')).out).procedures?.[0]?.steps).toHaveLength(4);
  });
});

describe('into a deck', () => {
  test('steps that are there keep their id and all else; the others of the deck stay', async () => {
    const { code, out, err } = await tool('roll.txt', '--into', 'deck.json', '--procedure', 'roll');
    expect(code).toBe(0);
    expect(deckOf(out)).toEqual({
      ...DECK,
      procedures: [
        {
          ...DECK.procedures?.[0],
          steps: [
            { id: 'thrust', by: 'PF', do: 'Thrust levers — set take-off thrust', why: 'First of all.', critical: true },
            { id: 'one-hundred', by: 'PM', say: 'One hundred' },
            { id: 'checked', by: 'PF', say: 'Checked' },
          ],
        },
      ],
    });
    expect(err).toContain('3 steps read: 1 changed, 2 new.');
    expect(err).toContain('roll.txt: Gone: timer Start the timer');
  });

  test('what is gone stays where that is wanted', async () => {
    const { out, err } = await tool('roll.txt', '--into', 'deck.json', '--procedure', 'roll', '--keep');
    expect(deckOf(out).procedures?.[0]?.steps.map((step) => ('id' in step ? step.id : ''))).toEqual([
      'thrust',
      'one-hundred',
      'checked',
      'timer',
    ]);
    expect(err).toContain('No longer in the list, kept: timer');
  });

  test('as one more procedure', async () => {
    const { out } = await tool('roll.txt', '--into', 'deck.json');
    expect(deckOf(out).procedures?.map(({ id }) => id)).toEqual(['roll', 'roll-2']);
  });

  test('a deck with everything in it is still right', async () => {
    const { out } = await tool('roll.txt', '--into', 'base.json');
    expect(checkText(out, { today: '2026-11-25' }).findings.filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

describe('bad input', () => {
  test('errors of the text have their row, and there is no deck', async () => {
    const { code, out, err } = await tool('quote.csv');
    expect([code, out]).toEqual([1, '']);
    expect(err).toBe(
      'quote.csv: error: Row 3 has a quotation mark that is never closed. Close it, or write a mark inside a cell twice (RFC 4180, section 2).',
    );
  });

  test('a list without a step', async () => {
    expect(await tool('empty.txt')).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringContaining('no row holds a step'),
    });
  });

  test('a deck that is none', async () => {
    expect(await tool('roll.txt', '--into', 'broken.json')).toMatchObject({
      code: 1,
      out: '',
      err: expect.stringContaining('Run check.'),
    });
  });

  test.each([
    [[], 'from-csv takes one file'],
    [['roll.txt', 'lanes.csv'], 'from-csv takes one file'],
    [['nowhere.csv'], 'no such file: nowhere.csv'],
    [['roll.txt', '--as', 'book'], '--as is list or table, not “book”'],
    [['roll.txt', '--order', 'x'], '--order is columns or rows'],
    [['roll.txt', '--procedure', 'No Id'], '“No Id” is no id'],
    [['roll.txt', '--into', 'deck.json', '--procedure', 'gate'], '“gate” is no procedure of deck.json'],
    [['roll.txt', '--colour'], "Unknown option '--colour'"],
  ])('%j', async (args, message) => {
    expect(await tool(...args)).toMatchObject({ code: 2, out: '', err: expect.stringContaining(message) });
  });
});
