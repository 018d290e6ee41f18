import { describe, expect, test } from 'vitest';
import { BASE, changed } from '../../fixtures/decks/base.ts';
import { toolWith } from './tool.ts';

const version = (number: string, value: number) =>
  JSON.stringify(
    changed((d) => {
      d.version = number;
      d.limits[2].to = value;
    }),
  );
const FILES: Readonly<Record<string, string>> = {
  'a.json': JSON.stringify(BASE),
  'b.json': version('2.0.0', 16),
  'low.json': version('1.0.1', 16),
  'words.json': JSON.stringify(
    changed((d) => {
      d.version = '1.0.1';
      d.limits[2].ask = 'Pitch after rotation';
    }),
  ),
  'broken.json': '[]',
};

const tool = (...args: string[]) => {
  const ran = toolWith(FILES)(...args);
  return { ...ran, out: ran.out.replaceAll('\u00a0', ' ') };
};

describe('compare', () => {
  test('an answer that changed, with its place and both values', () => {
    const { code, out } = tool('compare', 'a.json', 'b.json');
    expect(code).toBe(0);
    expect(out).toContain(
      'Answers changed: 1\n  Limit: Pitch after lift-off: value (/limits/2/from)\n    - 12° to 15°\n    + 12° to 16°\n',
    );
    expect(out).toContain('Version: 1.0.0 → 2.0.0. It says what changed.');
  });

  test('a version that must rise further is a failure', () => {
    const { code, out } = tool('compare', 'a.json', 'low.json');
    expect(code).toBe(1);
    expect(out).toContain('1.0.1 says less than that. Set 2.0.0 or higher.');
  });

  test('words alone need a patch', () => {
    const { code, out } = tool('compare', 'a.json', 'words.json');
    expect(code).toBe(0);
    expect(out).toContain('Words changed: 1\n  Limit: Pitch after rotation: question (/limits/2/ask)');
    expect(out).not.toContain('Answers changed');
  });

  test('a deck with itself', () => {
    const { code, out } = tool('compare', 'a.json', 'a.json');
    expect(code).toBe(0);
    expect(out).toMatch(/^\d\d things to recall are the same\.\nVersion: 1\.0\.0 → 1\.0\.0\./);
  });

  test('for programs', () => {
    const { code, out } = tool('compare', 'a.json', 'low.json', '--json');
    expect(code).toBe(1);
    expect(JSON.parse(out)).toMatchObject({
      differences: [{ kind: 'answer', path: '/limits/2/from', rise: 'major', old: '12° to 15°', now: '12° to 16°' }],
      whole: true,
      version: { rise: 'major', version: '2.0.0' },
    });
  });

  test('two decks are needed, and they must be decks', () => {
    expect(tool('compare', 'a.json').err).toContain('compare takes two decks');
    expect(tool('compare', 'a.json').code).toBe(2);
    expect(tool('compare', 'a.json', 'broken.json')).toMatchObject({ code: 2 });
    expect(tool('compare', 'a.json', 'broken.json').err).toContain('broken.json cannot be compared');
    expect(tool('compare', 'a.json', 'none.json')).toMatchObject({ code: 2 });
  });
});
