/** A progress report against other implementations of JWS: jose, and Node's own OpenSSL. */
import { createPublicKey, verify } from 'node:crypto';
import * as jose from 'jose';
import { expect, test } from 'vitest';
import { toBase64url, utf8 } from '../../src/exchange/base64url.ts';
import { signingKey } from '../../src/exchange/keys.ts';
import { openReport } from '../../src/exchange/report.ts';
import { signReport } from '../../src/exchange/report-sign.ts';
import { canonicalJson, type Json } from '../../src/lib/canonical-json.ts';
import { REPORT } from '../fixtures/reports.ts';

/** RFC 8037, appendix A.1; its thumbprint is in A.3. */
const KEY = {
  kty: 'OKP',
  crv: 'Ed25519',
  d: 'nWGxne_9WmC6hEr0kuwsxERJxWl7MmkZcDusAxyuf2A',
  x: '11qYAYKxCrfVS_7TyWQHOg7hcvPapiMlrwIaaPcHURo',
} as const;
const THUMBPRINT = 'kPrK_qmxVWaYVA9wwBF6Iuo3vVzz7TxHCTwXBygrS4k';

test('jose verifies a report with the key that it carries, and reads what it says', async () => {
  const text = await signReport(REPORT, await signingKey(KEY));
  const { payload, protectedHeader } = await jose.compactVerify(text, jose.EmbeddedJWK);
  expect(JSON.parse(new TextDecoder().decode(payload))).toEqual(REPORT);
  expect(protectedHeader).toEqual({
    alg: 'EdDSA',
    typ: 'recency-report',
    jwk: { kty: KEY.kty, crv: KEY.crv, x: KEY.x },
  });
  await expect(jose.compactVerify(`${text.slice(0, -4)}AAAA`, jose.EmbeddedJWK)).rejects.toThrow();
  const opened = await openReport(text);
  expect(opened).toMatchObject({ ok: true, value: { key: THUMBPRINT } });
  expect(await jose.calculateJwkThumbprint({ kty: KEY.kty, crv: KEY.crv, x: KEY.x })).toBe(THUMBPRINT);
});

test('OpenSSL verifies it too', async () => {
  const text = await signReport(REPORT, await signingKey(KEY));
  const key = createPublicKey({ key: { kty: KEY.kty, crv: KEY.crv, x: KEY.x }, format: 'jwk' });
  const [header, payload, signature = ''] = text.split('.');
  expect(verify(null, Buffer.from(`${header}.${payload}`), key, Buffer.from(signature, 'base64url'))).toBe(true);
});

test('what jose signs is opened here', async () => {
  const jwk = { crv: KEY.crv, kty: KEY.kty, x: KEY.x };
  const text = await new jose.CompactSign(utf8(canonicalJson(REPORT as unknown as Json)))
    .setProtectedHeader({ alg: 'EdDSA', jwk, typ: 'recency-report' })
    .sign(await jose.importJWK(KEY, 'EdDSA'));
  expect(await openReport(text)).toMatchObject({ ok: true, value: { report: REPORT, key: THUMBPRINT } });
  expect(text.split('.')[0]).toBe(
    toBase64url(utf8(`{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":"${KEY.x}"},"typ":"recency-report"}`)),
  );
});
