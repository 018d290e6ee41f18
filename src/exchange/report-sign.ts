/**
 * Progress reports as they leave a device: compact JWS (RFC 7515), EdDSA with Ed25519 (RFC 8037), over the canonical
 * JSON (RFC 8785) of a Report. The protected header carries the public key and what it is:
 * `{"alg":"EdDSA","jwk":{"crv":"Ed25519","kty":"OKP","x":…},"typ":"recency-report"}`.
 */
import { MOST_BYTES } from '../deck/scan.ts';
import { canonicalJson, type Json } from '../lib/canonical-json.ts';
import type { Report } from '../model/report.ts';
import { toBase64url, utf8 } from './base64url.ts';
import { ALGORITHM, encodeHeader, lacksIt, NO_ED25519, SIGNATURE_BYTES, type SigningKey, signatureOf } from './jws.ts';
import { SignatureProblem } from './signature.ts';

export const REPORT_TYPE = 'recency-report';

/** Of an encoded signature. */
export const SIGNATURE_LETTERS = Math.ceil((SIGNATURE_BYTES * 4) / 3);

/** A key that can sign on this device and never be read out. @throws SignatureProblem where the browser has no Ed25519 */
export const makeDeviceKey = async (): Promise<SigningKey> => {
  try {
    const pair = (await crypto.subtle.generateKey(ALGORITHM, false, ['sign', 'verify'])) as CryptoKeyPair;
    const bytes = new Uint8Array(await crypto.subtle.exportKey('raw', pair.publicKey));
    return { privateKey: pair.privateKey, x: toBase64url(bytes) };
  } catch {
    throw new SignatureProblem(NO_ED25519);
  }
};

/**
 * The text of a report's file.
 * @throws SignatureProblem where the browser has no Ed25519; RangeError where it would be larger than anybody opens
 */
export const signReport = async (report: Report, key: SigningKey): Promise<string> => {
  const header = encodeHeader(key.x, { typ: REPORT_TYPE });
  const payload = toBase64url(utf8(canonicalJson(report as unknown as Json)));
  if (header.length + payload.length + SIGNATURE_LETTERS + 2 > MOST_BYTES)
    throw new RangeError('The report is larger than 2 MB: leave out the wrong answers, or take fewer decks.');
  try {
    return `${header}.${payload}.${await signatureOf(key, header, payload)}`;
  } catch (error) {
    throw lacksIt(error) ? new SignatureProblem(NO_ED25519) : error;
  }
};
