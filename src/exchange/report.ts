/** Progress reports as they are received: nothing of a file is trusted, and each refusal says what to do. */
import * as v from 'valibot';
import { bytesOf, MOST_BYTES, scan } from '../deck/scan.ts';
import { canonicalJson, type Json } from '../lib/canonical-json.ts';
import { fail, ok, type Result } from '../lib/result.ts';
import { REPORT_FORMAT, type ReceivedReport, type Report } from '../model/report.ts';
import { fromBase64url, fromUtf8, toBase64url, utf8 } from './base64url.ts';
import { thumbprint } from './fingerprint.ts';
import {
  hasOnly,
  holds,
  isObject,
  JWK_MEMBERS,
  NO_ED25519,
  provesNothing,
  publicKeyOf,
  readHeader,
  SIGNATURE_BYTES,
} from './jws.ts';
import { reportTrouble } from './report-check.ts';
import { ReportShape } from './report-shape.ts';
import { REPORT_TYPE, SIGNATURE_LETTERS } from './report-sign.ts';

/**
 * `other`: no report at all. `size`: larger than any report. `cut-off`: half a file. `changed`: the signature does not
 * fit. `algorithm`: signed in another way, or not at all. `key`: no key that proves anything. `newer`: of a later format.
 * `nested`: too many levels. `content`: signed, and yet no report that makes sense. `browser`: it cannot be checked here.
 */
export type ReportFault =
  | 'other'
  | 'size'
  | 'cut-off'
  | 'changed'
  | 'algorithm'
  | 'key'
  | 'newer'
  | 'nested'
  | 'content'
  | 'browser';

export interface ReportProblem {
  readonly fault: ReportFault;
  /** For people: what is the matter, and what to do. */
  readonly message: string;
}

/** What a report's file begins with: its header up to the key. */
const BEGINS = toBase64url(utf8('{"alg":"EdDSA","jwk":'));

const problem = (fault: ReportFault, message: string): Result<never, ReportProblem> => fail({ fault, message });

const OTHER = problem(
  'other',
  'This is not a progress report of Recency. A report is a text file whose name ends with .report.txt; choose that one.',
);
const CUT_OFF = problem('cut-off', 'The report ends too early: half of the file is missing. Ask for the file anew.');
const CHANGED = problem(
  'changed',
  'The report was changed after it was made: its signature does not fit what it says. Ask for the file anew, as the app made it.',
);
const NO_KEY = problem(
  'key',
  'The key of this report proves nothing: anybody could have signed with it. Ask for a report that the app has made.',
);
const NEWER = problem(
  'newer',
  'This report was made by a newer version of the app. Update the app, then open it again.',
);
const NESTED = problem('nested', 'The report is nested too deep: no app of ours writes such a one. It is not opened.');
const content = (what: string) =>
  problem('content', `The report is signed, and yet not as Recency writes one: ${what}. Ask for a new one.`);

/** @param text of a file, or pasted: white space that a mail put into it is no matter */
export const openReport = async (text: string): Promise<Result<ReceivedReport, ReportProblem>> => {
  if (bytesOf(text, MOST_BYTES) > MOST_BYTES)
    return problem('size', 'This file is larger than 2 MB: no progress report is. Choose another file.');
  const jws = text.replace(/\s+/g, '');
  const parts = jws.split('.');
  const [header = '', payload = '', last = ''] = parts;
  const read = readHeader(header);
  const begins = header.length >= 8 && (header.startsWith(BEGINS) || BEGINS.startsWith(header));
  if (!isObject(read)) return begins ? (parts.length < 3 ? CUT_OFF : CHANGED) : OTHER;
  const key = keyOf(read);
  if (!key.ok) return key;
  const { value: x } = key;
  if (parts.length > 3) return CHANGED;
  if (parts.length < 3 || (last.length < SIGNATURE_LETTERS && /^[A-Za-z0-9_-]*$/.test(last))) return CUT_OFF;
  const signature = fromBase64url(last);
  const bytes = fromBase64url(payload);
  if (signature?.length !== SIGNATURE_BYTES || bytes === null) return CHANGED;
  if (provesNothing(x, signature)) return NO_KEY;
  const isRight = await holds(x, header, payload, signature);
  if (isRight === 'unknown') return problem('browser', NO_ED25519);
  if (!isRight) return CHANGED;
  const report = reportIn(bytes);
  if (!report.ok) return report;
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', utf8(jws)));
  return ok({
    report: report.value,
    key: toBase64url(await thumbprint(x)),
    hash: [...hash].map((byte) => byte.toString(16).padStart(2, '0')).join(''),
  });
};

/** Of a header: the public key, or why none is taken. */
const keyOf = (header: Readonly<Record<string, unknown>>): Result<string, ReportProblem> => {
  const { alg, typ, jwk } = header;
  if (typ !== REPORT_TYPE && !(alg === 'none' && typ === undefined)) return OTHER;
  if (alg === 'none')
    return problem(
      'algorithm',
      'This report is not signed (alg "none"): anybody could have written it. Ask for a report that the app has made.',
    );
  if (alg !== 'EdDSA')
    return problem(
      'algorithm',
      `This report is signed by ${JSON.stringify(alg ?? null)}; Recency signs by EdDSA. Ask for a report that the app has made, or update the app.`,
    );
  if (!hasOnly(header, ['alg', 'jwk', 'typ']) || !isObject(jwk) || !hasOnly(jwk, JWK_MEMBERS))
    return problem('key', 'The head of this report has other parts than Recency writes. Ask for the file anew.');
  const x = publicKeyOf(jwk);
  return x === null
    ? problem('key', 'The key of this report is no Ed25519 key of 32 bytes. Ask for the file anew.')
    : ok(x);
};

/** What was signed, looked at before anything is built of it. */
const reportIn = (bytes: Uint8Array): Result<Report, ReportProblem> => {
  const text = fromUtf8(bytes);
  if (text === null) return content('it is no text');
  const found = scan(text);
  if (found !== null) return found.code === 'too-deep' ? NESTED : content('it is no JSON');
  const value = JSON.parse(text) as unknown;
  if (!isObject(value) || value.recency !== 'report') return OTHER;
  if (typeof value.v === 'number' && value.v > REPORT_FORMAT) return NEWER;
  if (canonicalJson(value as Json) !== text) return content('it is not in canonical form');
  const shaped = v.safeParse(ReportShape, value);
  if (!shaped.success) return content(`${v.getDotPath(shaped.issues[0]) ?? 'the whole'} is not as it should be`);
  // The shape holds; lists that may be written to are those of the model for whoever reads.
  const report = shaped.output as Report;
  const trouble = reportTrouble(report);
  return trouble === null ? ok(report) : content(trouble);
};
