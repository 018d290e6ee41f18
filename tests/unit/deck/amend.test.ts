import { describe, expect, test } from 'vitest';
import {
  chainOf,
  changedItems,
  nextTurn,
  otherRevisions,
  periodsFrom,
  type Revision,
  revisionOn,
} from '../../../src/deck/amend.ts';
import { resolve } from '../../../src/deck/resolve.ts';
import { dateWords, dayOfIso } from '../../../src/lib/date-words.ts';
import type { Deck } from '../../../src/model/deck.ts';
import { BASE, type Change } from '../../fixtures/decks/base.ts';
import { rule } from '../forms/small-decks.ts';

const day = (iso: string): number => dayOfIso(iso) as number;

const revision = (version: string, deck: Revision['deck'] = {}, installed = 0): Revision => ({
  ref: `calder/base@${version}`,
  version,
  installed,
  deck,
});

/** All were taken, one after the other. */
const chainFrom = <R extends Revision>(all: readonly R[], chosen: R): R[] =>
  chainOf(
    all,
    chosen,
    all.map(({ ref }) => ref),
  );

/** Which version is asked. */
const asked = (all: readonly Revision[], on: string, check: string | null = null): string =>
  revisionOn(chainFrom(all, all.at(-1) as Revision), day(on), check === null ? null : day(check)).version;

describe('which revision is asked', () => {
  const A = revision('1.0.0');
  const B = revision('2.0.0', { effective: '2026-12-15' });

  test.each<[string, string | null, string]>([
    ['2026-11-25', null, '1.0.0'],
    ['2026-12-14', null, '1.0.0'],
    ['2026-12-15', null, '2.0.0'],
    // A check before it takes effect: the old one to the end.
    ['2026-12-10', '2026-12-14', '1.0.0'],
    ['2026-12-14', '2026-12-14', '1.0.0'],
    // A check on that day or later: the new one in the last ten days before it.
    ['2026-12-04', '2026-12-15', '1.0.0'],
    ['2026-12-05', '2026-12-15', '2.0.0'],
    ['2026-12-09', '2026-12-20', '1.0.0'],
    ['2026-12-10', '2026-12-20', '2.0.0'],
    ['2026-12-20', '2026-12-20', '2.0.0'],
    ['2026-12-15', '2027-03-01', '2.0.0'],
    // After the check what is in force counts again.
    ['2026-12-12', '2026-12-11', '1.0.0'],
  ])('on %s with a check on %s: %s', (on, check, expected) => {
    expect(asked([A, B], on, check)).toBe(expected);
  });

  test('after a bulletin has ended the revision before it is asked again', () => {
    const bulletin = revision('1.1.0', { effective: '2026-12-01', until: '2026-12-31' });
    const all = [A, bulletin];
    expect(['2026-11-30', '2026-12-01', '2026-12-31', '2027-01-01'].map((on) => asked(all, on))).toEqual([
      '1.0.0',
      '1.1.0',
      '1.1.0',
      '1.0.0',
    ]);
    // A check after its end: what holds on that day, in the last ten days before it.
    expect(asked(all, '2026-12-25', '2027-01-04')).toBe('1.0.0');
    expect(asked(all, '2026-12-24', '2027-01-04')).toBe('1.1.0');
  });

  test('a bulletin between two editions: each in its time', () => {
    const all = [A, revision('1.1.0', { until: '2026-12-05' }), revision('2.0.0', { effective: '2026-12-10' })];
    expect(['2026-12-05', '2026-12-06', '2026-12-09', '2026-12-10'].map((on) => asked(all, on))).toEqual([
      '1.1.0',
      '1.0.0',
      '1.0.0',
      '2.0.0',
    ]);
    const chain = chainFrom(all, all[2] as Revision);
    expect(
      periodsFrom(chain, day('2026-12-01')).map(({ revision: { version }, from, to }) => [
        version,
        dateWords(from),
        to === null ? null : dateWords(to),
      ]),
    ).toEqual([
      ['1.1.0', '1 December 2026', '5 December 2026'],
      ['1.0.0', '6 December 2026', '9 December 2026'],
      ['2.0.0', '10 December 2026', null],
    ]);
  });

  test('with nothing before it a revision is asked before it takes effect, and a bulletin after its end', () => {
    expect(asked([B], '2026-11-25')).toBe('2.0.0');
    expect(asked([revision('1.0.0', { until: '2026-11-01' })], '2026-11-25')).toBe('1.0.0');
  });

  test('an older one taken back is asked, whatever newer ones say; of equal versions the later one is newer', () => {
    expect(revisionOn(chainFrom([A, B], A), day('2027-06-01'), null)).toBe(A);
    const [first, second] = [revision('1.0.0', {}, 1), { ...revision('1.0.0', {}, 2), ref: 'calder/base@other' }];
    expect(chainFrom([second, first], second)).toEqual([second, first]);
    expect(chainFrom([second, first], first)).toEqual([first]);
  });

  test('what was taken back, or was never taken, is no more asked', () => {
    const [faulty, next] = [revision('1.1.0'), revision('1.2.0', { effective: '2026-12-20' })];
    const all = [A, faulty, next];
    const chainBy = (chosen: Revision, ...taken: readonly Revision[]) =>
      chainOf(
        all,
        chosen,
        taken.map(({ ref }) => ref),
      );
    // In the order of the last time: the first one was taken back after the second.
    expect(chainBy(next, faulty, A, next)).toEqual([next, A]);
    expect(revisionOn(chainBy(next, faulty, A, next), day('2026-12-19'), null)).toBe(A);
    expect(revisionOn(chainBy(next, faulty, A, next), day('2026-12-20'), null)).toBe(next);
    // The newest is taken already, and its entry is not in the log yet.
    expect(chainBy(next, faulty, A)).toEqual([next, A]);
    expect(chainBy(next, A, faulty, next)).toEqual([next, faulty, A]);
    // Another signer's, or from a copy: it lies here.
    expect(chainBy(next, A, next)).toEqual([next, A]);
    expect(chainBy(faulty, next, A, faulty)).toEqual([faulty, A]);
    expect(chainOf([revision('0.9.0'), ...all], next, [A.ref, next.ref])).toEqual([next, A]);
  });

  test('the day on which another one is asked is known before', () => {
    const chain = chainFrom([A, B], B);
    expect(nextTurn(chain, day('2026-11-25'), null)).toBe(day('2026-12-15'));
    expect(nextTurn(chain, day('2026-11-25'), day('2026-12-20'))).toBe(day('2026-12-10'));
    expect(nextTurn(chain, day('2026-11-25'), day('2026-12-12'))).toBe(day('2026-12-15'));
    expect(nextTurn(chain, day('2026-12-15'), null)).toBeNull();
    expect(nextTurn(chainFrom([A], A), day('2026-11-25'), day('2026-12-20'))).toBeNull();
  });
});

/** The base deck with a change, as flown with engine A. */
const flown = (change: Change = () => undefined) => {
  const deck = structuredClone(BASE) as unknown as Deck;
  change(deck);
  return resolve(deck, '0'.repeat(64), { engine: ['a'] });
};
const names = (keys: Iterable<string>): string[] =>
  [...keys].map((key) => key.slice(key.indexOf('#') + 1).split('~')[0] ?? '');

describe('what is changed', () => {
  const before = flown();

  test('nothing by other words, reasons, slips, sources or another order in the file', () => {
    const after = flown((d) => {
      d.title = 'Renamed';
      d.limits.reverse();
      d.procedures[0].title = 'Renamed';
      d.limits.at(-1).ask = 'Which speed?';
      d.limits.at(-1).slips = [];
    });
    expect(changedItems(after, [before])).toEqual(new Set());
    expect([...after.items.keys()].sort()).toEqual([...before.items.keys()].sort());
  });

  test('a number: its item alone', () => {
    const after = flown((d) => {
      d.limits[0].value = 90;
    });
    expect(names(changedItems(after, [before]))).toContain('crosscheck.value.standard');
    expect(names(changedItems(after, [before])).filter((name) => name.includes('value'))).toEqual([
      'crosscheck.value.standard',
    ]);
    expect(names(changedItems(after, [before, flown()]))).toHaveLength(names(changedItems(after, [before])).length);
  });

  test('a step put in: itself is new, the places of its neighbours are changed, the rest is kept', () => {
    const after = flown((d) => {
      d.procedures[0].steps.splice(2, 0, { id: 'lights', by: 'PM', do: 'Lights on' });
    });
    const changed = names(changedItems(after, [before]));
    expect(new Set(changed)).toEqual(new Set(['set.place', 'timer.place', 'hundred.place']));
    const fresh = [...after.items.keys()].filter((key) => !before.items.has(key));
    expect(new Set(names(fresh))).toEqual(
      new Set(['set.place', 'timer.place', 'hundred.place', 'lights.place', 'lights.crew']),
    );
  });

  test('a step moved: it and the neighbours of both places, the rest is kept', () => {
    // Without a condition: else the places of both situations are items.
    const always = (d: Parameters<Change>[0]) => {
      delete d.procedures[0].steps.at(-1).if;
    };
    const after = flown((d) => {
      always(d);
      const [announce, lanes, hundred, checked, bleeds] = d.procedures[0].steps;
      d.procedures[0].steps = [announce, lanes, bleeds, hundred, checked];
    });
    expect(new Set(names(changedItems(after, [flown(always)])))).toEqual(
      new Set(['set.place', 'timer.place', 'bleeds.place', 'hundred.place', 'checked.place']),
    );
  });

  test('a value taken back after another: changed against the last, though an older one had it', () => {
    const middle = flown((d) => {
      d.limits[0].value = 90;
    });
    const again = names(changedItems(flown(), [middle, before]));
    expect(again).toContain('crosscheck.value.standard');
    expect(again).not.toContain('pause.value.standard');
  });

  test('what an author keeps is no change', () => {
    const old = [...before.items.keys()].find((key) => key.includes('#crosscheck.value')) ?? '';
    const after = flown((d) => {
      d.limits[0].value = 90;
      d.limits[0].keeps = [old.slice(old.indexOf('.') + 1)];
    });
    expect(names(changedItems(after, [before]))).not.toContain('crosscheck.value.standard');
  });

  test('a rule put in changes the whole choice; a question that is new is not changed', () => {
    const after = flown((d) => {
      d.scenarios[0].asks[1].choose.rules.splice(0, 0, rule('calm', 'cross < 1 && tail == 0', ['neutral']));
      d.limits.push({ id: 'extra', ask: 'Extra', unit: 'kt', sense: 'exactly', value: 1, source: 'som' });
    });
    const changed = names(changedItems(after, [before]));
    expect(changed).toContain('wind.input.calm');
    expect(changed).not.toContain('extra.value.standard');
    expect(changed).not.toContain('wind.cross.number');
  });
});

test('other revisions: what is in force now, what comes, what was right and until when', () => {
  const deckOf = (version: string, more: Partial<Deck> = {}): Revision & { deck: Deck } => ({
    ...revision(version),
    deck: { ...(BASE as unknown as Deck), version, effective: undefined, ...more } as Deck,
  });
  const oldest = deckOf('1.0.0');
  const old = deckOf('2.0.0', { effective: '2026-06-01' });
  const next = deckOf('3.0.0', { effective: '2026-12-15' });
  const chain = chainFrom([oldest, old, next], next);
  const told = (on: string, check: string | null) => {
    const now = revisionOn(chain, day(on), check === null ? null : day(check));
    return otherRevisions(chain, now, day(on), () => {
      throw new Error('not asked for');
    }).map(({ deck, when, day: at }) => [deck.version, when, at === null ? null : dateWords(at)]);
  };
  expect(told('2026-11-25', null)).toEqual([
    ['3.0.0', 'coming', '15 December 2026'],
    ['1.0.0', 'past', '31 May 2026'],
  ]);
  expect(told('2026-12-12', '2026-12-20')).toEqual([
    ['2.0.0', 'now', '14 December 2026'],
    ['1.0.0', 'past', '31 May 2026'],
  ]);
  expect(told('2026-12-20', null)).toEqual([
    ['2.0.0', 'past', '14 December 2026'],
    ['1.0.0', 'past', '31 May 2026'],
  ]);
  // Of what was right once the last four are looked up.
  const many = ['1.0.0', '2.0.0', '3.0.0', '4.0.0', '5.0.0', '6.0.0'].map((version) => deckOf(version));
  const newest = many[5] as (typeof many)[number];
  const found = otherRevisions(chainFrom(many, newest), newest, day('2026-11-25'), () => {
    throw new Error('not asked for');
  });
  expect(found.map(({ deck, when }) => `${deck.version} ${when}`)).toEqual([
    '5.0.0 past',
    '4.0.0 past',
    '3.0.0 past',
    '2.0.0 past',
  ]);
});

const DAY = 86_400_000;

describe('what was in force, and until when', () => {
  const of = (version: string, came: string, deck: Partial<Deck> = {}) => ({
    ...revision(version, {}, day(came) * DAY),
    deck: { ...(BASE as unknown as Deck), version, effective: undefined, ...deck } as Deck,
  });
  const told = (chain: readonly ReturnType<typeof of>[], on: string) =>
    otherRevisions(chain, revisionOn(chain, day(on), null), day(on), () => {
      throw new Error('not asked for');
    }).map(({ deck, when, day: at, next }) => [
      deck.version,
      when,
      at === null ? null : dateWords(at),
      next?.version ?? null,
    ]);
  const first = of('1.0.0', '2026-10-01');

  test('with a bulletin in between: until the last day of the last time', () => {
    const bulletin = of('1.1.0', '2026-11-18', { effective: '2026-11-20', until: '2026-11-22' });
    const chain = [of('2.0.0', '2026-11-26', { effective: '2026-12-24' }), bulletin, first];
    expect(told(chain, '2026-12-24')).toEqual([
      ['1.1.0', 'past', '22 November 2026', '1.0.0'],
      ['1.0.0', 'past', '23 December 2026', '2.0.0'],
    ]);
    expect(told(chain, '2026-11-21')).toEqual([
      ['2.0.0', 'coming', '24 December 2026', null],
      ['1.0.0', 'coming', '23 November 2026', null],
    ]);
  });

  test('what was overtaken before its day was never right; of a change without a date no day is told', () => {
    const chain = [of('1.2.0', '2026-11-26'), of('1.1.0', '2026-11-20', { effective: '2026-12-01' }), first];
    for (const on of ['2026-11-26', '2026-11-30', '2026-12-01', '2026-12-05'])
      expect(told(chain, on)).toEqual([['1.0.0', 'past', null, '1.2.0']]);
  });

  test('what came late was in force from its day, and a bulletin that came after its end until that', () => {
    const late = of('2.0.0', '2026-11-26', { effective: '2026-11-20' });
    const overtaken = of('1.1.0', '2026-11-10', { effective: '2026-12-01' });
    expect(told([late, overtaken, first], '2026-12-05')).toEqual([['1.0.0', 'past', '19 November 2026', '2.0.0']]);
    expect(told([of('1.1.0', '2026-11-26', { until: '2026-11-22' }), first], '2026-11-26')).toEqual([
      ['1.1.0', 'past', '22 November 2026', '1.0.0'],
    ]);
  });

  test('a device whose day is ahead of the study day tells no day to come', () => {
    const chain = [
      of('2.0.0', '2026-11-27', { effective: '2026-11-20' }),
      of('1.0.0', '2026-11-20', { effective: '2026-11-20' }),
    ];
    expect(told(chain, '2026-11-26')).toEqual([['1.0.0', 'past', '25 November 2026', '2.0.0']]);
  });
});

describe('the last day of an old answer', () => {
  /** As told on 1 December of the older of two. */
  const until = (old: Partial<Deck>, oldCame: string, next: Partial<Deck>, nextCame: string): string | null => {
    const of = (version: string, deck: Partial<Deck>, came: string) => ({
      ...revision(version, {}, day(came) * DAY),
      deck: { ...(BASE as unknown as Deck), version, effective: undefined, ...deck } as Deck,
    });
    const [a, b] = [of('1.0.0', old, oldCame), of('2.0.0', next, nextCame)];
    const [found] = otherRevisions(chainFrom([a, b], b), b, day('2026-12-01'), () => {
      throw new Error('not asked for');
    });
    expect(found?.when).toBe('past');
    return found?.day == null ? null : dateWords(found.day);
  };
  const on = (effective: string): Partial<Deck> => ({ effective });

  test('is the one before the next took effect', () => {
    expect(until(on('2026-11-01'), '2026-11-02', on('2026-11-20'), '2026-11-25')).toBe('19 November 2026');
    expect(until({}, '2026-11-02', on('2026-11-20'), '2026-11-25')).toBe('19 November 2026');
  });

  test('is the one before the next came, where both name the same day, or the next an earlier one', () => {
    expect(until(on('2026-11-20'), '2026-11-20', on('2026-11-20'), '2026-11-26')).toBe('25 November 2026');
    expect(until(on('2026-11-20'), '2026-11-20', on('2026-11-10'), '2026-11-26')).toBe('25 November 2026');
  });

  test('is never before the older one was in force, or was here: then no day is told', () => {
    expect(until(on('2026-11-26'), '2026-11-26', on('2026-11-26'), '2026-11-26')).toBeNull();
    expect(until({}, '2026-11-26', on('2026-11-26'), '2026-11-26')).toBeNull();
    expect(until(on('2026-11-20'), '2026-11-20', {}, '2026-11-26')).toBeNull();
  });
});
