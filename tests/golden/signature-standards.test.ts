/** What signatures and content ids rest on, against the examples of the standards themselves. */
import { createHash, createPrivateKey, createPublicKey, sign, verify } from 'node:crypto';
import * as jose from 'jose';
import { describe, expect, test } from 'vitest';
import { fromBase64url, toBase64url, utf8 } from '../../src/exchange/base64url.ts';
import { fingerprintOf, thumbprint } from '../../src/exchange/fingerprint.ts';
import { type PrivateJwk, readKeyFile, signingKey, writeKeyFile } from '../../src/exchange/keys.ts';
import { signDeck, verifyDeck } from '../../src/exchange/signature.ts';
import { canonicalJson, type Json } from '../../src/lib/canonical-json.ts';

const hex = (text: string) => new Uint8Array(Buffer.from(text, 'hex'));

describe('RFC 8785', () => {
  // Appendix B: IEEE 754 bits and their text.
  test.each([
    ['0000000000000000', '0'],
    ['8000000000000000', '0'],
    ['0000000000000001', '5e-324'],
    ['8000000000000001', '-5e-324'],
    ['7fefffffffffffff', '1.7976931348623157e+308'],
    ['ffefffffffffffff', '-1.7976931348623157e+308'],
    ['4340000000000000', '9007199254740992'],
    ['c340000000000000', '-9007199254740992'],
    ['4430000000000000', '295147905179352830000'],
    ['44b52d02c7e14af5', '9.999999999999997e+22'],
    ['44b52d02c7e14af6', '1e+23'],
    ['44b52d02c7e14af7', '1.0000000000000001e+23'],
    ['444b1ae4d6e2ef4e', '999999999999999700000'],
    ['444b1ae4d6e2ef4f', '999999999999999900000'],
    ['444b1ae4d6e2ef50', '1e+21'],
    ['3eb0c6f7a0b5ed8c', '9.999999999999997e-7'],
    ['3eb0c6f7a0b5ed8d', '0.000001'],
    ['41b3de4355555553', '333333333.3333332'],
    ['41b3de4355555554', '333333333.33333325'],
    ['41b3de4355555555', '333333333.3333333'],
    ['41b3de4355555556', '333333333.3333334'],
    ['41b3de4355555557', '333333333.33333343'],
    ['becbf647612f3696', '-0.0000033333333333333333'],
    ['43143ff3c1cb0959', '1424953923781206.2'],
  ])('number %s is %s', (bits, text) => {
    expect(canonicalJson(Buffer.from(bits, 'hex').readDoubleBE(0))).toBe(text);
  });

  test.each(['7fffffffffffffff', '7ff0000000000000', 'fff0000000000000'])('number %s has no text', (bits) => {
    expect(() => canonicalJson(Buffer.from(bits, 'hex').readDoubleBE(0))).toThrow(RangeError);
  });

  test('members stand in the order of their UTF-16 units (3.2.3)', () => {
    const members = {
      '\u20ac': 'Euro Sign',
      '\r': 'Carriage Return',
      '\ufb33': 'Hebrew Letter Dalet With Dagesh',
      '1': 'One',
      '\ud83d\ude00': 'Emoji: Grinning Face',
      '\u0080': 'Control',
      '\u00f6': 'Latin Small Letter O With Diaeresis',
    };
    expect(Object.values(JSON.parse(canonicalJson(members).replace('"1":', '"one":')))).toEqual([
      'Carriage Return',
      'One',
      'Control',
      'Latin Small Letter O With Diaeresis',
      'Euro Sign',
      'Emoji: Grinning Face',
      'Hebrew Letter Dalet With Dagesh',
    ]);
  });
});

/** RFC 8032, 7.1: secret key, public key, message, signature. */
const RFC8032 = [
  [
    'TEST 1',
    '9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60',
    'd75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a',
    '',
    'e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b',
  ],
  [
    'TEST 2',
    '4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb',
    '3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c',
    '72',
    '92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00',
  ],
  [
    'TEST 3',
    'c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7',
    'fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025',
    'af82',
    '6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a',
  ],
  [
    'TEST SHA(abc)',
    '833fe62409237b9d62ec77587520911e9a759cec1d19755b7da901b96dca3d42',
    'ec172b93ad5e563bf4932c70e1245034c35467ef2efd4d64ebf819683467e2bf',
    createHash('sha512').update('abc').digest('hex'),
    'dc2a4459e7369633a52b1bf277839a00201009a3efbf3ecb69bea2186c26b58909351fc9ac90b3ecfdfbc7c66431e0303dca179c138ac17ad9bef1177331a704',
  ],
] as const;

test.each(RFC8032)(
  'RFC 8032, 7.1, %s: the platform signs and verifies it',
  async (_, secret, open, message, expected) => {
    const [d, x] = [toBase64url(hex(secret)), toBase64url(hex(open))];
    const { privateKey } = await signingKey({ kty: 'OKP', crv: 'Ed25519', d, x });
    const made = new Uint8Array(await crypto.subtle.sign('Ed25519', privateKey, hex(message)));
    expect(Buffer.from(made).toString('hex')).toBe(expected);
    const key = await crypto.subtle.importKey('raw', hex(open), 'Ed25519', false, ['verify']);
    expect(await crypto.subtle.verify('Ed25519', key, hex(expected), hex(message))).toBe(true);
    expect(await crypto.subtle.verify('Ed25519', key, hex(expected), hex(`${message}00`))).toBe(false);
  },
);

/** RFC 8037, appendix A.1. */
const KEY: PrivateJwk = {
  kty: 'OKP',
  crv: 'Ed25519',
  d: 'nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A',
  x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
};

test('RFC 8037, appendix A.3: thumbprint', async () => {
  const print = await thumbprint(KEY.x);
  expect(toBase64url(print)).toBe('kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k');
  // 90facafea9b155669854 in base 32 by another implementation (coreutils: basenc --base32).
  expect(fingerprintOf(print).letters).toBe('SD5M V7VJ WFKW NGCU');
  expect(fingerprintOf(print).spelled).toMatch(/^Sierra Delta Five Mike Victor Seven Victor Juliett /);
});

test('RFC 8037, appendix A.4: signature', async () => {
  const { privateKey } = await signingKey(KEY);
  const input = 'eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc';
  expect(input).toBe(`${toBase64url(utf8('{"alg":"EdDSA"}'))}.${toBase64url(utf8('Example of Ed25519 signing'))}`);
  expect(toBase64url(new Uint8Array(await crypto.subtle.sign('Ed25519', privateKey, utf8(input))))).toBe(
    'hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg',
  );
});

const DECK: Readonly<Record<string, unknown>> & { readonly signatures?: readonly string[] } = {
  id: 'calder/small',
  version: '1.0.0',
  title: 'Flächen “€” 😀',
  limits: [{ value: 0.1 }, { value: 1e21 }],
};
const SIGNER = { role: 'author', name: 'A. Author', date: '2026-11-25' } as const;

describe('by other implementations', () => {
  test('jose verifies a signature that was made here, and its own is taken here', async () => {
    const { signatures } = await signDeck(DECK, await signingKey(KEY), SIGNER);
    const [encoded = '', , signature = ''] = (signatures[0] as string).split('.');
    const payload = canonicalJson(DECK as Json);
    const key = await jose.importJWK({ kty: 'OKP', crv: 'Ed25519', x: KEY.x }, 'EdDSA');
    const verified = await jose.flattenedVerify(
      { protected: encoded, payload: toBase64url(utf8(payload)), signature },
      key,
    );
    expect(verified.protectedHeader).toMatchObject({ alg: 'EdDSA', role: 'author', name: 'A. Author' });

    const theirs = await new jose.FlattenedSign(utf8(payload))
      .setProtectedHeader({ alg: 'EdDSA', jwk: { kty: 'OKP', crv: 'Ed25519', x: KEY.x }, ...SIGNER })
      .sign(await jose.importJWK({ ...KEY }, 'EdDSA'));
    const signed = { ...DECK, signatures: [`${theirs.protected}..${theirs.signature}`] };
    expect(await verifyDeck(signed)).toMatchObject([
      { ...SIGNER, valid: true, key: await jose.calculateJwkThumbprint({ kty: 'OKP', crv: 'Ed25519', x: KEY.x }) },
    ]);
  });

  test('OpenSSL by way of node:crypto does too', async () => {
    const { signatures } = await signDeck(DECK, await signingKey(KEY), SIGNER);
    const [encoded = '', , signature = ''] = (signatures[0] as string).split('.');
    const input = Buffer.from(`${encoded}.${toBase64url(utf8(canonicalJson(DECK as Json)))}`);
    const open = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519', x: KEY.x }, format: 'jwk' });
    expect(verify(null, input, open, fromBase64url(signature) as Uint8Array)).toBe(true);
    const secret = createPrivateKey({ key: { ...KEY }, format: 'jwk' });
    expect(toBase64url(sign(null, input, secret))).toBe(signature);
  });

  test('jose opens a key file that was made here, and its own is opened here', async () => {
    const passphrase = 'Thus from my lips, by yours, my sin is purged.';
    const file = await writeKeyFile(KEY, passphrase);
    const { plaintext, protectedHeader } = await jose.compactDecrypt(file.trim(), utf8(passphrase), {
      keyManagementAlgorithms: ['PBES2-HS256+A128KW'],
      maxPBES2Count: 1_000_000,
    } as jose.DecryptOptions);
    expect(JSON.parse(new TextDecoder().decode(plaintext))).toEqual(KEY);
    expect(protectedHeader).toMatchObject({ cty: 'jwk+json', p2c: 600_000 });

    const theirs = await new jose.CompactEncrypt(utf8(JSON.stringify(KEY)))
      .setProtectedHeader({ alg: 'PBES2-HS256+A128KW', enc: 'A256GCM', cty: 'jwk+json' })
      .setKeyManagementParameters({ p2c: 4096, p2s: fromBase64url('2WCTcJZ1Rvd_CJuJripQ1w') as Uint8Array })
      .encrypt(utf8(passphrase));
    expect(await readKeyFile(theirs, passphrase)).toEqual(KEY);
  });
});
