import { createHash } from 'node:crypto';
import { expect, test } from 'vitest';
import { contentId } from '../../../src/exchange/content-id.ts';
import { deckText } from './copies.ts';

/** By another implementation of SHA-256 than the one used. */
const sha256 = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex');

test('SHA-256 of the canonical JSON of RFC 8785', async () => {
  // The example of RFC 8785, 3.2.2 and 3.2.3: its input and its canonical form.
  const input = String.raw`{
    "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
    "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
    "literals": [null, true, false]
  }`;
  const canonical = String.raw`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`;
  expect(await contentId(input)).toBe(sha256(canonical));
  // FIPS 180-4 has no vector of a JSON text; of "{}" the digest is that of coreutils' sha256sum.
  expect(await contentId('{}')).toBe('44136fa355b3678a1146ad16f7e8649e94fb4fc21fe77e8310c060f61caaff8a');
});

test('layout and order of keys do not matter, content does', async () => {
  const text = deckText();
  const parsed = JSON.parse(text) as Record<string, unknown>;
  const turned = Object.fromEntries(Object.entries(parsed).reverse());
  const id = await contentId(text);
  expect(await contentId(JSON.stringify(parsed))).toBe(id);
  expect(await contentId(JSON.stringify(turned, null, 7).replaceAll('\n', '\r\n'))).toBe(id);
  expect(await contentId(parsed)).toBe(id);
  expect(await contentId(text.replace('180', '180.0'))).toBe(id);
  expect(await contentId(text.replace('180', '181'))).not.toBe(id);
  expect(await contentId(text.replace('"Small"', '"small"'))).not.toBe(id);
});

test('no JSON is a SyntaxError', async () => {
  await expect(contentId('{"id":')).rejects.toThrow(SyntaxError);
  await expect(contentId('')).rejects.toThrow(SyntaxError);
});
