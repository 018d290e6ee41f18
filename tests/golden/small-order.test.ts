/** Points of Ed25519 with which a signature proves nothing, worked out anew from the curve of RFC 8032, section 5.1. */
import { expect, test, vi } from 'vitest';
import { fromBase64url, toBase64url, utf8 } from '../../src/exchange/base64url.ts';
import { makeKey } from '../../src/exchange/keys.ts';
import { verifyDeck } from '../../src/exchange/signature.ts';
import { isSmallOrder } from '../../src/exchange/small-order.ts';

const P = 2n ** 255n - 19n;
const mod = (a: bigint) => ((a % P) + P) % P;
const power = (base: bigint, exponent: bigint): bigint => {
  let result = 1n;
  for (let [b, e] = [mod(base), exponent]; e > 0n; e >>= 1n, b = mod(b * b)) if (e & 1n) result = mod(result * b);
  return result;
};
const inverse = (a: bigint) => power(a, P - 2n);
const D = mod(-121665n * inverse(121666n));
/** RFC 8032, section 5.1.3; null where there is none. */
const root = (a: bigint): bigint | null => {
  const first = power(a, (P + 3n) / 8n);
  for (const one of [first, mod(first * power(2n, (P - 1n) / 4n))]) if (mod(one * one - a) === 0n) return one;
  return null;
};
type Point = readonly [bigint, bigint];
const add = ([a, b]: Point, [c, d]: Point): Point => {
  const t = mod(D * a * b * c * d);
  return [mod((a * d + b * c) * inverse(1n + t)), mod((b * d + a * c) * inverse(1n - t))];
};
const withY = (y: bigint): Point => {
  const x = root((y * y - 1n) * inverse(D * y * y + 1n));
  if (x === null) throw new Error(`No point has y = ${y}`);
  return [x, mod(y)];
};
const bytesOf = (y: bigint, sign: 0 | 1): Uint8Array =>
  Uint8Array.from({ length: 32 }, (_, i) => Number((y >> BigInt(8 * i)) & 255n) | (i === 31 ? sign << 7 : 0));

/** Twice a point of order 8 has y = 0: there x² = -y², so that D·y⁴ + 2y² - 1 = 0. */
const eighth = (): bigint => {
  const s = root(1n + D) ?? 0n;
  for (const t of [s, mod(-s)]) {
    const y = root((t - 1n) * inverse(D));
    if (y !== null) return y;
  }
  throw new Error('No point of order 8');
};
const y8 = eighth();
/** All below 2²⁵⁵: only 0 and 1 can be written a second time. */
const WRITTEN = [0n, 1n, P - 1n, y8, P - y8, P, P + 1n];

test.each(WRITTEN)('8·P is the neutral point for y = %s, and it is told with either sign', (y) => {
  let point = withY(y);
  for (let i = 0; i < 3; i++) point = add(point, point);
  expect(point).toEqual([0n, 1n]);
  for (const sign of [0, 1] as const) expect(isSmallOrder(bytesOf(y, sign))).toBe(true);
});

test('the points found are all eight there are; the base point is none of them', () => {
  const all = new Set<string>();
  let point: Point = [0n, 1n];
  for (let i = 0; i < 8; i++) {
    point = add(point, withY(y8));
    all.add(String(point));
    expect(isSmallOrder(bytesOf(point[1], Number(point[0] & 1n) as 0 | 1))).toBe(true);
  }
  expect(all.size).toBe(8);
  expect(isSmallOrder(bytesOf(mod(4n * inverse(5n)), 0))).toBe(false);
});

/** The neutral point as the key and as R, and S = 0: it fits whatever is signed, where the browser takes it. */
const forged = (key: Uint8Array, r: Uint8Array): string => {
  const header = { alg: 'EdDSA', date: '2026-11-25', jwk: { crv: 'Ed25519', kty: 'OKP', x: toBase64url(key) } };
  const signature = new Uint8Array(64);
  signature.set(r);
  return `${toBase64url(utf8(JSON.stringify({ ...header, name: 'A', role: 'author' })))}..${toBase64url(signature)}`;
};

test('one signature that would fit every deck fits none, as a key or as R', async () => {
  const neutral = bytesOf(1n, 0);
  const { x } = await makeKey();
  const key = fromBase64url(x) as Uint8Array;
  for (const [a, r] of [
    [neutral, neutral],
    [neutral, key],
    [key, neutral],
  ] as const) {
    // What Node 20 says to the first pair by itself; other browsers may to the others.
    const takesAll = vi.spyOn(crypto.subtle, 'verify').mockResolvedValue(true);
    for (const title of ['One', 'Another'])
      expect(await verifyDeck({ title, signatures: [forged(a, r)] })).toMatchObject([{ valid: false }]);
    takesAll.mockRestore();
  }
});
