import Ajv2020 from 'ajv/dist/2020.js';
import type * as v from 'valibot';
import { describe, expect, expectTypeOf, test } from 'vitest';
import { schemas } from '../../../scripts/lib/schemas.ts';
import { checkAssignment, readAssignment, writeAssignment } from '../../../src/exchange/assignment.ts';
import type { ASSIGNMENT_DEFINITIONS, AssignmentShape } from '../../../src/exchange/assignment-shape.ts';
import type { AssignedDeck, AssignedGroup, Assignment } from '../../../src/model/assignment.ts';
import { FULL } from '../../fixtures/assignments/arbitrary.ts';

type Writable<T> = T extends readonly unknown[] | object ? { -readonly [K in keyof T]: Writable<T[K]> } : T;
type Loose = ReturnType<typeof JSON.parse>;
const changed = (change: (one: Loose) => void): Loose => {
  const copy: Loose = structuredClone(FULL);
  change(copy);
  return copy;
};
const told = (text: string) => readAssignment(text).findings.map(({ where, text: words }) => `${where}: ${words}`);

test('the shape and the types of the model say the same', () => {
  expectTypeOf<v.InferOutput<typeof AssignmentShape>>().toExtend<Assignment>();
  expectTypeOf<Writable<Assignment>>().toExtend<Writable<v.InferOutput<typeof AssignmentShape>>>();
  expectTypeOf<keyof Assignment>().toEqualTypeOf<keyof v.InferOutput<typeof AssignmentShape>>();
  expectTypeOf<keyof AssignedDeck>().toEqualTypeOf<
    keyof v.InferOutput<(typeof ASSIGNMENT_DEFINITIONS)['AssignedDeck']>
  >();
  expectTypeOf<keyof AssignedGroup>().toEqualTypeOf<
    keyof v.InferOutput<(typeof ASSIGNMENT_DEFINITIONS)['AssignedGroup']>
  >();
});

test('what is written is read again, says first what it is, and has one layout whatever the order of members', () => {
  const text = writeAssignment(FULL);
  expect(readAssignment(text)).toEqual({ assignment: FULL, findings: [] });
  expect(text).toMatch(/^\{\n {2}"recency": "assignment",\n {2}"v": 1,/);
  const turned = Object.fromEntries(Object.entries(FULL).reverse()) as unknown as Assignment;
  expect(writeAssignment(turned)).toBe(text);
  expect(readAssignment(`\ufeff${text}`).assignment).toEqual(FULL);
});

describe('every fault says where and what to do', () => {
  test.each<readonly [string, string, string]>([
    ['larger than 64 kB', ' '.repeat(64_001), 'the file: The file has more than 64 kB.'],
    ['empty', ' \n', 'the file: The file is empty.'],
    ['a web page', '<!doctype html>', 'the file: This is a web page, not an assignment.'],
    ['half a file', writeAssignment(FULL).slice(0, 300), 'The file ends too early'],
    ['cut within the last member', writeAssignment(FULL).trimEnd().slice(0, -1), 'The file ends too early'],
    ['no JSON', 'Dear all', 'line 1, column 1: This is no assignment as Recency writes it'],
    ['a key twice', '{"recency":"assignment","n":1,"n":2}', 'The key “n” stands twice'],
    ['a forbidden key', '{"recency":"assignment","__proto__":{}}', 'The key “__proto__” is not allowed'],
    ['a list', '[]', 'the file: This is not an assignment.'],
    ['another file', '{"recency":"report","v":1}', 'the file: This is not an assignment.'],
    ['a deck', '{"format":1,"sources":[]}', 'the file: This is a deck, not an assignment.'],
    ['a newer format', '{"recency":"assignment","v":2,"new":true}', '/v: This assignment is of format 2'],
  ])('%s', (_, text, words) => {
    const found = told(text);
    expect(found).toHaveLength(1);
    expect(found[0]).toContain(words);
  });

  test.each<readonly [string, (one: Loose) => void, string]>([
    ['a member left out', (a) => delete a.made, 'the file: “made” is missing here.'],
    ['an unknown member', (a) => (a.extra = 1), '/extra: “extra” is not something an assignment can say.'],
    ['no deck', (a) => (a.decks = []), '/decks: This must not be empty.'],
    ['a wrong id', (a) => (a.id = 'short'), '/id: “short” is not in the right form: made by Recency'],
    [
      'a wrong content id',
      (a) => (a.decks[0].contentId = 'xyz'),
      '/decks/0/contentId: “xyz” is not in the right form: 64',
    ],
    [
      'a wrong deck id',
      (a) => (a.decks[1].id = 'Calder'),
      '/decks/1/id: “Calder” is not in the right form: publisher/name',
    ],
    ['a wrong nature', (a) => (a.decks[0].nature = 'real'), '/decks/0/nature: “real” is none of: fictional'],
    ['n of 0', (a) => (a.n = 0), '/n: The number must be 1 or more.'],
    ['half a minute', (a) => (a.minutes = 0.5), '/minutes: This must be a whole number.'],
    ['too many minutes', (a) => (a.minutes = 121), '/minutes: The number must be 120 or less.'],
    ['a long title', (a) => (a.title = 'x'.repeat(301)), '/title: This is longer than 300. Shorten it.'],
    [
      'an address not https',
      (a) => (a.decks[0].address = 'http://x.example/a'),
      '/decks/0/address: “http://x.example/a” is not in the right form: an address that starts with https://',
    ],
    ['an address that is none', (a) => (a.decks[0].address = 'https://'), '/decks/0/address: “https://” is no'],
    [
      'an address with a password',
      (a) => (a.decks[0].address = 'https://a:b@x.example/'),
      '/decks/0/address: Leave name and password out',
    ],
    ['a deck twice', (a) => a.decks.push(a.decks[0]), '/decks/2/id: The deck “calder/take-off” is assigned twice.'],
    [
      'a date in words',
      (a) => (a.checkDate = '14 December'),
      '/checkDate: “14 December” is not in the right form: a date such as 2026-11-25.',
    ],
    ['a date that is none', (a) => (a.checkDate = '2026-02-30'), '/checkDate: The calendar has no day 2026-02-30.'],
    ['a day of making that is none', (a) => (a.made = '2026-13-01'), '/made: The calendar has no day 2026-13-01.'],
    [
      'a day of opening that is none',
      (a) => (a.groups[1].opens = '2026-11-31'),
      '/groups/1/opens: The calendar has no day 2026-11-31.',
    ],
    ['two groups with one id', (a) => (a.groups[1].id = 'g1'), '/groups/1/id: Two parts have the id “g1”.'],
    [
      'a thing of no deck',
      (a) => (a.groups[0].things[0] = 'calder/other#x'),
      '/groups/0/things/0: “calder/other#x” is of no deck that is assigned.',
    ],
    [
      'a thing in the wrong form',
      (a) => (a.groups[0].things[0] = 'line-up'),
      '/groups/0/things/0: “line-up” is not in the right form: publisher/name#thing',
    ],
    [
      'a thing twice in a group',
      (a) => a.groups[1].things.push(a.groups[1].things[0]),
      '/groups/1/things/1: “calder/abnormal#go-around” stands twice in “Session 5”.',
    ],
    [
      'a thing in two groups',
      (a) => a.groups[1].things.push('calder/abnormal#rto'),
      '/groups/1/things/1: “calder/abnormal#rto” is in “Session 3” and in “Session 5”.',
    ],
    ['an empty group', (a) => (a.groups[0].things = []), '/groups/0/things: This must not be empty.'],
    [
      'a group checked after all',
      (a) => (a.groups[0].checkDate = '2026-12-15'),
      '/groups/0/checkDate: “Session 3” is checked on 15 December 2026, after the rest on 14 December 2026.',
    ],
    [
      'a group checked and the whole not',
      (a) => delete a.checkDate,
      '/groups/0/checkDate: “Session 3” has a check date and the assignment has none.',
    ],
    [
      'a group that opens after its check',
      (a) => (a.groups[0].opens = '2026-12-08'),
      '/groups/0/opens: “Session 3” opens on 8 December 2026, after its check on 7 December 2026.',
    ],
    [
      'a group that opens after the check of all',
      (a) => (a.groups[1].opens = '2026-12-15'),
      '/groups/1/opens: “Session 5” opens on 15 December 2026, after its check on 14 December 2026.',
    ],
    [
      'an axis without options',
      (a) => (a.decks[0].variants.engine = []),
      '/decks/0/variants/engine: This must not be empty.',
    ],
  ])('%s', (_, change, words) => {
    const read = readAssignment(JSON.stringify(changed(change)));
    expect(read.assignment).toBeUndefined();
    expect(read.findings.map(({ where, text }) => `${where}: ${text}`).join('\n')).toContain(words);
    for (const { text } of read.findings) expect(text).toMatch(/[.?]$/);
  });
});

test('dates on one day are in order', () => {
  const on = changed((a) => {
    a.groups[0].checkDate = a.checkDate;
    a.groups[0].opens = a.checkDate;
  });
  expect(readAssignment(JSON.stringify(on)).findings).toEqual([]);
});

test('a second opinion: ajv with the JSON Schema takes and refuses the same shapes', () => {
  const accepts = new Ajv2020({ strict: true }).compile(JSON.parse(schemas()['assignment.schema.json']));
  /** What it means is no matter of the schema: its findings are left aside. */
  const MEANT = /twice|is of no deck|is in “|calendar has no|no address|password|check|opens on|Two parts/;
  const placesOf = (x: unknown, keys: readonly string[] = []): (readonly string[])[] =>
    typeof x === 'object' && x !== null
      ? [keys, ...Object.entries(x).flatMap(([k, y]) => placesOf(y, [...keys, k]))]
      : [keys];
  const odd: readonly unknown[] = [null, true, '', 'x', -1, 1.5, 999, [], {}, ['x'], { x: 'y' }, { x: ['y'] }];
  let refused = 0;
  const agree = (value: unknown) => {
    const mine = checkAssignment(value).findings.filter(({ text }) => !MEANT.test(text)).length === 0;
    const theirs = accepts(value);
    if (!theirs) refused += 1;
    expect(theirs, JSON.stringify([value, accepts.errors, checkAssignment(value).findings])).toBe(mine);
  };
  agree(FULL);
  for (const keys of placesOf(FULL).filter((k) => k.length > 0)) {
    const last = keys.at(-1) as string;
    const within = (a: Loose): Loose => keys.slice(0, -1).reduce((x, k) => x[k], a);
    for (const value of odd)
      agree(
        changed((a) => {
          within(a)[last] = value;
        }),
      );
    agree(
      changed((a) => {
        if (Array.isArray(within(a))) within(a).splice(Number(last), 1);
        else delete within(a)[last];
      }),
    );
    agree(
      changed((a) => {
        if (!Array.isArray(within(a))) within(a).oneOf = ['x'];
      }),
    );
  }
  expect(refused).toBeGreaterThan(200);
});
