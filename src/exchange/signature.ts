/**
 * Signatures of decks: detached JWS in compact form (RFC 7515, appendix F), EdDSA with Ed25519 (RFC 8037). The payload
 * is the canonical JSON of the deck without its signatures; the protected header carries the public key and who signs:
 * `{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":…},"role":"author"|"checker","name":…,"date":"2026-11-25"}`.
 */
import { scan } from '../deck/scan.ts';
import { MOST_SIGNATURES } from '../model/deck.ts';
import type { SignatureFound, Signer } from '../model/signing.ts';
import { fromBase64url, fromUtf8, toBase64url, utf8 } from './base64url.ts';
import { signedText } from './content-id.ts';
import { fingerprintOf, thumbprint } from './fingerprint.ts';
import { isSmallOrder } from './small-order.ts';

/** Longest name of a signer, characters. */
const MOST_NAME = 80;

/** What signs; `privateKey` may be one that cannot be taken out of the browser. */
export interface SigningKey {
  readonly privateKey: CryptoKey;
  /** Public key as in a JWK: 32 bytes, base64url. */
  readonly x: string;
}

/** A signature that is none, or is not of a kind that is taken here. Its message is for people. */
export class SignatureProblem extends Error {
  override readonly name = 'SignatureProblem';
}

export const NO_ED25519 =
  'This browser cannot work with signatures (Ed25519). Update it, or use a newer one: current versions of all browsers can.';

const ALGORITHM = 'Ed25519';

interface Header extends Signer {
  readonly x: string;
}

/** Also what makes a name look like another one: controls, marks of direction, characters without a shape. */
const UNFIT = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}]/u;

/** @returns the name as it is signed; null where it is none */
export const nameOf = (written: string): string | null => {
  const name = written.normalize('NFC').trim().replace(/ +/g, ' ');
  return name === '' || [...name].length > MOST_NAME || UNFIT.test(name) ? null : name;
};

const isDate = (text: string): boolean =>
  /^\d{4}-\d\d-\d\d$/.test(text) && new Date(Date.parse(`${text}T00:00:00Z`) || 0).toISOString().startsWith(text);

const isObject = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Only these members, so that nothing is signed that nobody looks at: no "crit", no "b64", no other key. */
const MEMBERS = ['alg', 'date', 'jwk', 'name', 'role'];
const JWK_MEMBERS = ['crv', 'kty', 'x'];

const hasOnly = (value: Readonly<Record<string, unknown>>, members: readonly string[]): boolean =>
  Object.keys(value).sort().join() === members.join();

/** @throws SignatureProblem */
const readHeader = (encoded: string): Header => {
  const bytes = fromBase64url(encoded);
  const text = bytes === null ? null : fromUtf8(bytes);
  let header: unknown;
  try {
    header = JSON.parse(text ?? '');
  } catch {
    throw new SignatureProblem('The signature cannot be read: it was changed, or is not one of Recency.');
  }
  if (!isObject(header)) throw new SignatureProblem('The signature cannot be read: its header is no object.');
  if (header.alg !== 'EdDSA')
    throw new SignatureProblem(
      `Signatures are of the kind EdDSA; this one says ${JSON.stringify(header.alg ?? null)}.`,
    );
  const { jwk, role, name, date } = header;
  if (!hasOnly(header, MEMBERS) || !isObject(jwk) || !hasOnly(jwk, JWK_MEMBERS))
    throw new SignatureProblem('The signature has other parts than those that Recency writes.');
  const { kty, crv, x } = jwk;
  if (kty !== 'OKP' || crv !== ALGORITHM || typeof x !== 'string' || fromBase64url(x)?.length !== 32)
    throw new SignatureProblem('The key of the signature is no Ed25519 key of 32 bytes.');
  if (role !== 'author' && role !== 'checker')
    throw new SignatureProblem('The signature does not say whether its signer is the author or a checker.');
  if (typeof name !== 'string' || nameOf(name) !== name)
    throw new SignatureProblem(`The signer's name is missing, longer than ${MOST_NAME} characters or misleading.`);
  if (typeof date !== 'string' || !isDate(date)) throw new SignatureProblem('The date of the signature is no date.');
  return { x, role, name, date };
};

/** @throws SignatureProblem: not in the form of a detached compact JWS */
const partsOf = (jws: string): { readonly encoded: string; readonly signature: Uint8Array<ArrayBuffer> } => {
  const [encoded = '', payload, last = '', ...more] = jws.split('.');
  const signature = fromBase64url(last);
  if (encoded === '' || payload !== '' || more.length > 0 || signature?.length !== 64)
    throw new SignatureProblem('The signature cannot be read: it is not header..signature.');
  return { encoded, signature };
};

/** Is it that the browser has no Ed25519? */
const lacksIt = (error: unknown): boolean => error instanceof Error && error.name === 'NotSupportedError';

/** RFC 7515, section 5.1, step 5. */
const signingInput = (encoded: string, payload: string): Uint8Array<ArrayBuffer> =>
  utf8(`${encoded}.${toBase64url(utf8(payload))}`);

/**
 * One signature over a payload.
 * @throws SignatureProblem where it is no signature that is taken here
 */
const verifyOne = async (payload: string, jws: string): Promise<SignatureFound> => {
  const { encoded, signature } = partsOf(jws);
  const { x, role, name, date } = readHeader(encoded);
  const print = await thumbprint(x);
  const about = { role, name, date, key: toBase64url(print), fingerprint: fingerprintOf(print) };
  const bytes = fromBase64url(x) as Uint8Array<ArrayBuffer>;
  // Anybody could have made it: it proves nothing, whatever the browser says to it.
  if (isSmallOrder(bytes) || isSmallOrder(signature.subarray(0, 32))) return { ...about, valid: false };
  try {
    const key = await crypto.subtle.importKey('raw', bytes, ALGORITHM, false, ['verify']);
    return {
      ...about,
      valid: await crypto.subtle.verify(ALGORITHM, key, signature, signingInput(encoded, payload)),
    };
  } catch (error) {
    if (lacksIt(error)) return { ...about, valid: 'unknown' };
    // 32 bytes that are no point of the curve.
    return { ...about, valid: false };
  }
};

/**
 * All signatures of a deck, in the order of the file; none for an unsigned one.
 * @param deck the file's text, or what it says; of a text, size and levels are looked at before it is parsed
 * @throws SignatureProblem where one is no signature that is taken here; SyntaxError where the text is no JSON
 */
export const verifyDeck = async (deck: string | object): Promise<SignatureFound[]> => {
  if (typeof deck === 'string' && scan(deck.replace(/^\uFEFF/, '')) !== null)
    throw new SyntaxError('The deck cannot be read: check it first.');
  const value = (typeof deck === 'string' ? JSON.parse(deck.replace(/^\uFEFF/, '')) : deck) as unknown;
  if (!isObject(value) || value.signatures === undefined) return [];
  const { signatures } = value;
  if (!Array.isArray(signatures) || signatures.length > MOST_SIGNATURES)
    throw new SignatureProblem(`A deck has a list of at most ${MOST_SIGNATURES} signatures.`);
  const payload = signedText(value);
  return Promise.all(signatures.map((one) => verifyOne(payload, String(one))));
};

/** The header of a signature as it is written: keys in order of the alphabet. */
const encodeHeader = (x: string, { role, name, date }: Signer): string =>
  toBase64url(utf8(JSON.stringify({ alg: 'EdDSA', date, jwk: { crv: ALGORITHM, kty: 'OKP', x }, name, role })));

/**
 * The deck with one more signature, or with this key's own one made anew. What the others signed stays.
 * @returns the same object but for `signatures`
 * @throws SignatureProblem: signed with this key in the other role, no room for another, a name or date that cannot be
 *   signed, or no Ed25519 here
 */
export const signDeck = async <D extends { readonly signatures?: readonly string[] }>(
  deck: D,
  key: SigningKey,
  signer: Signer,
): Promise<D & { readonly signatures: readonly string[] }> => {
  const name = nameOf(signer.name);
  if (name === null)
    throw new SignatureProblem(`A signer needs a name of 1 to ${MOST_NAME} characters, letters and signs that show.`);
  if (!isDate(signer.date)) throw new SignatureProblem(`“${signer.date}” is no date such as 2026-11-25.`);
  const others = (deck.signatures ?? []).filter((jws) => {
    const { x, role } = readHeader(partsOf(jws).encoded);
    if (x === key.x && role !== signer.role)
      throw new SignatureProblem(
        `This key signed the deck as ${role}. A checker is a second person, with a key of their own.`,
      );
    return x !== key.x;
  });
  if (others.length >= MOST_SIGNATURES)
    throw new SignatureProblem(`The deck has ${MOST_SIGNATURES} signatures already: no more fit.`);
  const encoded = encodeHeader(key.x, { ...signer, name });
  try {
    const bytes = await crypto.subtle.sign(ALGORITHM, key.privateKey, signingInput(encoded, signedText(deck)));
    return { ...deck, signatures: [...others, `${encoded}..${toBase64url(new Uint8Array(bytes))}`] };
  } catch (error) {
    throw lacksIt(error) ? new SignatureProblem(NO_ED25519) : error;
  }
};
