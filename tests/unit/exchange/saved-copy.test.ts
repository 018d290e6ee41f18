import { describe, expect, test } from 'vitest';
import { readCopy, writeCopy } from '../../../src/exchange/saved-copy.ts';
import { deckText, revision, setLine } from './copies.ts';

const MADE = { app: '1.2.3', at: 1_795_626_000_000 };
const lines = [setLine('a', 1), setLine('a', 2, 'ä\n€ "x"'), setLine('b', 1)];
const whole = async () => writeCopy({ decks: [await revision()], lines }, MADE);

describe('what is written is read', () => {
  test('a header, decks, entries as they are in the log, an end', async () => {
    const deck = await revision();
    const written = (await whole()).split('\n');
    expect(written.map((line) => (line === '' ? line : Object.keys(JSON.parse(line) as object).slice(0, 2)))).toEqual([
      ['recency', 'v'],
      ['file', 'ref'],
      ['app', 'at'],
      ['app', 'at'],
      ['app', 'at'],
      ['file'],
      '',
    ]);
    expect(JSON.parse(written[0] ?? '')).toEqual({ recency: 'copy', v: 1, ...MADE, decks: 1, entries: 3 });
    expect(written.slice(2, 5)).toEqual(lines);
    expect(await readCopy(await whole())).toEqual({ decks: [deck], lines, bad: [], badLines: 0, complete: true });
  });
  test('of nothing, of decks alone, of entries alone', async () => {
    const decks = [await revision(), await revision(deckText({ id: 'calder/other' }), { active: false, installed: 5 })];
    for (const copy of [
      { decks: [], lines: [] },
      { decks, lines: [] },
      { decks: [], lines },
    ])
      expect(await readCopy(writeCopy(copy, MADE))).toEqual({ ...copy, bad: [], badLines: 0, complete: true });
  });
  test('as a mail program or an editor leaves it: byte order mark, other line ends, empty lines', async () => {
    const text = `\uFEFF${(await whole()).replaceAll('\n', '\r\n')}\r\n\r\n`;
    expect(await readCopy(text)).toEqual({ ...(await readCopy(await whole())) });
  });
  test('bare lines of a log are good enough, but not known to be complete', async () => {
    expect(await readCopy(lines.join('\n'))).toMatchObject({ lines, badLines: 0, complete: false });
  });
  test.each([
    '{"app":"t","at":1,"future":{"x":[1,2]},"id":"a.1","k":"rehearsal","off":0,"v":1}',
    '{"v":7, "k":"answer",  "id":"a.1","off":0,"at":1,"app":"t","1":"ä\\u00e4"}',
    '{"app":"t","at":1,"id":"a.1","k":"set","key":"k","mood":"fine","off":0,"v":1,"value":1}',
  ])('what a newer version wrote comes through byte for byte: %s', async (line) => {
    expect((await readCopy(line)).lines).toEqual([line]);
    const text = writeCopy({ decks: [], lines: [line] }, MADE);
    expect(await readCopy(text)).toMatchObject({ lines: [line], badLines: 0, complete: true });
  });
});

describe('a copy that was cut off', () => {
  test('at any line: what it held is read, and it is told', async () => {
    const text = await whole();
    const all = text.split('\n');
    for (let n = 1; n < all.length - 1; n++) {
      const copy = await readCopy(`${all.slice(0, n).join('\n')}\n`);
      expect(copy, `${n} lines`).toMatchObject({ badLines: 0, complete: false });
      expect(copy.decks.length + copy.lines.length).toBe(n - 1);
    }
  });
  test('within a line: the line is named', async () => {
    const text = await whole();
    const end = text.indexOf(lines[1] ?? '') + 20;
    expect(await readCopy(text.slice(0, end))).toMatchObject({
      lines: [lines[0]],
      badLines: 1,
      bad: [{ line: 4, why: 'The file ends within this line.' }],
      complete: false,
    });
  });
  test('with lines missing in the middle: not complete', async () => {
    const text = await whole();
    expect(await readCopy(text.replace(`${lines[1]}\n`, ''))).toMatchObject({ badLines: 0, complete: false });
  });
  test('a damaged line in the middle is named, the others are read, and all of them are accounted for', async () => {
    const text = (await whole()).replace(lines[1] ?? '', `${lines[1]?.slice(0, -4)}`);
    expect(await readCopy(text)).toMatchObject({
      lines: [lines[0], lines[2]],
      badLines: 1,
      bad: [{ line: 4, why: expect.stringMatching(/damaged/) }],
      complete: true,
    });
  });
});
