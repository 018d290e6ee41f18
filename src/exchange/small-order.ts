/**
 * The points of Ed25519 whose order divides the cofactor 8, as 32 bytes with the bit of the sign left out: y = 0, 1, -1,
 * the two of order 8, and 0 and 1 written as p and p + 1. With one of them as a key a single signature fits every
 * message (Chalkias, Garillot, Nikolaenko, "Taming the many EdDSAs", 2020, section 3: the eight points and the six other
 * ways to write them). RFC 8032 leaves it open whether they are taken, and browsers differ.
 */
const POINTS: ReadonlySet<string> = new Set([
  '0000000000000000000000000000000000000000000000000000000000000000',
  '0100000000000000000000000000000000000000000000000000000000000000',
  '26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05',
  'c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a',
  'ecffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
  'edffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
  'eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f',
]);

/** @param point 32 bytes, as RFC 8032, section 5.1.2, writes a point */
export const isSmallOrder = (point: Uint8Array): boolean => {
  const hex = [...point].map((byte, i) => (i === 31 ? byte & 0x7f : byte).toString(16).padStart(2, '0'));
  return POINTS.has(hex.join(''));
};
