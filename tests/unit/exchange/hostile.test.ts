import { describe, expect, test } from 'vitest';
import { readCopy } from '../../../src/exchange/saved-copy.ts';
import { deckText, revision, setLine } from './copies.ts';

const good = setLine('a', 1);
const header = (more: object = {}) => JSON.stringify({ recency: 'copy', v: 1, app: 't', at: 1, ...more });
const nest = (levels: number) => '['.repeat(levels) + ']'.repeat(levels);

/** Why the line, among good ones, was not taken. */
const refused = async (line: string): Promise<string> => {
  const copy = await readCopy([header(), good, line, '{"file":"end"}'].join('\n'));
  expect(copy.lines).toEqual([good]);
  expect(copy.decks).toEqual([]);
  expect(copy.bad.map(({ line: at }) => at)).toEqual([3]);
  return copy.bad[0]?.why ?? '';
};
const deckLine = async (change: (line: Record<string, unknown>) => void, text?: string): Promise<string> => {
  const line: Record<string, unknown> = { file: 'deck', ...(await revision(text)) };
  change(line);
  return JSON.stringify(line);
};

describe('what is no copy at all is said to be none', () => {
  test.each([
    ['nothing', ''],
    ['empty lines', '\n\n \r\n'],
    ['prose', 'a photo of a cat\nand another'],
    ['a deck file', deckText()],
    ['a deck file in one line', JSON.stringify(JSON.parse(deckText()))],
    ['an array', '[1,2,3]'],
    ['numbers', '1\n2\n3'],
    ['the end alone', '{"file":"end"}'],
    ['the header of something else', '{"recency":"log","v":1}'],
    ['zeros', '\0'.repeat(1000)],
  ])('%s', async (_name, text) => {
    await expect(readCopy(text)).rejects.toThrow(/^This is not a saved copy of Recency/);
    await expect(readCopy(text)).rejects.toThrow(RangeError);
  });
  test.each([2, 99, '1', null, undefined])('a version that is not known: %j. Nothing is taken', async (v) => {
    const text = [good, header({ v }), good].join('\n');
    await expect(readCopy(text)).rejects.toThrow(/newer version of the app\. Update/);
  });
});

describe('entries', () => {
  test.each([
    ['{"app":"t"', /no JSON/],
    ['"text"', /neither a deck nor an entry/],
    ['[]', /neither a deck nor an entry/],
    ['{}', /no entry/],
    ['{"__proto__":{"k":"set"}}', /no entry/],
    ['{"file":"photo"}', /no entry/],
    [good.replace('"id":"a.1"', '"id":"__proto__"'), /id should be/],
    [good.replace('"id":"a.1"', '"id":["a.1"]'), /id should be/],
    [good.replace('"at":', '"at":1e400,"was":'), /at should be/],
    // Could be read, and never be written again.
    [good.replace('"value":1', '"value":1e400'), /Infinity/],
    [good.replace('"value":1', `"value":${nest(64)}`), /nested more than 64/],
    [good.replace('"value":1', `"value":${'{"a":'.repeat(100)}1${'}'.repeat(100)}`), /nested more than 64/],
  ])('%s is refused alone', async (line, why) => {
    expect(await refused(line)).toMatch(why);
  });
  test('five megabytes of brackets are refused alone', async () => {
    expect(await refused(good.replace('"value":1', `"value":${nest(2_500_000)}`))).toMatch(/nested more than 64/);
  });
  test('brackets within a text are no levels, nor is what is allowed', async () => {
    for (const value of [JSON.stringify(`"\\${nest(100)}`), nest(63), `[${'[],'.repeat(100)}[]]`]) {
      const line = good.replace('"value":1', `"value":${value}`);
      expect((await readCopy(line)).lines).toEqual([line]);
    }
  });
  test('keys of the language itself are kept as data and change nothing', async () => {
    const line = good.replace('"value":1', '"value":{"__proto__":{"polluted":true},"constructor":{"prototype":1}}');
    expect((await readCopy(line)).lines).toEqual([line]);
    expect({}).not.toHaveProperty('polluted');
  });
  test('of a thousand bad lines a hundred are named, all are counted', async () => {
    const text = [good, ...Array.from({ length: 1000 }, (_, i) => `bad ${i}`)].join('\n');
    const copy = await readCopy(text);
    expect(copy.badLines).toBe(1000);
    expect(copy.bad).toHaveLength(100);
    expect(copy.bad[99]?.line).toBe(101);
  });
});

describe('decks', () => {
  test('content that does not match what entries cite', async () => {
    const changed = await deckLine((line) => {
      line.text = String(line.text).replace('180', '220');
    });
    expect(await refused(changed)).toMatch(/"calder\/small" is not as it was when the copy was made/);
    const renamed = await deckLine((line) => {
      line.id = 'calder/large';
    });
    expect(await refused(renamed)).toMatch(/"calder\/large" is not as it was/);
    for (const said of [undefined, null, 7, '', 'f'.repeat(64), ['x']])
      expect(
        await refused(
          await deckLine((line) => {
            line.contentId = said;
          }),
        ),
      ).toMatch(/is not as it was/);
  });
  test.each([
    ['no id', { id: undefined }, /lacks its id/],
    ['an id that is no text', { id: { a: 1 } }, /lacks its id/],
    ['no text', { text: undefined }, /lacks its id or its text/],
    ['a text that is no JSON', { text: '{"format":1' }, /cannot be used: /],
    ['a text of brackets', { text: nest(100_000) }, /cannot be used: /],
    ['a text that is too big', { text: ' '.repeat(2_000_001) }, /cannot be used: /],
  ])('%s', async (_name, change, why) => {
    expect(await refused(await deckLine((line) => Object.assign(line, change)))).toMatch(why);
  });
  test.each([
    ['{}'],
    ['null'],
    ['[]'],
    [deckText({ limits: { length: 1 } as never })],
    [deckText({ nature: 'holy' as never })],
    [deckText().replace('"format": 1', '"format": 1, "__proto__": {"a": 1}')],
  ])('one that the app could not work with at its next start, though its content is as cited: %s', async (text) => {
    const { contentId } = await import('../../../src/exchange/content-id.ts');
    const hash = await contentId(text);
    const line = JSON.stringify({
      file: 'deck',
      ref: `calder/small@${hash.slice(0, 16)}`,
      id: 'calder/small',
      version: '1.0.0',
      title: 'Small',
      nature: 'fictional',
      contentId: hash,
      text,
      installed: 1,
      active: true,
    });
    expect(await refused(line)).toMatch(/cannot be used: \S/);
  });
  test('what the line says beside the text is not believed', async () => {
    const line = await deckLine((one) => {
      Object.assign(one, { nature: 'public', title: 'Rules of the air', version: '9.9.9', ref: 'calder/other@0' });
      Object.assign(one, { installed: 'never', active: 'yes', more: 1 });
    });
    expect((await readCopy(line)).decks).toEqual([await revision(deckText(), { installed: 0, active: false })]);
  });
  test('a byte order mark within the text is left away: whoever parses the text later knows none', async () => {
    const line = await deckLine((one) => {
      one.text = `\uFEFF${one.text}`;
    });
    expect((await readCopy(line)).decks).toEqual([await revision()]);
  });
});
