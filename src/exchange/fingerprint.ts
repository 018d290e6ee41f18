/** A public key as two people can compare it: in groups of letters, and read out by the spelling alphabet. */
import type { Fingerprint } from '../model/signing.ts';
import { utf8 } from './base64url.ts';

/** RFC 4648, section 6. */
const BASE32 = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ234567';

/** Radiotelephony spelling alphabet: ICAO Annex 10, volume II, 5.2.1.3; ITU Radio Regulations, appendix 14. */
const SPELLED: Readonly<Record<string, string>> = {
  A: 'Alfa',
  B: 'Bravo',
  C: 'Charlie',
  D: 'Delta',
  E: 'Echo',
  F: 'Foxtrot',
  G: 'Golf',
  H: 'Hotel',
  I: 'India',
  J: 'Juliett',
  K: 'Kilo',
  L: 'Lima',
  M: 'Mike',
  N: 'November',
  O: 'Oscar',
  P: 'Papa',
  Q: 'Quebec',
  R: 'Romeo',
  S: 'Sierra',
  T: 'Tango',
  U: 'Uniform',
  V: 'Victor',
  W: 'Whiskey',
  X: 'X-ray',
  Y: 'Yankee',
  Z: 'Zulu',
  2: 'Two',
  3: 'Three',
  4: 'Four',
  5: 'Five',
  6: 'Six',
  7: 'Seven',
};

/** Bits that are compared: nobody can make another key with the same 80. */
const BITS = 80;

/**
 * SHA-256 thumbprint of an Ed25519 public key (RFC 7638; members of RFC 8037, section 2).
 * @param x the public key as in a JWK, base64url
 */
export const thumbprint = async (x: string): Promise<Uint8Array> =>
  new Uint8Array(await crypto.subtle.digest('SHA-256', utf8(`{"crv":"Ed25519","kty":"OKP","x":"${x}"}`)));

/** @param print of `thumbprint` */
export const fingerprintOf = (print: Uint8Array): Fingerprint => {
  let letters = '';
  let bits = 0;
  let held = 0;
  for (const byte of print.subarray(0, BITS / 8)) {
    held = (held << 8) | byte;
    bits += 8;
    for (; bits >= 5; bits -= 5) letters += BASE32[(held >> (bits - 5)) & 31];
    held &= (1 << bits) - 1;
  }
  return {
    letters: letters.match(/.{4}/g)?.join(' ') ?? '',
    spelled: [...letters].map((one) => SPELLED[one]).join(' '),
  };
};
