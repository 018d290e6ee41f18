import { describe, expect, test, vi } from 'vitest';
import { toBase64url, utf8 } from '../../../src/exchange/base64url.ts';
import { contentId } from '../../../src/exchange/content-id.ts';
import { makeKey, readKeyFile, signingKey, writeKeyFile } from '../../../src/exchange/keys.ts';
import { nameOf, SignatureProblem, signDeck, verifyDeck } from '../../../src/exchange/signature.ts';
import type { Signer } from '../../../src/model/signing.ts';
import { BASE } from '../../fixtures/decks/base.ts';

const AUTHOR: Signer = { role: 'author', name: 'A. Author', date: '2026-11-25' };
const CHECKER: Signer = { role: 'checker', name: 'C. Checker', date: '2026-11-26' };
const DECK = BASE as unknown as { readonly signatures?: readonly string[]; readonly title: string };

const jwk = await makeKey();
const key = await signingKey(jwk);
const other = await signingKey(await makeKey());
const signed = await signDeck(DECK, key, AUTHOR);

describe('signing', () => {
  test('an unsigned deck has no signatures, a signed one says who and with which key', async () => {
    expect(await verifyDeck(DECK)).toEqual([]);
    expect(await verifyDeck(JSON.stringify(DECK))).toEqual([]);
    const [found] = await verifyDeck(signed);
    expect(found).toMatchObject({ ...AUTHOR, valid: true });
    expect(found?.fingerprint.letters).toMatch(/^([A-Z2-7]{4} ){3}[A-Z2-7]{4}$/);
    expect(found?.fingerprint.spelled.split(' ')).toHaveLength(16);
  });

  test('author and checker sign the same content, and it keeps its id', async () => {
    const both = await signDeck(signed, other, CHECKER);
    expect(both.signatures).toHaveLength(2);
    expect(both.signatures[0]).toBe(signed.signatures[0]);
    const found = await verifyDeck(JSON.stringify(both, null, 3));
    expect(found.map(({ role, name, valid }) => [role, name, valid])).toEqual([
      ['author', 'A. Author', true],
      ['checker', 'C. Checker', true],
    ]);
    expect(found[0]?.key).not.toBe(found[1]?.key);
    expect(await contentId(both)).toBe(await contentId(DECK));
    // One signature taken away: the other still holds.
    expect(await verifyDeck({ ...both, signatures: [both.signatures[1]] })).toMatchObject([{ valid: true }]);
  });

  test('nobody is their own second person', async () => {
    await expect(signDeck(signed, key, CHECKER)).rejects.toThrow(/signed the deck as author\. A checker is a second/);
    const checked = await signDeck(DECK, key, CHECKER);
    await expect(signDeck(checked, key, AUTHOR)).rejects.toThrow(/signed the deck as checker/);
  });

  test('the same key in the same role takes the place of its older signature', async () => {
    const again = await signDeck(signed, key, { ...AUTHOR, date: '2026-12-01' });
    expect(await verifyDeck(again)).toMatchObject([{ date: '2026-12-01', valid: true }]);
  });

  test('layout and order of members do not matter, a byte order mark neither', async () => {
    const turned = Object.fromEntries(Object.entries(signed).reverse());
    expect(await verifyDeck(`\uFEFF${JSON.stringify(turned, null, 2)}`)).toMatchObject([{ valid: true }]);
  });

  test.each(['', '   ', 'x'.repeat(81), 'A\u202eB', 'A\u0007', 'A\u200bB'])(
    'a name that misleads: %j',
    async (name) => {
      expect(nameOf(name)).toBeNull();
      await expect(signDeck(DECK, key, { ...AUTHOR, name })).rejects.toThrow(SignatureProblem);
    },
  );

  test('no more than eight, and no date that is none', async () => {
    let deck: typeof DECK = DECK;
    for (let i = 0; i < 8; i++)
      deck = await signDeck(deck, await signingKey(await makeKey()), i === 0 ? AUTHOR : CHECKER);
    await expect(signDeck(deck, key, AUTHOR)).rejects.toThrow(/8 signatures already/);
    await expect(signDeck(DECK, key, { ...AUTHOR, date: '2026-02-30' })).rejects.toThrow(/no date/);
  });
});

describe('what was changed', () => {
  test('a changed deck no longer fits its signature', async () => {
    expect(await verifyDeck({ ...signed, title: 'Another' })).toMatchObject([{ valid: false, name: 'A. Author' }]);
  });

  test('nor does another signature, another key, or another header', async () => {
    const [encoded = '', , bytes = ''] = (signed.signatures[0] as string).split('.');
    const turned = bytes.startsWith('A') ? `B${bytes.slice(1)}` : `A${bytes.slice(1)}`;
    expect(await verifyDeck({ ...DECK, signatures: [`${encoded}..${turned}`] })).toMatchObject([{ valid: false }]);
    const header = JSON.parse(Buffer.from(encoded, 'base64url').toString()) as Record<string, unknown>;
    for (const changed of [
      { ...header, name: 'Somebody else' },
      { ...header, role: 'checker' },
      { ...header, jwk: { ...(header.jwk as object), x: other.x } },
      // 32 bytes that are no point of the curve.
      { ...header, jwk: { ...(header.jwk as object), x: toBase64url(new Uint8Array(32).fill(0xfe)) } },
    ]) {
      const jws = `${toBase64url(utf8(JSON.stringify(changed)))}..${bytes}`;
      expect(await verifyDeck({ ...DECK, signatures: [jws] })).toMatchObject([{ valid: false }]);
    }
  });

  const headerWith = (changed: object) => {
    const whole = {
      alg: 'EdDSA',
      date: '2026-11-25',
      jwk: { crv: 'Ed25519', kty: 'OKP', x: key.x },
      name: 'A',
      role: 'author',
    };
    return `${toBase64url(utf8(JSON.stringify({ ...whole, ...changed })))}..${'A'.repeat(86)}`;
  };
  test.each([
    ['no algorithm', headerWith({ alg: 'none' }), /EdDSA; this one says "none"/],
    ['another algorithm', headerWith({ alg: 'HS256' }), /EdDSA/],
    [
      'a key of 31 bytes',
      headerWith({ jwk: { crv: 'Ed25519', kty: 'OKP', x: toBase64url(new Uint8Array(31)) } }),
      /32 bytes/,
    ],
    [
      'a key of 33 bytes',
      headerWith({ jwk: { crv: 'Ed25519', kty: 'OKP', x: toBase64url(new Uint8Array(33)) } }),
      /32 bytes/,
    ],
    ['another curve', headerWith({ jwk: { crv: 'X25519', kty: 'OKP', x: key.x } }), /32 bytes/],
    ['a private key', headerWith({ jwk: { crv: 'Ed25519', kty: 'OKP', x: key.x, d: key.x } }), /other parts/],
    ['an extension that must be understood', headerWith({ crit: ['b64'], b64: false }), /other parts/],
    ['another role', headerWith({ role: 'owner' }), /author or a checker/],
    ['a name with a mark of direction', headerWith({ name: 'A\u202eB' }), /misleading/],
    ['no name', headerWith({ name: '' }), /misleading/],
    ['no date', headerWith({ date: 'today' }), /no date/],
    ['a payload of its own', headerWith({}).replace('..', '.e30.'), /header\.\.signature/],
    ['a short signature', headerWith({}).slice(0, -1), /header\.\.signature/],
    ['bits beyond the last byte', `${headerWith({}).slice(0, -1)}B`, /header\.\.signature/],
    ['no JSON', `${toBase64url(utf8('{'))}..${'A'.repeat(86)}`, /cannot be read/],
    ['a list', `${toBase64url(utf8('[]'))}..${'A'.repeat(86)}`, /no object/],
    ['nothing', '', /header\.\.signature/],
  ])('%s is refused', async (_, jws, why) => {
    await expect(verifyDeck({ ...DECK, signatures: [jws] })).rejects.toThrow(why);
    await expect(verifyDeck({ ...DECK, signatures: [jws] })).rejects.toThrow(SignatureProblem);
  });

  test('more than eight, or no list, is refused before any is looked at', async () => {
    const [one] = signed.signatures;
    await expect(verifyDeck({ ...signed, signatures: Array.from({ length: 9 }, () => one) })).rejects.toThrow(
      /at most 8/,
    );
    await expect(verifyDeck({ ...signed, signatures: one })).rejects.toThrow(/at most 8/);
  });

  test('a text of brackets is not parsed', async () => {
    await expect(verifyDeck('['.repeat(100_000))).rejects.toThrow(SyntaxError);
    await expect(verifyDeck('{"__proto__": {}}')).rejects.toThrow(SyntaxError);
  });
});

test('a browser without Ed25519 says so, and calls no signature false', async () => {
  const none = () => Promise.reject(new DOMException('no', 'NotSupportedError'));
  for (const name of ['importKey', 'generateKey', 'sign'] as const)
    vi.spyOn(crypto.subtle, name).mockImplementation(none);
  try {
    expect(await verifyDeck(signed)).toMatchObject([{ name: 'A. Author', valid: 'unknown' }]);
    for (const made of [makeKey(), signingKey(jwk), signDeck(DECK, key, AUTHOR)])
      await expect(made).rejects.toThrow(/This browser cannot work with signatures/);
  } finally {
    vi.restoreAllMocks();
  }
});

describe('keys', () => {
  test('a key for signing cannot be read out', async () => {
    expect(key.privateKey.extractable).toBe(false);
    await expect(crypto.subtle.exportKey('jwk', key.privateKey)).rejects.toThrow();
  });

  test('a key file opens with its passphrase alone', async () => {
    const file = await writeKeyFile(jwk, 'lined up and waiting');
    expect(file).not.toContain(jwk.d);
    expect(await readKeyFile(file, 'lined up and waiting')).toEqual(jwk);
    await expect(readKeyFile(file, 'lined up and waitin')).rejects.toThrow(/passphrase is not the one/);
    const parts = file.trim().split('.');
    const cut = (parts[3] as string).slice(4);
    await expect(readKeyFile([...parts.slice(0, 3), cut, parts[4]].join('.'), 'lined up and waiting')).rejects.toThrow(
      /or the file was changed/,
    );
    expect(await writeKeyFile(jwk, 'lined up and waiting')).not.toBe(file);
  });

  test('a plain JWK is taken too; one whose parts do not fit signs nothing', async () => {
    expect(await readKeyFile(JSON.stringify({ ...jwk, kid: 'x' }), '')).toEqual(jwk);
    await expect(signingKey({ ...jwk, x: other.x })).rejects.toThrow(/damaged/);
  });

  test.each([
    ['a short passphrase', () => writeKeyFile(jwk, 'short words')],
    ['no key file', () => readKeyFile('hello', 'x')],
    ['another file of JSON', () => readKeyFile('{"format":1}', 'x')],
    ['a huge one', () => readKeyFile('x'.repeat(10_001), 'x')],
    [
      'one that asks for a day of work',
      () =>
        readKeyFile(
          `${toBase64url(utf8(JSON.stringify({ alg: 'PBES2-HS256+A128KW', enc: 'A256GCM', cty: 'jwk+json', p2c: 1e12, p2s: 'AAAAAAAAAAAAAAAA' })))}.AAAA.AAAA.AAAA.AAAA`,
          'x',
        ),
    ],
  ])('%s is refused with words', async (_, attempt) => {
    await expect(attempt()).rejects.toThrow(SignatureProblem);
  });
});
