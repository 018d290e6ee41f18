/**
 * Keys that sign decks. In the browser a private key lies where no script can read it out. Before that, once, it can be
 * written to a file under a passphrase: an encrypted JWK (RFC 7517, section 7) as a compact JWE (RFC 7516) with
 * PBES2-HS256+A128KW (RFC 7518, section 4.8) and A256GCM.
 */
import { fromBase64url, fromUtf8, toBase64url, utf8 } from './base64url.ts';
import { NO_ED25519, type SigningKey } from './jws.ts';
import { SignatureProblem } from './signature.ts';

/** Private key as RFC 8037 writes it. */
export interface PrivateJwk {
  readonly kty: 'OKP';
  readonly crv: 'Ed25519';
  /** 32 bytes each, base64url. */
  readonly x: string;
  readonly d: string;
}

/** Rounds of PBKDF2 with SHA-256: OWASP Password Storage Cheat Sheet, 2023. */
const ROUNDS = 600_000;
/** A file may ask for no more work than this. */
const MOST_ROUNDS = 5_000_000;
const KDF = 'PBES2-HS256+A128KW';
const ENCRYPTION = 'A256GCM';
/** Characters; what is shorter is guessed. */
const LEAST_PASSPHRASE = 12;

const isBytes = (value: unknown, length: number): value is string =>
  typeof value === 'string' && fromBase64url(value)?.length === length;

/** @throws SignatureProblem */
const jwkOf = (value: unknown): PrivateJwk => {
  const { kty, crv, x, d } = (value ?? {}) as Readonly<Record<string, unknown>>;
  if (kty !== 'OKP' || crv !== 'Ed25519' || !isBytes(x, 32) || !isBytes(d, 32))
    throw new SignatureProblem('This is no key that signs decks: a private Ed25519 key as a JWK (RFC 8037) is needed.');
  return { kty, crv, x, d };
};

/** @throws SignatureProblem where the browser has no Ed25519 */
export const makeKey = async (): Promise<PrivateJwk> => {
  try {
    const pair = (await crypto.subtle.generateKey('Ed25519', true, ['sign', 'verify'])) as CryptoKeyPair;
    return jwkOf(await crypto.subtle.exportKey('jwk', pair.privateKey));
  } catch (error) {
    if (error instanceof SignatureProblem) throw error;
    throw new SignatureProblem(NO_ED25519);
  }
};

/**
 * A key that can sign and cannot be read out again.
 * @throws SignatureProblem: no Ed25519 here, or public and private part do not belong together
 */
export const signingKey = async ({ kty, crv, x, d }: PrivateJwk): Promise<SigningKey> => {
  const probe = utf8('recency');
  try {
    const privateKey = await crypto.subtle.importKey('jwk', { kty, crv, x, d }, 'Ed25519', false, ['sign']);
    const publicKey = await crypto.subtle.importKey('jwk', { kty, crv, x }, 'Ed25519', false, ['verify']);
    const signature = await crypto.subtle.sign('Ed25519', privateKey, probe);
    if (await crypto.subtle.verify('Ed25519', publicKey, signature, probe)) return { privateKey, x };
  } catch (error) {
    if (error instanceof Error && error.name === 'NotSupportedError') throw new SignatureProblem(NO_ED25519);
  }
  throw new SignatureProblem('The key is damaged: its two parts do not belong together.');
};

/** RFC 7518, section 4.8.1.1: the salt is the name of the algorithm, a zero and the salt input. */
const wrappingKey = async (passphrase: string, p2s: Uint8Array, rounds: number): Promise<CryptoKey> => {
  const words = await crypto.subtle.importKey('raw', utf8(passphrase.normalize('NFC')), 'PBKDF2', false, ['deriveKey']);
  const salt = new Uint8Array([...utf8(KDF), 0, ...p2s]);
  return crypto.subtle.deriveKey(
    { name: 'PBKDF2', hash: 'SHA-256', salt, iterations: rounds },
    words,
    { name: 'AES-KW', length: 128 },
    false,
    ['wrapKey', 'unwrapKey'],
  );
};

/**
 * The text of a key file.
 * @throws SignatureProblem: the passphrase is too short
 */
export const writeKeyFile = async (key: PrivateJwk, passphrase: string): Promise<string> => {
  if ([...passphrase].length < LEAST_PASSPHRASE)
    throw new SignatureProblem(
      `A passphrase has at least ${LEAST_PASSPHRASE} characters: some words in a row will do.`,
    );
  const p2s = crypto.getRandomValues(new Uint8Array(16));
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const header = { alg: KDF, cty: 'jwk+json', enc: ENCRYPTION, p2c: ROUNDS, p2s: toBase64url(p2s) };
  const encoded = toBase64url(utf8(JSON.stringify(header)));
  const content = await crypto.subtle.generateKey({ name: 'AES-GCM', length: 256 }, true, ['encrypt']);
  const wrapped = await crypto.subtle.wrapKey('raw', content, await wrappingKey(passphrase, p2s, ROUNDS), 'AES-KW');
  const sealed = new Uint8Array(
    await crypto.subtle.encrypt(
      { name: 'AES-GCM', iv, additionalData: utf8(encoded) },
      content,
      utf8(JSON.stringify(key)),
    ),
  );
  // The tag stands behind the text (SP 800-38D, 16 bytes); a JWE has it apart.
  const parts = [new Uint8Array(wrapped), iv, sealed.subarray(0, -16), sealed.subarray(-16)];
  return `${[encoded, ...parts.map(toBase64url)].join('.')}\n`;
};

const NO_KEY_FILE = 'This is no key file of Recency, or it was cut short.';

/**
 * The key of a key file; also of a plain JWK, as the command line writes it, whatever the passphrase.
 * @throws SignatureProblem: no key file, another passphrase, or changed since
 */
export const readKeyFile = async (text: string, passphrase: string): Promise<PrivateJwk> => {
  if (text.length > 10_000) throw new SignatureProblem(NO_KEY_FILE);
  const plain = text.trim();
  if (plain.startsWith('{')) return jwkOf(parsed(plain));
  const [encoded = '', ...rest] = plain.split('.');
  const [wrapped, iv, sealed, tag, ...more] = rest.map(fromBase64url);
  const header = parsed(fromUtf8(fromBase64url(encoded) ?? new Uint8Array()) ?? '');
  const { alg, enc, p2c, p2s, cty, ...others } = (header ?? {}) as Readonly<Record<string, unknown>>;
  const salt = typeof p2s === 'string' ? fromBase64url(p2s) : null;
  const isRounds = typeof p2c === 'number' && Number.isInteger(p2c) && p2c >= 1000 && p2c <= MOST_ROUNDS;
  const isOurs = alg === KDF && enc === ENCRYPTION && cty === 'jwk+json' && Object.keys(others).length === 0;
  if (!wrapped || !iv || !sealed || !tag || more.length > 0 || !isOurs || !isRounds || salt === null || salt.length < 8)
    throw new SignatureProblem(NO_KEY_FILE);
  let opened: ArrayBuffer;
  try {
    const wrapping = await wrappingKey(passphrase, salt, p2c);
    const content = await crypto.subtle.unwrapKey('raw', wrapped, wrapping, 'AES-KW', 'AES-GCM', false, ['decrypt']);
    opened = await crypto.subtle.decrypt(
      { name: 'AES-GCM', iv, additionalData: utf8(encoded) },
      content,
      new Uint8Array([...sealed, ...tag]),
    );
  } catch {
    throw new SignatureProblem('The passphrase is not the one of this key file, or the file was changed.');
  }
  return jwkOf(parsed(fromUtf8(new Uint8Array(opened)) ?? ''));
};

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
};
