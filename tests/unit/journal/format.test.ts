import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { deckLine, entryLine, readJournal } from '../../../src/journal/format.ts';
import { fnv36 } from '../../../src/lib/hash.ts';
import type { StoredDeck } from '../../../src/model/ports.ts';

const deck = (id: string, more: Partial<StoredDeck> = {}): StoredDeck => ({
  ref: `${id}@0123456789abcdef`,
  id,
  version: '1.0.0',
  title: 'A deck',
  nature: 'fictional',
  contentId: '0123456789abcdef'.repeat(4),
  text: '{\n  "id": "calder/ä"\n}\n',
  installed: 1_795_626_000_000,
  active: true,
  ...more,
});
const entry = (n: number, value: unknown = n) =>
  JSON.stringify({ app: 't', at: n, id: `a.${n}`, k: 'set', key: 'minutes/real', off: 0, v: 1, value });

describe('what was written is read', () => {
  test('entries in their order, decks with all of their text', () => {
    const one = deck('calder/one');
    const text = entryLine(entry(1)) + deckLine(one) + entryLine(entry(2));
    expect(text.split('\n')).toHaveLength(4);
    expect(readJournal([text])).toEqual({ lines: [entry(1), entry(2)], decks: [one], damaged: 0 });
  });
  test('bytes are counted in UTF-8, the checksum is the published FNV-1a', () => {
    // FNV-1a of "a" is e40c292c (test vectors of draft-eastlake-fnv).
    expect(entryLine('a')).toBe(`E 1 ${(0xe40c292c).toString(36)} a\n`);
    expect(entryLine('"ä€😀"')).toBe(`E 11 ${fnv36('"ä€😀"')} "ä€😀"\n`);
  });
  test('whatever the entry says, also what looks like a line of the journal', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(fc.string({ unit: 'binary' }), fc.constantFrom('\n', '\r\n', '\u2028', 'E 1 0 x\n', '\ud800')),
          { maxLength: 8 },
        ),
        (values) => {
          const lines = values.map((value, i) => entry(i, value));
          expect(readJournal([lines.map(entryLine).join('')])).toEqual({ lines, decks: [], damaged: 0 });
        },
      ),
      { numRuns: 40 },
    );
  });
  test('files are read one after the other; an entry that is in two of them is one', () => {
    const texts = [
      entryLine(entry(1)) + entryLine(entry(2)),
      entryLine(entry(2)) + entryLine(entry(3)) + entryLine(entry(3)),
    ];
    expect(readJournal(texts).lines).toEqual([entry(1), entry(2), entry(3)]);
  });
  test('of a deck the last state counts, in the place of the first', () => {
    const one = deck('calder/one');
    const two = deck('calder/two');
    const out = { ...one, active: false };
    expect(readJournal([deckLine(one) + deckLine(two), deckLine(out)]).decks).toEqual([out, two]);
  });
  test('nothing is nothing', () => {
    const nothing = { lines: [], decks: [], damaged: 0 };
    expect(readJournal([])).toEqual(nothing);
    expect(readJournal(['', '\n', '\n\n'])).toEqual(nothing);
  });
});

describe('damage spoils the line it is in, and is told', () => {
  const whole = [entry(1), entry(2), entry(3)].map(entryLine);
  const text = whole.join('');

  test('a last record torn at any place', () => {
    const start = text.length - (whole[2] ?? '').length;
    for (let end = start; end < text.length; end++) {
      const { lines, damaged } = readJournal([text.slice(0, end)]);
      // Without its line feed alone the record is whole.
      expect(lines, `cut at ${end}`).toEqual(
        end === text.length - 1 ? [1, 2, 3].map((n) => entry(n)) : [entry(1), entry(2)],
      );
      expect(damaged, `cut at ${end}`).toBe(end === start || end === text.length - 1 ? 0 : 1);
    }
  });
  test('what is appended after a torn record, behind a line feed, is whole', () => {
    const torn = text.slice(0, -10);
    expect(readJournal([`${torn}\n${entryLine(entry(4))}`])).toEqual({
      lines: [entry(1), entry(2), entry(4)],
      decks: [],
      damaged: 1,
    });
  });
  test('one character changed anywhere in the middle line', () => {
    const from = (whole[0] ?? '').length;
    const to = from + (whole[1] ?? '').length - 1;
    for (let at = from; at < to; at++) {
      const changed = text[at] === '~' ? '!' : '~';
      const { lines, damaged } = readJournal([text.slice(0, at) + changed + text.slice(at + 1)]);
      expect({ lines, damaged }, `changed at ${at}`).toEqual({ lines: [entry(1), entry(3)], damaged: 1 });
    }
  });
  test('a block of zeros, as a file system leaves it after a power cut', () => {
    const at = (whole[0] ?? '').length + 5;
    const zeroed = text.slice(0, at) + '\0'.repeat(20) + text.slice(at + 20);
    expect(readJournal([zeroed])).toMatchObject({ lines: [entry(1), entry(3)], damaged: 1 });
    expect(readJournal([text + '\0'.repeat(4096)])).toMatchObject({
      lines: [1, 2, 3].map((n) => entry(n)),
      damaged: 1,
    });
  });
  test('bytes that are no UTF-8', () => {
    const bytes = new TextEncoder().encode(text);
    bytes[(whole[0] ?? '').length + 30] = 0xff;
    expect(readJournal([new TextDecoder().decode(bytes)])).toMatchObject({ lines: [entry(1), entry(3)], damaged: 1 });
  });
  test('a kind that this version does not know is not taken for an entry', () => {
    const strange = entryLine(entry(2)).replace(/^E/, 'X');
    expect(readJournal([entryLine(entry(1)) + strange])).toEqual({ lines: [entry(1)], decks: [], damaged: 1 });
  });
  test('a record of a deck that says no deck', () => {
    for (const payload of ['null', '7', '"x"', '[]', '{}', '{"ref":3}', '{"ref":']) {
      const line = entryLine(payload).replace(/^E/, 'D');
      expect(readJournal([line + entryLine(entry(1))]), payload).toEqual({ lines: [entry(1)], decks: [], damaged: 1 });
    }
  });
  test('garbage gives nothing, throws nothing, and is counted', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ unit: 'binary' }), { maxLength: 5 }), (texts) => {
        const read = readJournal(texts);
        expect(read.lines).toEqual([]);
        expect(read.damaged).toBe(texts.flatMap((one) => one.split('\n')).filter((one) => one !== '').length);
      }),
    );
  });
});
