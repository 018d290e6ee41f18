/**
 * What signatures of decks and reports have in common: compact JWS (RFC 7515), EdDSA with Ed25519 (RFC 8037), the public
 * key in the protected header. Nothing of it is trusted: each part is looked at before it is used.
 */
import { fromBase64url, fromUtf8, toBase64url, utf8 } from './base64url.ts';
import { isSmallOrder } from './small-order.ts';

/** What signs; `privateKey` may be one that cannot be taken out of the browser. */
export interface SigningKey {
  readonly privateKey: CryptoKey;
  /** Public key as in a JWK: 32 bytes, base64url. */
  readonly x: string;
}

export const NO_ED25519 =
  'This browser cannot work with signatures (Ed25519). Update it, or use a newer one: current versions of all browsers can.';

export const ALGORITHM = 'Ed25519';

/** Of a signature, bytes. */
export const SIGNATURE_BYTES = 64;

/** Is it that the browser has no Ed25519? */
export const lacksIt = (error: unknown): boolean => error instanceof Error && error.name === 'NotSupportedError';

export type Fields = Readonly<Record<string, unknown>>;

export const isObject = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** @param members in order of the alphabet */
export const hasOnly = (value: Fields, members: readonly string[]): boolean =>
  Object.keys(value).sort().join() === members.join();

/** @returns what a protected header says; null where it is no JSON */
export const readHeader = (encoded: string): unknown => {
  const bytes = fromBase64url(encoded);
  try {
    return JSON.parse((bytes === null ? null : fromUtf8(bytes)) ?? '');
  } catch {
    return null;
  }
};

/** @returns public key of a header's `jwk`, base64url; null where it is no Ed25519 key of 32 bytes */
export const publicKeyOf = (jwk: unknown): string | null => {
  const { kty, crv, x } = isObject(jwk) ? jwk : {};
  return kty === 'OKP' && crv === ALGORITHM && typeof x === 'string' && fromBase64url(x)?.length === 32 ? x : null;
};

/** Only these members, so that nothing is signed that nobody looks at. */
export const JWK_MEMBERS = ['crv', 'kty', 'x'];

/** A protected header as it is written. @param more its members besides `alg` and `jwk`; all in order of the alphabet */
export const encodeHeader = (x: string, more: Readonly<Record<string, string>>): string => {
  const header: Record<string, unknown> = { ...more, alg: 'EdDSA', jwk: { crv: ALGORITHM, kty: 'OKP', x } };
  return toBase64url(
    utf8(
      JSON.stringify(
        Object.fromEntries(
          Object.keys(header)
            .sort()
            .map((k) => [k, header[k]]),
        ),
      ),
    ),
  );
};

/** RFC 7515, section 5.1, step 5. Both encoded. */
const signingInput = (header: string, payload: string): Uint8Array<ArrayBuffer> => utf8(`${header}.${payload}`);

/**
 * The signature, encoded.
 * @throws as the platform does; see `lacksIt`
 */
export const signatureOf = async ({ privateKey }: SigningKey, header: string, payload: string): Promise<string> =>
  toBase64url(new Uint8Array(await crypto.subtle.sign(ALGORITHM, privateKey, signingInput(header, payload))));

/** Anybody could have made it: it proves nothing, whatever the browser says to it. */
export const provesNothing = (x: string, signature: Uint8Array): boolean =>
  isSmallOrder(fromBase64url(x) ?? new Uint8Array(32)) || isSmallOrder(signature.subarray(0, 32));

/**
 * Does a signature hold? `unknown` where this browser cannot tell.
 * @param x public key, 32 bytes, base64url
 */
export const holds = async (
  x: string,
  header: string,
  payload: string,
  signature: Uint8Array<ArrayBuffer>,
): Promise<boolean | 'unknown'> => {
  if (provesNothing(x, signature)) return false;
  try {
    const bytes = fromBase64url(x) as Uint8Array<ArrayBuffer>;
    const key = await crypto.subtle.importKey('raw', bytes, ALGORITHM, false, ['verify']);
    return await crypto.subtle.verify(ALGORITHM, key, signature, signingInput(header, payload));
  } catch (error) {
    // Otherwise 32 bytes that are no point of the curve.
    return lacksIt(error) ? 'unknown' : false;
  }
};
