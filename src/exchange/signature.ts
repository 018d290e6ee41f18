/**
 * Signatures of decks: detached JWS in compact form (RFC 7515, appendix F), EdDSA with Ed25519 (RFC 8037). The payload
 * is the canonical JSON of the deck without its signatures; the protected header carries the public key and who signs:
 * `{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":…},"role":"author"|"checker","name":…,"date":"2026-11-25"}`.
 */
import { scan } from '../deck/scan.ts';
import { shownName } from '../lib/shown-name.ts';
import { MOST_SIGNATURES } from '../model/deck.ts';
import type { SignatureFound, Signer } from '../model/signing.ts';
import { fromBase64url, toBase64url, utf8 } from './base64url.ts';
import { signedText } from './content-id.ts';
import { fingerprintOf, thumbprint } from './fingerprint.ts';
import {
  encodeHeader,
  hasOnly,
  holds,
  isObject,
  JWK_MEMBERS,
  lacksIt,
  NO_ED25519,
  publicKeyOf,
  readHeader as readJwsHeader,
  SIGNATURE_BYTES,
  type SigningKey,
  signatureOf,
} from './jws.ts';

/** Longest name of a signer, characters. */
const MOST_NAME = 80;

/** A signature that is none, or is not of a kind that is taken here. Its message is for people. */
export class SignatureProblem extends Error {
  override readonly name = 'SignatureProblem';
}

interface Header extends Signer {
  readonly x: string;
}

/** @returns the name as it is signed; null where it is none */
export const nameOf = (written: string): string | null => shownName(written, MOST_NAME);

const isDate = (text: string): boolean =>
  /^\d{4}-\d\d-\d\d$/.test(text) && new Date(Date.parse(`${text}T00:00:00Z`) || 0).toISOString().startsWith(text);

/** Only these members, so that nothing is signed that nobody looks at: no "crit", no "b64", no other key. */
const MEMBERS = ['alg', 'date', 'jwk', 'name', 'role'];

/** @throws SignatureProblem */
const readHeader = (encoded: string): Header => {
  const header = readJwsHeader(encoded);
  if (header === null)
    throw new SignatureProblem('The signature cannot be read: it was changed, or is not one of Recency.');
  if (!isObject(header)) throw new SignatureProblem('The signature cannot be read: its header is no object.');
  if (header.alg !== 'EdDSA')
    throw new SignatureProblem(
      `Signatures are of the kind EdDSA; this one says ${JSON.stringify(header.alg ?? null)}.`,
    );
  const { jwk, role, name, date } = header;
  if (!hasOnly(header, MEMBERS) || !isObject(jwk) || !hasOnly(jwk, JWK_MEMBERS))
    throw new SignatureProblem('The signature has other parts than those that Recency writes.');
  const x = publicKeyOf(jwk);
  if (x === null) throw new SignatureProblem('The key of the signature is no Ed25519 key of 32 bytes.');
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
  if (encoded === '' || payload !== '' || more.length > 0 || signature?.length !== SIGNATURE_BYTES)
    throw new SignatureProblem('The signature cannot be read: it is not header..signature.');
  return { encoded, signature };
};

/**
 * One signature over a payload.
 * @throws SignatureProblem where it is no signature that is taken here
 */
const verifyOne = async (payload: string, jws: string): Promise<SignatureFound> => {
  const { encoded, signature } = partsOf(jws);
  const { x, role, name, date } = readHeader(encoded);
  const print = await thumbprint(x);
  const about = { role, name, date, key: toBase64url(print), fingerprint: fingerprintOf(print) };
  return { ...about, valid: await holds(x, encoded, toBase64url(utf8(payload)), signature) };
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
  const encoded = encodeHeader(key.x, { date: signer.date, name, role: signer.role });
  try {
    const made = await signatureOf(key, encoded, toBase64url(utf8(signedText(deck))));
    return { ...deck, signatures: [...others, `${encoded}..${made}`] };
  } catch (error) {
    throw lacksIt(error) ? new SignatureProblem(NO_ED25519) : error;
  }
};
