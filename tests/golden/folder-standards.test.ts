import { createDecipheriv, createHash, createHmac, hkdfSync, pbkdf2Sync } from 'node:crypto';
import { afterEach, expect, test, vi } from 'vitest';
import { toBase64url } from '../../src/exchange/base64url.ts';
import { deriveKeys, openVault, sealedVault, stretched } from '../../src/sync/vault.ts';

afterEach(() => void vi.restoreAllMocks());

const utf8 = (text: string) => new TextEncoder().encode(text);
const hex = (bytes: ArrayBuffer | Uint8Array) => Buffer.from(bytes as Uint8Array).toString('hex');

test.each([
  ['passwd', 'salt', 1, '55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc'],
  ['Password', 'NaCl', 80_000, '4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56'],
])(
  'a passphrase is stretched as in RFC 7914, section 11: %s, %s, %d rounds',
  async (passphrase, salt, rounds, first) => {
    // The vectors are of 64 bytes; the first block of 32 does not depend on the length.
    expect(hex(await stretched(passphrase, utf8(salt), rounds))).toBe(first);
  },
);

test('the cipher is AES-256-GCM: test case 14 of McGrew and Viega, as NIST took it over', async () => {
  // Key, nonce and text of zeros. The tag is another one, since the name of the file is bound as well.
  const zeros = new Uint8Array(32);
  const content = await crypto.subtle.importKey('raw', zeros, 'AES-GCM', false, ['encrypt', 'decrypt']);
  const names = await crypto.subtle.importKey('raw', zeros, { name: 'HMAC', hash: 'SHA-256' }, false, ['sign']);
  vi.spyOn(crypto, 'getRandomValues').mockImplementationOnce((array) => array);
  const sealed = await sealedVault({ content, names }).seal('log', 'a'.repeat(64), new Uint8Array(16));
  expect(hex(sealed.subarray(0, 12))).toBe('00'.repeat(12));
  expect(hex(sealed.subarray(12, 28))).toBe('cea7403d4d606b6e074ec5d3baf39d18');
});

test('names of files are HMAC-SHA-256: RFC 4231, test case 2', async () => {
  const key = utf8('Jefe');
  const names = await crypto.subtle.importKey('raw', key, { name: 'HMAC', hash: 'SHA-256' }, false, ['sign']);
  const vector = '5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843';
  expect(hex(await crypto.subtle.sign('HMAC', names, utf8('what do ya want for nothing?')))).toBe(vector);
  expect(createHmac('sha256', key).update('what do ya want for nothing?').digest('hex')).toBe(vector);
  // The kind stands before the content.
  const vault = sealedVault({ content: names, names });
  expect(await vault.hash('deck', utf8('x'))).toBe(createHmac('sha256', key).update('deck\nx').digest('hex'));
});

test('what is sealed here OpenSSL opens, with keys that it derived itself', async () => {
  const salt = Uint8Array.from({ length: 16 }, (_, i) => i);
  const { keys, check } = await deriveKeys('über den Wolken', salt, 1000);
  const master = pbkdf2Sync('über den Wolken', salt, 1000, 32, 'sha256');
  const of = (info: string, length: number) => Buffer.from(hkdfSync('sha256', master, '', info, length));
  expect(check).toBe(toBase64url(of('recency check', 16)));
  const vault = sealedVault(keys);
  const plain = utf8('{"id":"a.1"}\n');
  const name = await vault.hash('log', plain);
  expect(name).toBe(createHmac('sha256', of('recency names', 32)).update('log\n').update(plain).digest('hex'));
  const sealed = await vault.seal('log', name, plain);
  const decipher = createDecipheriv('aes-256-gcm', of('recency content', 32), sealed.subarray(0, 12));
  decipher.setAAD(Buffer.from(`${name}.log`)).setAuthTag(sealed.subarray(-16));
  expect(decipher.update(sealed.subarray(12, -16), undefined, 'utf8') + decipher.final('utf8')).toBe('{"id":"a.1"}\n');
  // Twice the same name, never the same bytes.
  expect(hex(await vault.seal('log', name, plain))).not.toBe(hex(sealed));
  expect(await vault.open('log', name, sealed)).toEqual(plain);
});

test('without a passphrase a file is named by its SHA-256, as other programs work it out', async () => {
  const plain = utf8('line\n');
  const name = createHash('sha256').update(plain).digest('hex');
  expect(await openVault.hash('log', plain)).toBe(name);
  expect(await openVault.open('log', name, plain)).toEqual(plain);
  expect(await openVault.open('log', name, plain.subarray(1))).toBeNull();
});
