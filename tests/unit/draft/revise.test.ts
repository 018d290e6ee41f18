import { describe, expect, test } from 'vitest';
import { checkDeck } from '../../../src/deck/check.ts';
import { readValue } from '../../../src/deck/read.ts';
import { citationsOf } from '../../../src/deck/sheet/citations.ts';
import { apply, undone } from '../../../src/draft/change.ts';
import {
  applySheet,
  BLANK_SHEET,
  byProcedure,
  concernedBy,
  type RevisionSheet,
  readSheet,
  sheetProblem,
  tickedSame,
} from '../../../src/draft/revise.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';
import type { Deck } from '../../../src/model/deck.ts';
import { changed, type Loose } from '../../fixtures/decks/base.ts';

const deck = (change: (d: Loose) => void = () => {}): Deck =>
  changed((d) => {
    Object.assign(d.sources[0], { edition: 'Rev 3', issued: '2026-01-01' });
    d.limits[0].source = 'som#5.1';
    d.limits[1].source = 'som#5.2';
    d.limits[3].source = 'som#5.1';
    change(d);
  });
const sheet = (more: Partial<RevisionSheet> = {}): RevisionSheet => ({
  ...BLANK_SHEET,
  source: 'som',
  paragraphs: '5.1',
  edition: 'Rev 4',
  issued: '2026-06-01',
  ...more,
});
const concerned = (with_: RevisionSheet) => concernedBy(citationsOf(deck()), with_);
const applied = (before: Deck, with_: RevisionSheet): Loose => {
  const value = before as unknown as Json;
  const changes = applySheet(value, before, with_);
  const after = apply(value, changes);
  expect(apply(after, undone(changes))).toEqual(value);
  const read = readValue(after).deck as Deck;
  expect(checkDeck(read, { today: '2026-06-02' }).filter((f) => f.code === 'edition-alone')).toEqual([]);
  return after;
};

test('what rests on the changed paragraphs, and what cites the whole manual', () => {
  const keys = concerned(sheet()).map((one) => one.key);
  expect(keys).toContain('limit crosscheck');
  expect(keys).toContain('limit retract one');
  expect(keys).toContain('limit band');
  expect(keys).not.toContain('limit pause');
  expect(keys).not.toContain('step announce');
  expect(concerned(sheet({ paragraphs: '3' })).map((one) => one.key)).toContain('step announce');
  expect(concerned(sheet({ source: 'other' }))).toEqual([]);
  expect(concerned(sheet({ paragraphs: '' }))).toEqual([]);
});

describe('applied', () => {
  test('the source has its new edition; what was ticked counts as checked against it, the rest says the old one', () => {
    const after = applied(deck(), sheet({ ticks: { 'limit crosscheck': 'same', 'limit retract one': 'changed' } }));
    expect(after.sources[0]).toMatchObject({ edition: 'Rev 4', issued: '2026-06-01' });
    expect(after.limits[0].edition).toBeUndefined();
    // Cites 5.2, which did not change.
    expect(after.limits[1].edition).toBeUndefined();
    // Cites the whole manual.
    expect(after.limits[2].edition).toBe('Rev 3');
    expect(after.limits[3]).toMatchObject({
      source: 'som#5.1',
      edition: 'Rev 3',
      cases: [{ id: 'one', source: 'som#5.1' }, { id: 'two' }],
    });
    expect(after.limits[3].cases[0].edition).toBeUndefined();
    expect(after.limits[3].cases[1].source).toBeUndefined();
  });

  test('where all of a procedure were looked at, or none, the steps need no source of their own', () => {
    const paragraphs = '3.2';
    const keys = concerned(sheet({ paragraphs })).map((one) => one.key);
    const all = applied(
      deck(),
      sheet({ paragraphs, ticks: Object.fromEntries(keys.map((key) => [key, 'same' as const])) }),
    );
    expect(JSON.stringify(all.procedures)).toBe(JSON.stringify(deck().procedures));
    const none = applied(deck(), sheet({ paragraphs }));
    expect(none.procedures[0].edition).toBe('Rev 3');
    expect(none.procedures[0].steps).toEqual(deck().procedures?.[0]?.steps);
  });

  test('one step looked at, the others of its procedure not, and the other way round', () => {
    const one = applied(deck(), sheet({ paragraphs: '3.2', ticks: { 'step announce': 'same' } }));
    expect(one.procedures[0].edition).toBe('Rev 3');
    expect(one.procedures[0].steps[0]).toMatchObject({ source: 'som#3.2' });
    expect(one.procedures[0].steps[0].edition).toBeUndefined();
    expect(one.procedures[0].steps[2].source).toBeUndefined();
    const keys = concerned(sheet({ paragraphs: '3.2' })).map(({ key }) => key);
    const ticks = Object.fromEntries(
      keys.filter((key) => key !== 'step announce').map((key) => [key, 'same' as const]),
    );
    const rest = applied(deck(), sheet({ paragraphs: '3.2', ticks }));
    expect(rest.procedures[0].edition).toBeUndefined();
    expect(rest.procedures[0].steps[0]).toMatchObject({ source: 'som#3.2', edition: 'Rev 3' });
  });

  test('what was not ticked before goes on saying the older edition, until it is', () => {
    const first = applied(deck(), sheet());
    const second = sheet({ edition: 'Rev 5', issued: '2026-09-01' });
    expect(applied(first, second).limits[0].edition).toBe('Rev 3');
    expect(applied(first, { ...second, paragraphs: '9.9' }).limits[0].edition).toBe('Rev 3');
    expect(applied(first, { ...second, ticks: { 'limit crosscheck': 'same' } }).limits[0].edition).toBeUndefined();
  });

  test('an edition without a name is called by its date, or by what came after it', () => {
    const dated = deck((d) => {
      delete d.sources[0].edition;
    });
    expect(applied(dated, sheet()).limits[0].edition).toBe('2026-01-01');
    const bare = deck((d) => {
      delete d.sources[0].edition;
      delete d.sources[0].issued;
    });
    expect(applied(bare, sheet()).limits[0].edition).toBe('before Rev 4');
    expect(applied(bare, sheet({ edition: '' })).limits[0].edition).toBe('before 2026-06-01');
  });

  test('a date of issue that was not entered is not left standing beside the new edition', () => {
    const after = applied(deck(), sheet({ issued: '' }));
    expect(after.sources[0]).toMatchObject({ edition: 'Rev 4' });
    expect(after.sources[0].issued).toBeUndefined();
  });
});

test('what a sheet lacks', () => {
  expect(sheetProblem(deck(), sheet())).toBeNull();
  expect(sheetProblem(deck(), sheet({ source: '' }))).toContain('source');
  expect(sheetProblem(deck(), sheet({ edition: 'Rev 3', issued: '' }))).toContain('new edition');
  expect(sheetProblem(deck(), sheet({ edition: '', issued: '2026-01-01' }))).toContain('new edition');
  expect(sheetProblem(deck(), sheet({ issued: 'June' }))).toContain('2026-11-25');
});

test('an unfinished sheet comes back from what was kept, also from what was not', () => {
  const one = sheet({ ticks: { 'step a': 'same' } });
  expect(readSheet(JSON.parse(JSON.stringify(one)))).toEqual(one);
  expect(readSheet(undefined)).toEqual(BLANK_SHEET);
  expect(readSheet({ source: 3, ticks: { a: 'gone', b: 'changed' } })).toEqual({
    ...BLANK_SHEET,
    ticks: { b: 'changed' },
  });
});

test('what is in one procedure is ticked in one go; what was ticked before stays as it was', () => {
  const groups = byProcedure(concerned(sheet({ paragraphs: '3, 5.1' })));
  expect(groups.map(({ procedure }) => procedure).slice(0, 1)).toEqual(['/procedures/0']);
  expect(groups.at(-1)?.procedure).toBeNull();
  const [roll] = groups;
  expect(roll?.of.every(({ path }) => path.startsWith('/procedures/0'))).toBe(true);
  const before = sheet({ ticks: { 'step announce': 'changed', 'limit pause': 'same' } });
  const ticks = tickedSame(before, roll?.of ?? []);
  expect(ticks).toMatchObject({ 'step announce': 'changed', 'limit pause': 'same', 'step hundred': 'same' });
  expect(Object.keys(ticks)).toHaveLength((roll?.of.length ?? 0) + 1);
});
