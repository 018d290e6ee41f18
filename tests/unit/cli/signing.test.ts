import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { runAny } from '../../../src/cli/commands.ts';
import { layOut } from '../../../src/deck/layout.ts';
import { contentId } from '../../../src/exchange/content-id.ts';
import { verifyDeck } from '../../../src/exchange/signature.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';
import { BASE, changed } from '../../fixtures/decks/base.ts';

/** A machine with these files. */
const machineWith = (given: Readonly<Record<string, string>>) => {
  const files = new Map(Object.entries(given));
  const tool = async (...args: string[]) => {
    const [out, err]: [string[], string[]] = [[], []];
    const code = await runAny(args, {
      read: (file) => {
        const text = files.get(file);
        if (text === undefined) throw new Error(`${file}: no such file`);
        return text;
      },
      write: (file, text, how) => {
        if (how === 'new' && files.has(file)) throw new Error(`${file} is there already`);
        files.set(file, text);
      },
      out: (text) => out.push(text),
      err: (text) => err.push(text),
      today: '2026-11-25',
    });
    return { code, out: out.join('\n'), err: err.join('\n') };
  };
  return { files, tool };
};

const turned = (value: unknown): unknown =>
  Array.isArray(value)
    ? value.map(turned)
    : typeof value === 'object' && value !== null
      ? Object.fromEntries(
          Object.entries(value)
            .reverse()
            .map(([key, one]) => [key, turned(one)]),
        )
      : value;

describe('format', () => {
  test('lays a deck out in the order of the schema and keeps what it says', async () => {
    const { files, tool } = machineWith({ 'a.json': JSON.stringify(turned(BASE)) });
    const { code, out } = await tool('format', 'a.json');
    expect(code).toBe(0);
    expect(out.split('\n').slice(0, 3)).toEqual(['{', '  "format": 1,', `  "id": "${BASE.id}",`]);
    expect(await contentId(out)).toBe(await contentId(BASE));
    expect((await tool('format', 'a.json', '--write')).out).toBe('a.json: written');
    expect(files.get('a.json')).toBe(`${out}\n`);
    expect((await tool('format', 'a.json', '--write')).out).toBe('a.json: as it was');
  });

  test('of every deck that comes with the app nothing is lost, and a second time changes nothing', () => {
    const decks = readdirSync(at('decks'));
    expect(decks.length).toBeGreaterThan(3);
    for (const file of decks) {
      const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Json;
      const laid = layOut(deck);
      expect(JSON.parse(laid)).toEqual(deck);
      // However its members stood: steps, blocks, cases and draws too. Records keep the order that the author gave.
      expect(layOut(JSON.parse(laid) as Json)).toBe(laid);
    }
  });

  test('members of steps and of what is drawn stand in order too; those that are no part of a deck come last', () => {
    const laid = JSON.parse(
      layOut({
        surplus: 1,
        procedures: [
          {
            steps: [
              { critical: true, do: 'x', id: 's' },
              { lanes: [[{ say: 'y', id: 't' }]], id: 'b' },
            ],
            id: 'p',
          },
        ],
        limits: [{ value: 1, unit: 'kt', sense: 'exactly', ask: '?', id: 'l' }],
        id: 'a/b',
      }),
    );
    expect(Object.keys(laid)).toEqual(['id', 'procedures', 'limits', 'surplus']);
    expect(Object.keys(laid.procedures[0])).toEqual(['id', 'steps']);
    expect(Object.keys(laid.procedures[0].steps[0])).toEqual(['id', 'do', 'critical']);
    expect(Object.keys(laid.procedures[0].steps[1])).toEqual(['id', 'lanes']);
    expect(Object.keys(laid.procedures[0].steps[1].lanes[0][0])).toEqual(['id', 'say']);
    expect(Object.keys(laid.limits[0])).toEqual(['id', 'ask', 'value', 'unit', 'sense']);
  });

  test('what is no deck is not touched', async () => {
    const { files, tool } = machineWith({ 'a.json': '{"format":1' });
    expect(await tool('format', 'a.json', '--write')).toMatchObject({
      code: 1,
      err: expect.stringContaining('Run check'),
    });
    expect(files.get('a.json')).toBe('{"format":1');
  });
});

describe('sign and verify', () => {
  test('a key is made, author and checker sign, and both hold', async () => {
    const { files, tool } = machineWith({ 'a.json': JSON.stringify(BASE) });
    const made = await tool('key', 'a.jwk');
    expect(made.out).toMatch(/^a\.jwk: ([A-Z2-7]{4} ?){4}\n([A-Z][A-Za-z-]+ ?){16}\nWhoever has this file/);
    await tool('key', 'b.jwk');
    expect(await tool('verify', 'a.json')).toMatchObject({ code: 1, out: 'a.json: not signed' });
    expect(await tool('sign', 'a.json', '--key', 'a.jwk', '--name', 'A. Author')).toMatchObject({ code: 0, err: '' });
    expect(await tool('sign', 'a.json', '--key', 'b.jwk', '--role', 'checker', '--name', 'C. Checker')).toMatchObject({
      code: 0,
    });
    const { code, out } = await tool('verify', 'a.json');
    expect(code).toBe(0);
    const letters = /^a\.jwk: (.*)$/m.exec(made.out)?.[1];
    expect(out.split('\n')).toEqual([
      `a.json: signed by A. Author as author, 2026-11-25, ${letters}`,
      expect.stringMatching(/^a\.json: signed by C\. Checker as checker, 2026-11-25, /),
    ]);
    expect(await contentId(files.get('a.json') ?? '')).toBe(await contentId(BASE));
    expect((await tool('format', 'a.json', '--write')).out).toBe('a.json: as it was');
    expect((await tool('check', 'a.json')).code).toBe(0);
  });

  test('a changed deck is told; signed anew, its older signatures that no longer fit are left out', async () => {
    const { files, tool } = machineWith({ 'a.json': JSON.stringify(BASE) });
    await tool('key', 'a.jwk');
    await tool('key', 'b.jwk');
    await tool('sign', 'a.json', '--key', 'a.jwk', '--name', 'A. Author');
    await tool('sign', 'a.json', '--key', 'b.jwk', '--role', 'checker', '--name', 'C. Checker');
    files.set('a.json', (files.get('a.json') ?? '').replace(BASE.title, 'Another'));
    const told = await tool('verify', 'a.json');
    expect(told.code).toBe(1);
    expect(told.out).toMatch(/BROKEN signature by A\. Author[^\n]*\n[^\n]*BROKEN signature by C\. Checker/);
    await tool('sign', 'a.json', '--key', 'a.jwk', '--name', 'A. Author');
    expect(await verifyDeck(files.get('a.json') ?? '')).toMatchObject([{ name: 'A. Author', valid: true }]);
  });

  test('the name is that of the deck where none is given', async () => {
    const deck = changed((d) => {
      d.madeBy = 'Training';
    });
    const { tool } = machineWith({ 'a.json': JSON.stringify(deck), 'b.json': JSON.stringify(BASE) });
    await tool('key', 'a.jwk');
    expect((await tool('sign', 'a.json', '--key', 'a.jwk')).out).toContain('signed by Training as author');
    expect(await tool('sign', 'a.json', '--key', 'a.jwk', '--role', 'checker')).toMatchObject({
      code: 2,
      err: 'Say who signs: --name NAME.',
    });
  });

  test('a deck with errors is not signed', async () => {
    const broken = JSON.stringify({ ...BASE, sources: [] });
    const { files, tool } = machineWith({ 'a.json': broken });
    await tool('key', 'a.jwk');
    expect(await tool('sign', 'a.json', '--key', 'a.jwk', '--name', 'A')).toMatchObject({ code: 1 });
    expect(files.get('a.json')).toBe(broken);
  });

  test.each([
    [['sign', 'a.json'], 'Say which key signs'],
    [['sign', 'a.json', '--key', 'a.jwk', '--role', 'owner'], '--role is author or checker'],
    [['sign', 'a.json', '--key', 'gone.jwk', '--name', 'A'], 'gone.jwk: no such file'],
    [['sign', 'a.json', '--key', 'a.json', '--name', 'A'], 'This is no key that signs decks'],
    [['sign', 'a.json', '--key', 'a.jwk', '--name', '\u202e'], 'A signer needs a name'],
    [['sign'], 'sign takes one deck file'],
    [['key', 'a.jwk'], 'is there already'],
    [['key'], 'Name one file'],
    [['verify'], 'Name a deck file'],
    [['verify', '--quick', 'a.json'], '--quick'],
    [['format', 'a.json', 'a.json'], 'format takes one deck'],
    [['draw'], 'There is no command “draw”'],
  ])('wrong usage %j is said and ends with 2', async (args, said) => {
    const { tool } = machineWith({ 'a.json': JSON.stringify(BASE) });
    await tool('key', 'a.jwk');
    const { code, err } = await tool(...args);
    expect(code).toBe(2);
    expect(err).toContain(said);
  });

  test('help is one for all commands', async () => {
    const { tool } = machineWith({});
    expect((await tool('sign', '--help')).out).toBe((await tool('--help')).out);
    for (const name of ['format', 'sign', 'verify', 'key'])
      expect((await tool('--help')).out).toContain(`deck -- ${name}`);
  });
});
