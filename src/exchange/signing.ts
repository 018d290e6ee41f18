/** Signing as screens use it: one door to signatures and keys. */
import type { Fingerprint, Signer } from '../model/signing.ts';
import { toBase64url } from './base64url.ts';
import { fingerprintOf, thumbprint } from './fingerprint.ts';
import type { SigningKey } from './jws.ts';
import { makeKey, type PrivateJwk, readKeyFile, signingKey, writeKeyFile } from './keys.ts';
import { makeDeviceKey, signReport } from './report-sign.ts';
import { signDeck, verifyDeck } from './signature.ts';

interface OwnKey extends SigningKey {
  readonly key: string;
  readonly fingerprint: Fingerprint;
}

/** A key with its name. */
const named = async (key: SigningKey): Promise<OwnKey> => {
  const print = await thumbprint(key.x);
  return { ...key, key: toBase64url(print), fingerprint: fingerprintOf(print) };
};

/** Without what can be read out of it. */
const own = async (jwk: PrivateJwk): Promise<OwnKey> => named(await signingKey(jwk));

type Signable = { readonly signatures?: readonly string[] };

/** The deck with those of its signatures alone that fit what it says now. */
const withFitting = async <D extends Signable>(deck: D): Promise<D> => {
  const signatures: string[] = [];
  for (const one of deck.signatures ?? []) {
    const found = await verifyDeck({ ...deck, signatures: [one] }).catch(() => []);
    if (found.every(({ valid }) => valid === true) && found.length > 0) signatures.push(one);
  }
  const { signatures: _, ...rest } = deck;
  return (signatures.length === 0 ? rest : { ...deck, signatures }) as D;
};

export const signing = {
  verify: verifyDeck,
  makeKey: async (passphrase: string) => {
    const jwk = await makeKey();
    return { file: await writeKeyFile(jwk, passphrase), key: await own(jwk) };
  },
  takeKey: async (file: string, passphrase: string) => own(await readKeyFile(file, passphrase)),
  sign: async <D extends Signable>(deck: D, key: OwnKey, signer: Signer): Promise<D> =>
    signDeck(await withFitting(deck), key, signer),
  makeDeviceKey: async () => named(await makeDeviceKey()),
  signReport,
};
