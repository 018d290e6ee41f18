/**
 * How the files of a folder are named and kept: as they are, named by their SHA-256; or under a passphrase. Then a key
 * is derived by PBKDF2 (RFC 8018) with SHA-256 and a salt of the folder, and from it by HKDF (RFC 5869) one for AES-256
 * in GCM (SP 800-38D) and one for HMAC-SHA-256 (RFC 2104), which names the files: the same content has the same name on
 * every device, and the name says nothing of it.
 */
import { fromBase64url, fromUtf8, toBase64url, utf8 } from '../exchange/base64url.ts';
import { FolderProblem, type Kind } from './folder.ts';

type Bytes = Uint8Array<ArrayBuffer>;

/** Of this device; neither can be read out. */
export interface Keys {
  readonly content: CryptoKey;
  readonly names: CryptoKey;
}

export interface Vault {
  /** 64 hex. */
  hash(kind: Kind, plain: Bytes): Promise<string>;
  seal(kind: Kind, hash: string, plain: Bytes): Promise<Bytes>;
  /** @returns null where the file is not what its name says: cut off, changed, or kept under another passphrase */
  open(kind: Kind, hash: string, bytes: Bytes): Promise<Bytes | null>;
}

/** What `folder.json` says. */
export type Description =
  | { readonly passphrase: false }
  | { readonly passphrase: true; readonly rounds: number; readonly salt: Bytes; readonly check: string };

/** OWASP Password Storage Cheat Sheet, 2023. */
const ROUNDS = 600_000;
/** A file may ask for no more work than this, and for no less protection. */
const MOST_ROUNDS = 5_000_000;
const LEAST_ROUNDS = 100_000;
const KDF = 'PBKDF2-SHA-256 HKDF-SHA-256';
const CIPHER = 'AES-256-GCM HMAC-SHA-256';
/** Characters; what is shorter is guessed. */
const LEAST_PASSPHRASE = 12;
const IV_BYTES = 12;

const hex = (bytes: ArrayBuffer): string =>
  [...new Uint8Array(bytes)].map((byte) => byte.toString(16).padStart(2, '0')).join('');

export const openVault: Vault = {
  hash: async (_kind, plain) => hex(await crypto.subtle.digest('SHA-256', plain)),
  seal: async (_kind, _hash, plain) => plain,
  open: async (_kind, hash, bytes) => (hex(await crypto.subtle.digest('SHA-256', bytes)) === hash ? bytes : null),
};

/** The kind is part of what is named and bound: a deck never passes for a log. */
export const sealedVault = ({ content, names }: Keys): Vault => {
  const hash = async (kind: Kind, plain: Bytes): Promise<string> => {
    const head = utf8(`${kind}\n`);
    const whole = new Uint8Array(head.length + plain.length);
    whole.set(head);
    whole.set(plain, head.length);
    return hex(await crypto.subtle.sign('HMAC', names, whole));
  };
  return {
    hash,
    seal: async (kind, name, plain) => {
      // Random, 96 bits (SP 800-38D, 8.2.2): one folder is far from 2^32 files.
      const iv = crypto.getRandomValues(new Uint8Array(IV_BYTES));
      const sealed = await crypto.subtle.encrypt(
        { name: 'AES-GCM', iv, additionalData: utf8(`${name}.${kind}`) },
        content,
        plain,
      );
      const all = new Uint8Array(IV_BYTES + sealed.byteLength);
      all.set(iv);
      all.set(new Uint8Array(sealed), IV_BYTES);
      return all;
    },
    open: async (kind, name, bytes) => {
      const iv = bytes.subarray(0, IV_BYTES);
      try {
        const plain = new Uint8Array(
          await crypto.subtle.decrypt(
            { name: 'AES-GCM', iv, additionalData: utf8(`${name}.${kind}`) },
            content,
            bytes.subarray(IV_BYTES),
          ),
        );
        return (await hash(kind, plain)) === name ? plain : null;
      } catch {
        return null;
      }
    },
  };
};

/** 256 bits of a passphrase, by PBKDF2 with SHA-256. */
export const stretched = async (passphrase: string, salt: Bytes, rounds: number): Promise<ArrayBuffer> => {
  const words = await crypto.subtle.importKey('raw', utf8(passphrase.normalize('NFC')), 'PBKDF2', false, [
    'deriveBits',
  ]);
  return crypto.subtle.deriveBits({ name: 'PBKDF2', hash: 'SHA-256', salt, iterations: rounds }, words, 256);
};

/** Keys and what proves the passphrase, of passphrase and salt. */
export const deriveKeys = async (
  passphrase: string,
  salt: Bytes,
  rounds: number,
): Promise<{ readonly keys: Keys; readonly check: string }> => {
  const bits = await stretched(passphrase, salt, rounds);
  const master = await crypto.subtle.importKey('raw', bits, 'HKDF', false, ['deriveKey', 'deriveBits']);
  const of = (info: string) => ({ name: 'HKDF', hash: 'SHA-256', salt: new Uint8Array(), info: utf8(info) });
  const [content, names, check] = await Promise.all([
    crypto.subtle.deriveKey(of('recency content'), master, { name: 'AES-GCM', length: 256 }, false, [
      'encrypt',
      'decrypt',
    ]),
    crypto.subtle.deriveKey(of('recency names'), master, { name: 'HMAC', hash: 'SHA-256', length: 256 }, false, [
      'sign',
    ]),
    crypto.subtle.deriveBits(of('recency check'), master, 128),
  ]);
  return { keys: { content, names }, check: toBase64url(new Uint8Array(check)) };
};

const damaged = () =>
  new FolderProblem(
    'folder',
    'The file folder.json in the folder is damaged or of a newer version of the app. Use another folder, or update the app.',
  );

/** @throws FolderProblem where it is not whole, or of a newer version */
export const readDescription = (bytes: Bytes): Description => {
  let value: unknown;
  try {
    value = JSON.parse(fromUtf8(bytes.subarray(0, 10_000)) ?? '');
  } catch {
    throw damaged();
  }
  const { recency, v, kdf, cipher, rounds, salt, check } = (value ?? {}) as Readonly<Record<string, unknown>>;
  if (recency !== 'folder' || v !== 1) throw damaged();
  if (kdf === undefined) return { passphrase: false };
  const bytesOfSalt = typeof salt === 'string' ? fromBase64url(salt) : null;
  const isRounds =
    typeof rounds === 'number' && Number.isInteger(rounds) && rounds >= LEAST_ROUNDS && rounds <= MOST_ROUNDS;
  const isWhole = kdf === KDF && cipher === CIPHER && isRounds && typeof check === 'string';
  if (!isWhole || bytesOfSalt === null || bytesOfSalt.length < 16) throw damaged();
  return { passphrase: true, rounds, salt: bytesOfSalt, check };
};

/**
 * A description for a folder that is begun, and its keys.
 * @param passphrase null: without one
 * @throws FolderProblem: the passphrase is too short
 */
export const describe = async (
  passphrase: string | null,
): Promise<{ readonly bytes: Bytes; readonly keys: Keys | null }> => {
  const write = (more: object) => utf8(`${JSON.stringify({ recency: 'folder', v: 1, ...more })}\n`);
  if (passphrase === null) return { bytes: write({}), keys: null };
  if ([...passphrase].length < LEAST_PASSPHRASE)
    throw new FolderProblem(
      'passphrase',
      `A passphrase has at least ${LEAST_PASSPHRASE} characters: some words in a row will do.`,
    );
  const salt = crypto.getRandomValues(new Uint8Array(16));
  const { keys, check } = await deriveKeys(passphrase, salt, ROUNDS);
  return { bytes: write({ kdf: KDF, cipher: CIPHER, rounds: ROUNDS, salt: toBase64url(salt), check }), keys };
};

/**
 * The keys of a folder that was begun.
 * @throws FolderProblem: none where one is needed, one where there is none, or a wrong one
 */
export const unlock = async (description: Description, passphrase: string | null): Promise<Keys | null> => {
  if (!description.passphrase) {
    if (passphrase === null) return null;
    throw new FolderProblem(
      'passphrase',
      'This folder was begun without a passphrase. Go on without one, or use another folder: the two are not mixed.',
    );
  }
  if (passphrase === null)
    throw new FolderProblem('passphrase', 'This folder was begun with a passphrase. Fill in the same one.');
  const { keys, check } = await deriveKeys(passphrase, description.salt, description.rounds);
  if (check !== description.check)
    throw new FolderProblem('passphrase', 'This is not the passphrase of the folder. Nothing was read or written.');
  return keys;
};
