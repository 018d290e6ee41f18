import { describe, expect, test } from 'vitest';
import { BASE, changed } from '../../fixtures/decks/base.ts';
import { toolWith } from './tool.ts';

const FILES: Readonly<Record<string, string>> = {
  'sound.json': JSON.stringify(BASE),
  'hint.json': JSON.stringify(
    changed((d) => {
      d.title = '<b>Base</b>';
    }),
  ),
  'warning.json': JSON.stringify(
    changed((d) => {
      d.reviewBy = '2026-11-24';
    }),
  ),
  'error.json': JSON.stringify(
    changed((d) => {
      d.limits[0].unit = 'knots';
    }),
    null,
    2,
  ),
  'broken.json': '{\n  "format": 1,\n}',
  '-': '[]',
};

const tool = toolWith(FILES);

describe('check', () => {
  test('a sound deck', () => {
    expect(tool('check', 'sound.json')).toEqual({
      code: 0,
      out: 'sound.json: 0 errors, 0 warnings, 0 hints',
      err: '',
    });
  });

  test('hints alone are no failure; warnings and errors are', () => {
    expect(tool('check', 'hint.json').code).toBe(0);
    expect(tool('check', 'hint.json').out).toContain('hint.json:1:');
    expect(tool('check', 'warning.json').code).toBe(1);
    expect(tool('check', 'sound.json', 'error.json').code).toBe(1);
  });

  test('a finding is said with its line and column, message and code', () => {
    const { out } = tool('check', 'error.json');
    const [line = ''] = out.split('\n');
    const [, row, column] = /^error\.json:(\d+):(\d+): error: “knots” is none of: kt, /.exec(line) ?? [];
    const text = FILES['error.json']?.split('\n')[Number(row) - 1] ?? '';
    expect(text.slice(Number(column) - 1)).toBe('"knots",');
    expect(line).toContain('[not-a-choice /limits/0/unit]');
  });

  test('unreadable JSON has the place of the mistake', () => {
    expect(tool('check', 'broken.json').out).toContain('broken.json:3:1: error: This is not JSON: expected a key');
  });

  test('standard input', () => {
    expect(tool('check', '-')).toMatchObject({ code: 1 });
  });

  test('for programs, with file, place, message and arguments', () => {
    const { code, out } = tool('check', 'sound.json', 'warning.json', '--json');
    expect(code).toBe(1);
    const report = JSON.parse(out) as { file: string; findings: unknown[] }[];
    expect(report.map((r) => [r.file, r.findings.length])).toEqual([
      ['sound.json', 0],
      ['warning.json', 1],
    ]);
    expect(report[1]?.findings[0]).toMatchObject({
      code: 'review-passed',
      severity: 'warning',
      path: '/reviewBy',
      args: { date: '2026-11-24' },
      line: 1,
    });
  });
});

describe('show', () => {
  test('prints what is in a deck and how much there is to recall', () => {
    const { code, out } = tool('show', 'sound.json');
    expect(code).toBe(0);
    expect(out).toMatch(/^Base, calder\/base 1\.0\.0 \(fictional\)\n\d+ things to recall in 2 variant combinations\n/);
    for (const part of [
      'Procedure roll: Take-off roll [memory]',
      '  ! PM: “One hundred”',
      '  - PM: Bleeds off if engineOut',
      'block shared',
      'Limit retract: Speed to retract\n  Flaps 1: at least 150\u00a0kt\n  Flaps 2: at least 140\u00a0kt',
      'Engine A: at most 60\u00a0s',
      'Height 100 ft: 2 ×',
      '      otherwise: Half forward',
    ])
      expect(out).toContain(part);
  });

  test('a deck that cannot be read is not shown', () => {
    expect(tool('show', 'broken.json')).toMatchObject({ code: 1, out: '' });
  });
});

test.each([
  [[], 'Say what to do: check, show, format, verify, sign, key, compare or from-csv.'],
  [['draw', 'x'], 'There is no command “draw”.'],
  [['check'], 'Name a deck file.'],
  [['check', '--quick', 'sound.json'], 'There is no option “--quick” for check.'],
  [['show', 'sound.json', '--json'], 'There is no option “--json” for show.'],
  [['show', 'sound.json', 'hint.json'], 'show takes one deck.'],
  [['check', 'gone.json'], 'gone.json cannot be read: no such file'],
])('wrong usage %j is said and ends with 2', (args, said) => {
  const { code, out, err } = tool(...args);
  expect(code).toBe(2);
  expect(out).toBe('');
  expect(err).toContain(said);
});

test('help says what the exit codes mean', () => {
  expect(tool('--help').out).toContain('Exit code: 0 nothing but hints, 1 errors or warnings, 2 wrong usage');
});
