import { readFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import * as v from 'valibot';
import { describe, expect, expectTypeOf, test, vi } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { pack, unpack } from '../../../src/class/packed.ts';
import { toBase64url, utf8 } from '../../../src/exchange/base64url.ts';
import { encodeHeader, type SigningKey, signatureOf } from '../../../src/exchange/jws.ts';
import { openReport } from '../../../src/exchange/report.ts';
import { reportTrouble } from '../../../src/exchange/report-check.ts';
import { ReportShape } from '../../../src/exchange/report-shape.ts';
import { makeDeviceKey, signReport } from '../../../src/exchange/report-sign.ts';
import { signing } from '../../../src/exchange/signing.ts';
import { canonicalJson, type Json } from '../../../src/lib/canonical-json.ts';
import { LEAVABLE, type Report } from '../../../src/model/report.ts';
import { REPORT } from '../../fixtures/reports.ts';

const key = await makeDeviceKey();
const text = await signReport(REPORT, key);
const [header = '', payload = '', signature = ''] = text.split('.');

type Loose = { [key: string]: Loose } & Loose[];
const changed = (change: (report: Loose) => void): Report => {
  const report = structuredClone(REPORT) as unknown as Loose;
  change(report);
  return report as unknown as Report;
};
/** Signed as it is, whatever it says. */
const signedAs = async (said: string, by: SigningKey = key, head = encodeHeader(by.x, { typ: 'recency-report' })) => {
  const encoded = toBase64url(utf8(said));
  return `${head}.${encoded}.${await signatureOf(by, head, encoded)}`;
};
const faultOf = async (file: string) => {
  const opened = await openReport(file);
  if (opened.ok) throw new Error('It was opened.');
  // Every message ends as a sentence, and says what to do.
  expect(opened.error.message).toMatch(/^[A-Z].+\.$/);
  return opened.error;
};

describe('a report that was not changed', () => {
  test('is opened as it was made, under the thumbprint of its key', async () => {
    const opened = await openReport(text);
    expect(opened).toMatchObject({ ok: true, value: { report: REPORT } });
    if (!opened.ok) return;
    expect(opened.value.key).toMatch(/^[A-Za-z0-9_-]{43}$/);
    expect(opened.value.hash).toMatch(/^[0-9a-f]{64}$/);
  });

  test('white space of a mail, a byte order mark or a last line change nothing, and twice is once', async () => {
    const wrapped = `\uFEFF${text.replace(/.{76}/g, '$&\r\n')}\n\n`;
    expect(await openReport(wrapped)).toEqual(await openReport(text));
    const other = await openReport(
      await signReport(
        changed((r) => Object.assign(r, { n: 4 })),
        key,
      ),
    );
    const first = await openReport(text);
    if (!other.ok || !first.ok) throw new Error('Not opened.');
    expect(other.value.key).toBe(first.value.key);
    expect(other.value.hash).not.toBe(first.value.hash);
  });

  test('the key of a device signs, is named by its thumbprint, and cannot be read out', async () => {
    const own = await signing.makeDeviceKey();
    const opened = await openReport(await signing.signReport(REPORT, own));
    expect(opened).toMatchObject({ ok: true, value: { key: own.key } });
    expect(own.privateKey.extractable).toBe(false);
    await expect(crypto.subtle.exportKey('jwk', own.privateKey)).rejects.toThrow();
    expect(own.fingerprint.letters).toMatch(/^([A-Z2-7]{4} ){3}[A-Z2-7]{4}$/);
  });
});

describe('what is refused, and why', () => {
  test.each([
    ['', 'other'],
    ['Hello', 'other'],
    ['{"recency":"report"}', 'other'],
    ['a.b.c', 'other'],
    [text.slice(0, 40), 'cut-off'],
    [text.slice(0, header.length), 'cut-off'],
    [text.slice(0, Math.floor(text.length / 2)), 'cut-off'],
    [text.slice(0, -1), 'cut-off'],
    [`${header}.${payload}.`, 'cut-off'],
    [`${text}.x`, 'changed'],
    [`${text}A`, 'changed'],
    [
      `${header}.${toBase64url(utf8(canonicalJson({ ...REPORT, answers: 999 } as unknown as Json)))}.${signature}`,
      'changed',
    ],
    [`${header}.${payload}.${'A'.repeat(86)}`, 'key'],
    [' '.repeat(2_000_001), 'size'],
    [`${text}${'A'.repeat(2_000_000)}`, 'size'],
  ])('%.30s… is %s', async (file, fault) => {
    expect((await faultOf(file)).fault).toBe(fault);
  });

  test('no signature at all, and any other way to sign', async () => {
    const head = (alg: unknown) => toBase64url(utf8(JSON.stringify({ alg, typ: 'recency-report' })));
    expect(await faultOf(`${toBase64url(utf8('{"alg":"none"}'))}.${payload}.`)).toMatchObject({
      fault: 'algorithm',
      message: expect.stringContaining('not signed'),
    });
    expect(await faultOf(`${head('none')}.${payload}.`)).toMatchObject({ fault: 'algorithm' });
    expect(await faultOf(`${head('HS256')}.${payload}.${signature}`)).toMatchObject({
      fault: 'algorithm',
      message: expect.stringContaining('HS256'),
    });
  });

  test('a key of another kind, of small order, with its private part, or with more in the head', async () => {
    const withHead = async (head: object) =>
      signedAs(canonicalJson(REPORT as unknown as Json), key, toBase64url(utf8(JSON.stringify(head))));
    const jwk = { crv: 'Ed25519', kty: 'OKP', x: key.x };
    const plain = { alg: 'EdDSA', jwk, typ: 'recency-report' };
    expect((await openReport(await withHead(plain))).ok).toBe(true);
    for (const odd of [
      { ...plain, crit: ['b64'], b64: false },
      { ...plain, jwk: { ...jwk, d: key.x } },
      { ...plain, jwk: { ...jwk, crv: 'X25519' } },
      { ...plain, jwk: { ...jwk, x: key.x.slice(1) } },
      { ...plain, jwk: 'x' },
      // The neutral point: one signature fits every message.
      { ...plain, jwk: { ...jwk, x: toBase64url(new Uint8Array(32).fill(1, 0, 1)) } },
    ])
      expect((await faultOf(await withHead(odd))).fault).toBe('key');
    // A signature of a deck is none of a report.
    expect((await faultOf(await withHead({ ...plain, typ: 'JWT' }))).fault).toBe('other');
  });

  test('a newer format says that the app must be updated; another thing of Recency is no report', async () => {
    expect(await faultOf(await signedAs(JSON.stringify({ recency: 'report', v: 3 })))).toMatchObject({
      fault: 'newer',
      message: expect.stringContaining('Update the app'),
    });
    expect((await faultOf(await signedAs(JSON.stringify({ recency: 'assignment', v: 1 })))).fault).toBe('other');
    // What was made before is read, and kept as what it was.
    for (const format of [1, 2] as const) {
      const opened = await openReport(
        await signReport(
          changed((r) => Object.assign(r, { v: format })),
          key,
        ),
      );
      if (!opened.ok) throw new Error(opened.error.message);
      expect(unpack(pack(opened.value, 0)).report.v).toBe(format);
    }
  });

  test('signed, and yet nothing that Recency writes', async () => {
    expect((await faultOf(await signedAs('['.repeat(100_000)))).fault).toBe('nested');
    for (const [said, why] of [
      ['{', 'no JSON'],
      ['{"recency":"report","recency":"report"}', 'no JSON'],
      [JSON.stringify(REPORT), 'canonical'],
      [canonicalJson({ ...REPORT, name: 'A. Cadet' } as unknown as Json), 'name'],
      [canonicalJson({ ...REPORT, answers: -1 } as unknown as Json), 'answers'],
      [canonicalJson({ ...REPORT, v: 0 } as unknown as Json), 'v is not'],
    ] as const)
      expect(await faultOf(await signedAs(said))).toMatchObject({
        fault: 'content',
        message: expect.stringContaining(why),
      });
  });

  test('a browser without Ed25519 says so, and takes nothing for signed', async () => {
    const none = vi.spyOn(crypto.subtle, 'importKey').mockRejectedValue(new DOMException('no', 'NotSupportedError'));
    expect(await faultOf(text)).toMatchObject({ fault: 'browser', message: expect.stringContaining('Ed25519') });
    none.mockRestore();
    const no = vi.spyOn(crypto.subtle, 'generateKey').mockRejectedValue(new DOMException('no', 'NotSupportedError'));
    await expect(makeDeviceKey()).rejects.toThrow('cannot work with signatures');
    no.mockRestore();
  });
});

describe('what a report means', () => {
  test('one with every member, and one of which all that may be left out is', () => {
    expect(reportTrouble(REPORT)).toBeNull();
    expect(reportTrouble(BARE)).toBeNull();
    expect(v.is(ReportShape, BARE)).toBe(true);
  });

  const item = (r: Loose) => (r as unknown as { decks: Loose[] }).decks[0]?.items?.[0] as Loose;
  const deck = (r: Loose) => (r as unknown as { decks: Loose[] }).decks[0] as Loose;
  test.each<[string, (r: Loose) => void]>([
    ['trainee', (r) => Object.assign(r, { trainee: 'x'.repeat(41) })],
    ['trainee', (r) => Object.assign(r, { trainee: 'a\u202Eb' })],
    ['made', (r) => Object.assign(r, { made: '2026-02-30' })],
    ['checkDate', (r) => Object.assign(r, { checkDate: '2026-13-01' })],
    ['days', (r) => Object.assign(r, { days: ['2026-11-24', '2026-11-20'] })],
    ['days', (r) => Object.assign(r, { days: ['2026-11-24', '2026-11-24'] })],
    ['days', (r) => void delete (r as { days?: unknown }).days],
    ['minutes', (r) => Object.assign(r, { leftOut: ['minutes'] })],
    ['leftOut', (r) => Object.assign(r, { leftOut: ['queries', 'queries'] })],
    ['queries', (r) => void delete (deck(r) as { queries?: unknown }).queries],
    ['slips', (r) => Object.assign(r, { leftOut: ['slips'] })],
    ['sure is', (r) => Object.assign(r, { leftOut: ['sure'] })],
    ['sure is', (r) => void delete (item(r) as { sureWrong?: unknown }).sureWrong],
    ['days is', (r) => void delete (item(r) as { last?: unknown }).last],
    ['last', (r) => Object.assign(item(r), { last: '2026-11-31' })],
    ['decimals', (r) => Object.assign(item(r), { now: 0.83401 })],
    ['sure and wrong', (r) => Object.assign(item(r), { sureWrong: 3 })],
    ['no item', (r) => Object.assign(item(r), { key: 'other/deck#one.place~a' })],
    ['check date', (r) => Object.assign(r, { checkDate: null })],
    ['check: 2026-11-31 is no day', (r) => Object.assign(item(r), { check: '2026-11-31' })],
    ['check: 2026-12-07 is not before', (r) => Object.assign(item(r), { check: '2026-12-07' })],
    ['check: 2026-11-24 was past', (r) => Object.assign(item(r), { check: '2026-11-24' })],
    [
      'check: 2026-12-01 is not before',
      (r) => {
        Object.assign(r, { checkDate: null });
        for (const one of deck(r).items as unknown as object[]) Object.assign(one, { day: null });
      },
    ],
    ['twice', (r) => Object.assign(deck(r), { items: [item(r), item(r)] })],
    ['twice', (r) => Object.assign(r, { decks: [deck(r), deck(r)] })],
    ['twice', (r) => Object.assign(deck(r), { variants: ['', ''] })],
    ['no item', (r) => Object.assign(deck(r), { slips: [{ key: 'a/b#c.d~e', asked: '', given: '', times: 1 }] })],
    ['queries', (r) => Object.assign(deck(r), { queries: [{ items: [], on: '2026-00-00', note: '' }] })],
    ['no item', (r) => Object.assign(deck(r), { queries: [{ items: ['a/b#c.d~e'], on: '2026-11-20', note: '' }] })],
  ])('a word about %s', async (why, change) => {
    const report = changed(change);
    expect(v.is(ReportShape, report)).toBe(true);
    expect(reportTrouble(report)).toContain(why);
    expect((await faultOf(await signedAs(canonicalJson(report as unknown as Json)))).fault).toBe('content');
  });
});

/** All that may be left out is. */
const BARE: Report = changed((r) => {
  const one = r as unknown as {
    [key: string]: unknown;
    decks: { [key: string]: unknown; items: { [key: string]: unknown }[] }[];
  };
  one.leftOut = [...LEAVABLE];
  delete one.days;
  delete one.minutes;
  for (const deck of one.decks) {
    delete deck.queries;
    delete deck.slips;
    for (const item of deck.items) {
      delete item.sureWrong;
      delete item.check;
      delete item.last;
    }
  }
});

test('the shape and the type of the model say the same', () => {
  type Shape = v.InferOutput<typeof ReportShape>;
  expectTypeOf<Shape>().toExtend<Report>();
  expectTypeOf<keyof Shape>().toEqualTypeOf<keyof Report>();
  type Deck = Shape['decks'][number];
  expectTypeOf<keyof Deck>().toEqualTypeOf<keyof Report['decks'][number]>();
  expectTypeOf<keyof Deck['items'][number]>().toEqualTypeOf<keyof Report['decks'][number]['items'][number]>();
});

describe('a second opinion: ajv with shared/report.schema.json agrees with valibot', () => {
  const accepts = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(
    JSON.parse(readFileSync(at('shared', 'report.schema.json'), 'utf8')),
  );
  const agree = (value: unknown): boolean => {
    const mine = v.is(ReportShape, value);
    if (accepts(value) !== mine)
      expect.fail(`they differ about ${JSON.stringify(value)}: ${JSON.stringify(accepts.errors)}`);
    return mine;
  };
  const placesOf = (x: unknown, keys: readonly string[] = []): (readonly string[])[] =>
    typeof x === 'object' && x !== null
      ? [keys, ...Object.entries(x).flatMap(([k, y]) => placesOf(y, [...keys, k]))]
      : [keys];
  const odd: readonly unknown[] = [null, true, '', 'x', -1, 0, 1.5, 2, [], {}, ['x'], { x: 'y' }];

  test('on whole reports', () => {
    expect(agree(REPORT)).toBe(true);
    expect(agree(BARE)).toBe(true);
  });

  test('with an odd value at any place, and with any member left out or added', () => {
    let [taken, refused] = [0, 0];
    for (const keys of placesOf(REPORT).filter((k) => k.length > 0)) {
      const last = keys.at(-1) as string;
      const within = (r: Loose): Loose => keys.slice(0, -1).reduce((x, k) => x[k] as Loose, r);
      const tries = [
        ...odd.map((value) => changed((r) => Object.assign(within(r), { [last]: value }))),
        changed((r) => (Array.isArray(within(r)) ? within(r).splice(Number(last), 1) : delete within(r)[last])),
        changed((r) =>
          Array.isArray(within(r)) ? within(r).push('more' as never) : Object.assign(within(r), { more: 1 }),
        ),
      ];
      for (const one of tries) {
        if (agree(one)) taken += 1;
        else refused += 1;
      }
    }
    expect(taken).toBeGreaterThan(40);
    expect(refused).toBeGreaterThan(400);
  });
});
