import { inflateRawSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import { readAssignment } from '../../../src/exchange/assignment.ts';
import { assignmentFragment, assignmentInFragment } from '../../../src/exchange/assignment-link.ts';
import { toBase64url, utf8 } from '../../../src/exchange/base64url.ts';
import { FULL } from '../../fixtures/assignments/arbitrary.ts';

test('what is packed is DEFLATE (RFC 1951) in base64url, as zlib reads it', async () => {
  const fragment = await assignmentFragment(FULL);
  const [, data = ''] = /^#assignment=([A-Za-z0-9_-]+)$/.exec(fragment) ?? [];
  expect(JSON.parse(inflateRawSync(Buffer.from(data, 'base64url')).toString('utf8'))).toEqual(FULL);
  expect(fragment.length).toBeLessThan(JSON.stringify(FULL).length);
});

test('a browser that cannot compress writes it plain, and reads that', async () => {
  class Never {
    constructor() {
      throw new TypeError('Unsupported compression format');
    }
  }
  for (const streams of [{}, { CompressionStream: Never as never }]) {
    const fragment = await assignmentFragment(FULL, streams);
    expect(fragment).toMatch(/^#assignment-plain=/);
    const read = await assignmentInFragment(fragment, {});
    expect(read?.ok && readAssignment(read.value).assignment).toEqual(FULL);
  }
  const packed = await assignmentInFragment(await assignmentFragment(FULL), {});
  expect(packed).toMatchObject({ ok: false, error: expect.stringContaining('cannot unpack') });
});

test.each(['', '#', '#deck=https://x.example/a', '#/assignment'])('%s names none', async (hash) => {
  expect(await assignmentInFragment(hash)).toBeNull();
});

describe('a link that is not whole says so', () => {
  const whole = assignmentFragment(FULL);
  test.each<readonly [string, (hash: string) => string]>([
    ['nothing behind it', () => '#assignment='],
    ['cut off', (hash) => hash.slice(0, -20)],
    ['with a foreign letter', (hash) => `${hash}%20`],
    ['no DEFLATE', () => `#assignment=${toBase64url(utf8('hello there'))}`],
    ['no UTF-8', () => `#assignment-plain=${toBase64url(new Uint8Array([0xff, 0xfe]))}`],
  ])('%s', async (_, change) => {
    expect(await assignmentInFragment(change(await whole))).toMatchObject({
      ok: false,
      error: expect.stringContaining('not whole'),
    });
  });

  test('a small link that grows beyond any assignment is not unpacked', async () => {
    const bomb = await assignmentFragment({ ...FULL, note: 'x'.repeat(5_000_000) });
    expect(bomb.length).toBeLessThan(20_000);
    expect(await assignmentInFragment(bomb)).toMatchObject({ ok: false, error: expect.stringContaining('larger') });
  });
});
