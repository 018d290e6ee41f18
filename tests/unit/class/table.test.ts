import { describe, expect, test } from 'vitest';
import { byKeyAlone, type KnownDeck, type KnownDecks, knowInSteps, reportedIn } from '../../../src/class/known.ts';
import { pack } from '../../../src/class/packed.ts';
import { peopleOf } from '../../../src/class/people.ts';
import {
  type ClassTable,
  classTable,
  isOftenSureWrong,
  leastMinutes,
  practisedOf,
  practisesLess,
  type Row,
  type TableInput,
} from '../../../src/class/table.ts';
import { commonSlips, queriesOf, slipsOf } from '../../../src/class/told.ts';
import { shortPlan, tooFew } from '../../../src/class/too-few.ts';
import { type ClassSettings, DEFAULT_SETTINGS } from '../../../src/class/types.ts';
import { isNeverRight, sureWrongOf } from '../../../src/class/weakest.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { StoredDeck } from '../../../src/model/ports.ts';
import type { ReceivedReport } from '../../../src/model/report.ts';
import { deckOf, item, received, reportOf, unmet } from '../../helpers/plain-report.ts';

const ID = 'calder/try';
const [A, B, C, D] = ['a.place~1', 'b.place~2', 'c.place~3', 'flaps.value.standard~4'].map((end) => `${ID}#${end}`) as [
  string,
  string,
  string,
  string,
];

/** A and B in one procedure, C in another, D a number; B is critical. */
const known: KnownDeck = {
  title: 'Try',
  language: 'en',
  newest: { version: '1.1.0', contentId: 'a'.repeat(64) },
  columns: new Map([
    [`${ID}#roll`, 'Roll'],
    [`${ID}#climb`, 'Climb'],
    [`${ID}#Limits`, 'Limits'],
  ]),
  items: new Map(
    [A, B, C, D].map((key, rank) => [
      key,
      {
        ...byKeyAlone(key),
        rank,
        label: `label of ${key}`,
        critical: key === B,
        column: `${ID}#${key === D ? 'Limits' : key === C ? 'climb' : 'roll'}`,
      },
    ]),
  ),
};
const DECKS: KnownDecks = new Map([[ID, known]]);

const tableOf = (
  all: readonly ReceivedReport[],
  given: Partial<Pick<TableInput, 'decks' | 'assigned' | 'today'>> & {
    readonly settings?: Partial<ClassSettings>;
  } = {},
): ClassTable => {
  const packed = all.map((one) => pack(one, Date.parse('2027-06-01')));
  return classTable({
    people: peopleOf(packed, []),
    reports: new Map(packed.map((one) => [one.hash, one])),
    decks: given.decks ?? DECKS,
    settings: { ...DEFAULT_SETTINGS, ...given.settings },
    today: given.today ?? '2026-11-27',
    ...(given.assigned !== undefined && { assigned: given.assigned }),
  });
};
const falcon = received(
  reportOf({
    decks: [deckOf([item(A, { day: 1 }), item(B, { day: 0.6 }), unmet(C), item(D, { day: 0.95 })], { notAsked: 4 })],
  }),
);

describe('figures by hand', () => {
  test('a procedure: mean of its items, critical ones by the lowest, never asked counts as not known', () => {
    const table = tableOf([falcon]);
    expect(table.columns.map(({ title }) => title)).toEqual(['Roll', 'Climb', 'Limits']);
    expect(table.rows[0]?.cells).toEqual([
      { items: 2, recall: 0.8, critical: 0.6, unmet: 0, below: true },
      { items: 1, recall: 0, critical: null, unmet: 1, below: true },
      { items: 1, recall: 0.95, critical: null, unmet: 0, below: false },
    ]);
    // (1 + .6 + 0 + .95) / 4. Need: critical B (.97 − .6) / .97 three times, C whole, of weights 1 + 3 + 1 + 1.
    expect(table.rows[0]).toMatchObject({ items: 4, unmet: 1, short: 2, below: 2, critical: 0.6, notAsked: 4 });
    expect(table.rows[0]?.recall).toBeCloseTo(0.6375, 12);
    expect(table.rows[0]?.need).toBeCloseTo((3 * (0.37 / 0.97) + 1) / 6, 12);
  });

  test('a critical item below its own target keeps a procedure below, however good the mean', () => {
    const of = (day: number) => received(reportOf({ decks: [deckOf([item(A, { day: 1 }), item(B, { day })])] }));
    expect(tableOf([of(0.96)]).rows[0]?.cells[0]).toMatchObject({ recall: 0.98, below: true });
    expect(tableOf([of(0.97)]).rows[0]?.cells[0]).toMatchObject({ below: false });
  });

  test('minutes: each short item once, reading before what was never asked, and half as long again', () => {
    // B 5 s, C 5 + 12 s; times 1.5 are 33 s.
    expect(tableOf([falcon]).rows[0]?.minutes).toBe(1);
    expect(leastMinutes(0)).toBe(0);
    expect(leastMinutes(40)).toBe(1);
    expect(leastMinutes(40.1)).toBe(2);
    // Ten days from 27 November to 7 December, ten minutes each.
    expect(tableOf([falcon]).rows[0]).toMatchObject({ daysLeft: 10, planned: 100, age: 2, silent: false });
  });

  test('without a check date, or behind it, recall is that of the day of the report', () => {
    const none = received(reportOf({ checkDate: null, decks: [deckOf([item(A, { now: 0.5, day: null })])] }));
    expect(tableOf([none]).rows[0]).toMatchObject({ asOfReport: true, recall: 0.5, daysLeft: null, planned: null });
    const past = received(reportOf({ checkDate: '2026-11-24', decks: [deckOf([item(A, { now: 0.5, day: 0.9 })])] }));
    expect(tableOf([past]).rows[0]).toMatchObject({ asOfReport: true, recall: 0.5, daysLeft: -3, planned: null });
  });

  test('checks of some procedures before that of all: their dates, and the minutes for all that is checked by then', () => {
    const items = [
      item(A, { day: 0.5, check: '2026-11-30' }),
      { ...unmet(B), check: '2026-11-30' },
      item(C, { day: 0.95, check: '2026-12-03' }),
      item(D, { day: 0.8 }),
    ];
    const report = received(reportOf({ decks: [deckOf(items)] }));
    const { rows, columns } = tableOf([report]);
    expect(rows[0]?.cells.map((cell) => [cell?.recall, cell?.check])).toEqual([
      [0.25, '2026-11-30'],
      [0.95, '2026-12-03'],
      [0.8, undefined],
    ]);
    const [roll, climb] = columns;
    // A 5 s, B 5 + 12 s, times 1.5: 33 s. C is not short; what is checked before it comes before it.
    expect(rows[0]?.checks).toEqual([
      { date: '2026-11-30', daysLeft: 3, columns: [roll], short: 2, minutes: 1, planned: 30 },
      { date: '2026-12-03', daysLeft: 6, columns: [climb], short: 2, minutes: 1, planned: 60 },
    ]);
    expect(rows[0]).toMatchObject({ short: 3, daysLeft: 10, planned: 100, asOfReport: false });
    expect(tableOf([report], { today: '2026-12-01' }).rows[0]?.checks[0]).toMatchObject({
      daysLeft: -1,
      planned: null,
    });
    expect(tableOf([falcon]).rows[0]?.checks).toEqual([]);
    // Without the deck all stand in one column, which has the first of the dates.
    expect(tableOf([report], { decks: new Map() }).rows[0]?.cells[0]).toMatchObject({ check: '2026-11-30' });
  });

  test('who will not be ready by what they plan, for which check, and what the least would be', () => {
    const of = (planned: number, today = '2026-11-27') => {
      const items = [
        ...Array.from({ length: 8 }, (_, i) => unmet(`${ID}#early-${i}.place~1`)).map((one) => ({
          ...one,
          check: '2026-11-29',
        })),
        ...Array.from({ length: 40 }, (_, i) => unmet(`${ID}#late-${i}.place~1`)),
      ];
      const { rows } = tableOf([received(reportOf({ planned, decks: [deckOf(items)] }))], { today });
      return tooFew(rows[0] as Row);
    };
    // 8 × 17 s × 1.5 are 204 s: four minutes in two days; of all 48 they are 1224 s: 21 minutes in ten days.
    expect(of(1)).toEqual({ date: '2026-11-29', minutes: 4, planned: 2, aDay: 2 });
    expect(of(2)).toEqual({ date: '2026-12-07', minutes: 21, planned: 20, aDay: 3 });
    expect(of(3)).toBeNull();
    // Behind the first check it is that of all.
    expect(of(2, '2026-11-30')).toMatchObject({ date: '2026-12-07', planned: 14, aDay: 3 });
    expect(of(0, '2026-12-07')).toBeNull();
    expect(
      tooFew(
        tableOf([received(reportOf({ checkDate: null, planned: 0, decks: [deckOf([unmet(A)])] }))]).rows[0] as Row,
      ),
    ).toBeNull();
  });

  test('whoever needs help first stands first; weakest of what was asked', () => {
    const heron = received(
      reportOf({ trainee: 'Heron', decks: [deckOf([item(A, { day: 0.2 }), item(B, { day: 0.2 })])] }),
      'two',
    );
    const { rows, weakest, neverAsked } = tableOf([falcon, heron]);
    expect(rows.map(({ person }) => person.name)).toEqual(['Heron', 'Falcon']);
    // C was asked of nobody: it is counted, not named.
    expect(weakest.map(({ key, recall, trainees, short }) => [key, recall, trainees, short])).toEqual([
      [B, 0.4, 2, 2],
      [A, 0.6, 2, 1],
    ]);
    expect(neverAsked).toEqual({ items: 1, critical: 0 });
    expect(weakest[0]).toMatchObject({ critical: true, label: `label of ${B}` });
  });
});

describe('what was asked', () => {
  test('an item counts by whom it was asked; one that nobody was asked is no weak one, critical or not', () => {
    const first = received(reportOf({ decks: [deckOf([unmet(A), unmet(B), item(C, { day: 0.5 })])] }));
    const second = received(reportOf({ trainee: 'Heron', decks: [deckOf([unmet(A), unmet(B), unmet(C)])] }), 'two');
    const { weakest, neverAsked } = tableOf([first, second]);
    expect(weakest.map(({ key, recall, trainees, short }) => [key, recall, trainees, short])).toEqual([[C, 0.5, 1, 1]]);
    expect(neverAsked).toEqual({ items: 2, critical: 1 });
  });

  test('of a weak rule it is told what it gives, which its label does not', () => {
    const rule = `${ID}#wind.go.within~5`;
    const items = new Map([[rule, { ...byKeyAlone(rule), right: 'Go, where the wind is below 20 kt' }]]);
    const report = received(reportOf({ decks: [deckOf([item(rule, { day: 0.4 }), item(A, { day: 0.5 })])] }));
    const { weakest } = tableOf([report], { decks: new Map([[ID, { ...known, items }]]) });
    expect(weakest.map((one) => one.rule)).toEqual(['Go, where the wind is below 20 kt', null]);
  });

  test('sure but wrong: of all times that items were answered; which items, the most often first, then critical ones', () => {
    const report = received(
      reportOf({
        decks: [
          deckOf([
            item(A, { verdicts: [1, 0, 2, 0], sureWrong: 1 }),
            item(B, { verdicts: [2, 0, 0, 0], sureWrong: 1 }),
            item(C, { verdicts: [3, 1, 0, 0], sureWrong: 3 }),
            item(D),
          ]),
        ],
      }),
    );
    const [row] = tableOf([report]).rows;
    expect(row).toMatchObject({ answered: 10, sureWrong: 5 });
    expect(
      sureWrongOf((row as Row).report, DECKS).map(({ key, times, answered, critical }) => [
        key,
        times,
        answered,
        critical,
      ]),
    ).toEqual([
      [C, 3, 4, false],
      [B, 1, 2, true],
      [A, 1, 3, false],
    ]);
    const { sureWrong: _, ...bare } = item(A, { verdicts: [1, 0, 0, 0] });
    const without = tableOf([received(reportOf({ leftOut: ['sure'], decks: [deckOf([bare])] }))]).rows[0] as Row;
    expect(without).toMatchObject({ answered: 1, sureWrong: null });
    expect(sureWrongOf(without.report, DECKS)).toEqual([]);
  });

  test('missed and never yet right, for what was asked at all', () => {
    const counts = [
      [2, 0, 0, 0],
      [2, 1, 0, 0],
      [1, 0, 0, 1],
      [0, 0, 3, 0],
      [0, 0, 0, 0],
    ] as const;
    const items = counts.map((verdicts, i) => item(`${ID}#late-${i}.place~1`, { verdicts }));
    const [row] = tableOf([received(reportOf({ decks: [deckOf(items)] }))]).rows;
    const [deck] = (row as Row).report.decks;
    expect(counts.map((_, i) => isNeverRight(deck as never, i))).toEqual([true, false, false, false, false]);
  });

  test('what the own app expects of the minutes stands before the floor, as long as the check is ahead', () => {
    const of = (recall: number, today?: string) => {
      const plan = { minutes: 1, recall, needed: 12 };
      const items = Array.from({ length: 60 }, (_, i) => unmet(`${ID}#late-${i}.place~1`));
      const report = received(reportOf({ planned: 1, plan, decks: [deckOf(items)] }));
      return tableOf([report], today === undefined ? {} : { today }).rows[0] as Row;
    };
    expect(shortPlan(of(0.93))).toEqual({ minutes: 1, recall: 0.93, needed: 12 });
    expect(tooFew(of(0.93))).toBeNull();
    expect(shortPlan(of(0.95))).toBeNull();
    expect(tooFew(of(0.95))).toBeNull();
    expect(of(0.93, '2026-12-07').plan).toBeNull();
    expect(tableOf([falcon]).rows[0]?.plan).toBeNull();
  });
});

describe('who must be asked', () => {
  test('the expected who sent nothing, and those of whom nothing came for long', () => {
    const settings = { expected: ['falcon ', 'Heron'], silentDays: 3 };
    const { missing, rows } = tableOf([falcon], { settings, today: '2026-11-29' });
    expect(missing).toEqual(['Heron']);
    expect(rows[0]).toMatchObject({ age: 4, silent: true });
  });

  test('whoever reports and is not expected, where anybody is', () => {
    const unlisted = (...expected: string[]) =>
      tableOf([falcon], { settings: { expected } }).unlisted.map((p) => p.name);
    expect(unlisted('Heron')).toEqual(['Falcon']);
    expect(unlisted('Heron', ' falcon')).toEqual([]);
    expect(unlisted()).toEqual([]);
  });

  test('minutes practised, of those planned from the first day to the report', () => {
    const of = { days: ['2026-11-20', '2026-11-21', '2026-11-22'], minutes: 1, planned: 15, made: '2026-11-22' };
    expect(practisedOf(of)).toEqual({ minutes: 1, planned: 45 });
    // Days on which nothing was done count, that of the report too.
    expect(practisedOf({ ...of, days: ['2026-11-20'], made: '2026-11-29' })).toEqual({ minutes: 1, planned: 150 });
    const { days, minutes, ...rest } = of;
    expect([practisedOf({ ...rest, days }), practisedOf({ ...rest, minutes })]).toEqual([null, null]);
    expect(practisedOf({ ...of, days: [] })).toBeNull();
    expect(practisedOf({ ...of, planned: 0 })).toBeNull();
    expect(tableOf([falcon]).rows[0]?.practised).toEqual({ minutes: 12, planned: 60 });
    // Of 45 minutes 27 go into answering; half of them is 13.5.
    const less = [1, 13, 14, 27].map((spent) => practisesLess({ practised: { minutes: spent, planned: 45 } }));
    expect(less).toEqual([true, true, false, false]);
    expect(practisesLess({ practised: null })).toBe(false);
  });

  test('whoever is often sure and wrong: ten times at least, and one in five', () => {
    const of = (sureWrong: number | null, answered: number) => isOftenSureWrong({ sureWrong, answered });
    expect([of(225, 289), of(10, 50), of(9, 20), of(10, 51), of(null, 50)]).toEqual([true, true, false, false, false]);
  });

  test('who runs another revision than the newest here; without the deck, than the one assigned', () => {
    const on = (contentId: string, version: string) =>
      received(reportOf({ decks: [deckOf([item(A)], { contentId, version })] }));
    expect(tableOf([on('a'.repeat(64), '1.1.0')]).rows[0]?.old).toEqual([]);
    expect(tableOf([on('b'.repeat(64), '1.0.0')]).rows[0]?.old).toMatchObject([{ how: 'older', wanted: '1.1.0' }]);
    expect(tableOf([on('b'.repeat(64), '2.0.0')]).rows[0]?.old).toMatchObject([{ how: 'newer' }]);
    const settings = { decks: [{ id: ID, contentId: 'c'.repeat(64), title: 'Try' }] };
    expect(tableOf([on('a'.repeat(64), '1.1.0')], { settings }).rows[0]?.old).toMatchObject([
      { how: 'other', wanted: null },
    ]);
    expect(tableOf([on('b'.repeat(64), '1.0.0')], { decks: new Map() }).rows[0]?.old).toEqual([]);
    // What is newer here is told of, whatever was assigned before; who has it is up to date.
    const assigned = new Map([[ID, { version: '1.0.0', contentId: 'b'.repeat(64) }]]);
    const older = tableOf([on('b'.repeat(64), '1.0.0')], { assigned }).rows[0]?.old;
    expect(older).toMatchObject([{ how: 'older', wanted: '1.1.0', by: 'device', assigned: '1.0.0' }]);
    expect(tableOf([on('9'.repeat(64), '0.9.0')], { assigned }).rows[0]?.old).toMatchObject([
      { how: 'older', wanted: '1.1.0', by: 'device', assigned: '1.0.0' },
    ]);
    expect(tableOf([on('a'.repeat(64), '1.1.0')], { assigned }).rows[0]?.old).toEqual([]);
    // Without the deck here it is what was assigned, and that is said.
    const elsewhere = { assigned, decks: new Map() };
    expect(tableOf([on('d'.repeat(64), '0.9.0')], elsewhere).rows[0]?.old).toMatchObject([
      { how: 'older', wanted: '1.0.0', by: 'assignment', assigned: null },
    ]);
    expect(tableOf([on('b'.repeat(64), '1.0.0')], elsewhere).rows[0]?.old).toEqual([]);
  });

  test('of other decks than those expected nothing is counted', () => {
    const two = received(
      reportOf({
        decks: [deckOf([item(A, { day: 0.5 })]), deckOf([item('else/where#x.place~1')], { id: 'else/where' })],
      }),
    );
    const settings = { decks: [{ id: ID, contentId: null, title: 'Try' }] };
    expect(tableOf([two]).columns).toHaveLength(2);
    expect(tableOf([two], { settings }).columns.map(({ id }) => id)).toEqual([`${ID}#roll`]);
    expect(tableOf([two], { settings }).rows[0]).toMatchObject({ items: 1, recall: 0.5 });
  });
});

describe('without the deck', () => {
  test('items are named by their keys, all in one column of the deck', () => {
    const { columns, weakest, rows } = tableOf([falcon], { decks: new Map() });
    expect(columns).toEqual([{ id: `${ID}#`, deck: ID, title: 'Try', deckTitle: 'Try' }]);
    expect(weakest.map(({ label }) => label)).toEqual(['b, place']);
    expect(rows[0]?.cells[0]).toMatchObject({ items: 4, recall: 0.6375, critical: null });
  });

  test.each([
    [`${ID}#flaps.value.standard~4`, 'value', false],
    [`${ID}#wind.cross.number~4`, 'number', false],
    [`${ID}#wind.go.within~4`, 'rule', true],
    [`${ID}#step.cue~4`, 'cue', true],
    ['no key at all', 'place', false],
  ])('what %s asks', (key, facet, choice) => {
    expect(byKeyAlone(key)).toMatchObject({ facet, choice });
  });
});

describe('with an installed deck', () => {
  const deck: Deck = {
    format: 1,
    id: ID,
    version: '1.0.0',
    title: 'Try',
    language: 'en',
    nature: 'fictional',
    sources: [{ id: 'om', title: 'OM', basis: 'invented' }],
    variants: [{ id: 'engine', label: 'Engine', options: { early: 'Early', late: 'Late' } }],
    procedures: [
      {
        id: 'roll',
        title: 'Take-off roll',
        done: 'memory',
        starts: 'Cleared',
        source: 'om',
        steps: [
          { id: 'one', by: 'PF', do: 'Thrust set' },
          { id: 'two', by: 'PM', say: 'Thrust set', critical: true },
        ],
      },
    ],
    limits: [
      {
        id: 'flaps',
        ask: 'Flaps',
        source: 'om',
        options: { one: 'One', two: 'Two' },
        cases: [
          { id: 'early', when: { engine: 'early' }, is: 'one' },
          { id: 'late', when: { engine: 'late' }, is: 'two' },
        ],
      },
    ],
  } as unknown as Deck;
  const stored = (of: Deck, contentId: string): StoredDeck => ({
    ref: `${ID}@${contentId.slice(0, 16)}`,
    id: ID,
    version: of.version,
    title: of.title,
    nature: 'fictional',
    contentId,
    text: JSON.stringify(of),
    installed: 0,
    active: false,
  });
  const knownOf = (here: readonly StoredDeck[], all: readonly ReceivedReport[]): KnownDecks => {
    const steps = knowInSteps(here, reportedIn(all.map((one) => pack(one, 0))));
    for (;;) {
      const { done, value } = steps.next();
      if (done === true) return value;
    }
  };

  test('columns and labels come from it, of all variants, and what is a choice', () => {
    const found = knownOf([stored(deck, 'a'.repeat(64))], [falcon]).get(ID);
    expect([...(found?.columns ?? [])]).toEqual([
      [`${ID}#roll`, 'Take-off roll'],
      [`${ID}#Limits`, 'Limits'],
    ]);
    const items = [...(found?.items.values() ?? [])];
    expect(items.filter(({ facet }) => facet === 'value').map(({ label, choice }) => [label, choice])).toEqual([
      ['Flaps (Early)', true],
      ['Flaps (Late)', true],
    ]);
    expect(items.some(({ critical }) => critical)).toBe(true);
  });

  test('the right answer of a number, and no two items of one name, over revisions and situations', () => {
    const old = structuredClone(deck) as unknown as { version: string; procedures: { steps: object[] }[] };
    old.version = '0.9.0';
    // Another step before it: its place is another item by the same words.
    old.procedures[0]?.steps.splice(1, 0, { id: 'three', by: 'PF', do: 'Brakes off' });
    const here = [stored(old as unknown as Deck, 'b'.repeat(64)), stored(deck, 'a'.repeat(64))];
    const one = received(reportOf({ decks: [deckOf([item(A)], { contentId: 'b'.repeat(64) })] }));
    const items = [...(knownOf(here, [one]).get(ID)?.items ?? [])];
    expect(items.filter(([, { facet }]) => facet === 'value').map(([, { label, right }]) => [label, right])).toEqual([
      ['Flaps (Early)', 'One'],
      ['Flaps (Late)', 'Two'],
    ]);
    const places = items.filter(([key]) => key.startsWith(`${ID}#two.place~`)).map(([, { label }]) => label);
    expect(places).toEqual(['Take-off roll: “Thrust set”', 'Take-off roll: “Thrust set” · version 0.9.0']);
    expect(new Set(items.map(([, { label }]) => label)).size).toBe(items.length);
  });

  test('an older revision names what only it has, where somebody reports of it', () => {
    const old = structuredClone(deck) as unknown as { version: string; procedures: { steps: object[] }[] };
    old.version = '0.9.0';
    old.procedures[0]?.steps.push({ id: 'three', by: 'PF', do: 'Brakes off' });
    const here = [stored(old as unknown as Deck, 'b'.repeat(64)), stored(deck, 'a'.repeat(64))];
    const labels = (contentId: string) => {
      const one = received(reportOf({ decks: [deckOf([item(A)], { contentId })] }));
      return [...(knownOf(here, [one]).get(ID)?.items.values() ?? [])].map(({ label }) => label).join();
    };
    expect(labels('b'.repeat(64))).toContain('Brakes off');
    expect(labels('a'.repeat(64))).not.toContain('Brakes off');
    expect(knownOf(here, [falcon]).get(ID)?.newest.version).toBe('1.0.0');
  });

  test('of a deck that is not here nothing is known', () => {
    expect(knownOf([], [falcon])).toEqual(new Map());
  });
});

describe('what trainees tell', () => {
  const slip = (given: string, times: number) => ({ key: A, asked: 'After thrust', given, times });
  const people = [
    received(reportOf({ decks: [deckOf([item(A)], { slips: [slip('Brakes', 2), slip('Flaps', 9)] })] })),
    received(
      reportOf({
        trainee: 'Heron',
        decks: [
          deckOf([item(A)], {
            slips: [slip('Brakes', 1)],
            queries: [
              { items: [A, B], on: '2026-11-20', note: 'Page 4 says otherwise' },
              { items: [C], on: '2026-11-22', note: '' },
            ],
          }),
        ],
      }),
      'two',
    ),
  ].map((one) => pack(one, 0));
  const told = {
    people: peopleOf(people, []),
    reports: new Map(people.map((one) => [one.hash, one])),
    only: new Set<string>(),
  };

  test('slips: those that most trainees made stand first', () => {
    expect(commonSlips(told, DECKS).slips.map(({ given, times, trainees }) => [given, times, trainees])).toEqual([
      ['Brakes', 3, 2],
      ['Flaps', 9, 1],
    ]);
  });

  test('slips that read the same are told apart: by the right answer, without one by the item', () => {
    const own = [A, B, C].map((key) => ({ key, asked: 'Stick', given: 'No take-off', times: 1 }));
    const one = pack(received(reportOf({ decks: [deckOf([item(A)], { slips: own })] })), 0);
    const with3 = { people: peopleOf([one], []), reports: new Map([[one.hash, one]]), only: new Set<string>() };
    const rights = new Map([...known.items].map(([key, of]) => [key, { ...of, right: `right for ${key}` }]));
    const { slips } = commonSlips(with3, new Map([[ID, { ...known, items: rights }]]));
    expect(slips.map(({ asked, right }) => [asked, right])).toEqual(
      [A, B, C].map((key) => ['Stick', `right for ${key}`]),
    );
    expect(commonSlips(with3, new Map()).slips.map(({ asked }) => asked)).toEqual([
      'Stick (a, place)',
      'Stick (b, place)',
      'Stick (c, place)',
    ]);
  });

  test('more kinds than are told are counted, and who left theirs out', () => {
    const many = Array.from({ length: 15 }, (_, i) => slip(`wrong ${i}`, 1));
    const { slips: _, ...bare } = deckOf([item(A)]);
    const all = [
      received(reportOf({ decks: [deckOf([item(A)], { slips: many, slipsLeftOut: 4 })] })),
      received(reportOf({ trainee: 'Heron', leftOut: ['slips'], decks: [bare] }), 'two'),
    ].map((each) => pack(each, 0));
    const found = commonSlips(
      { people: peopleOf(all, []), reports: new Map(all.map((each) => [each.hash, each])), only: new Set() },
      DECKS,
    );
    expect([found.slips.length, found.kinds, found.leftOut, found.unnamed]).toEqual([12, 15, 1, 4]);
  });

  test('wrong answers of one trainee: the most often given first, then critical ones; what is not named is counted', () => {
    const slips = [slip('Brakes', 2), { ...slip('Trim', 2), key: B }, slip('Flaps', 9)];
    const one = pack(received(reportOf({ decks: [deckOf([item(A)], { slips, slipsLeftOut: 3 })] })), 0);
    const items = new Map(
      [...known.items].map(([key, of]) => [key, { ...of, critical: key === B, right: `of ${key}` }]),
    );
    const found = slipsOf(one, new Map([[ID, { ...known, items }]]));
    expect(found.slips.map(({ given, times, critical }) => [given, times, critical])).toEqual([
      ['Flaps', 9, false],
      ['Trim', 2, true],
      ['Brakes', 2, false],
    ]);
    expect(found.slips.map(({ right }) => right)).toEqual([`of ${A}`, `of ${B}`, `of ${A}`]);
    expect(found.unnamed).toBe(3);
    expect(slipsOf(one, new Map()).slips.map(({ right }) => right)).toEqual([null, null, null]);
  });

  test('queries: the last first, with what was asked about and who', () => {
    const queries = queriesOf(told, DECKS);
    expect(queries.map(({ on, note, labels }) => [on, note, labels])).toEqual([
      ['2026-11-22', '', [`label of ${C}`]],
      ['2026-11-20', 'Page 4 says otherwise', [`label of ${A}`, `label of ${B}`]],
    ]);
    expect(queries[0]?.person.name).toBe('Heron');
    expect(queries.map(({ where, right }) => [where, right])).toEqual([
      [['Climb'], []],
      [['Roll'], []],
    ]);
    expect(queriesOf({ ...told, only: new Set(['else/where']) }, DECKS)).toEqual([]);
  });

  test('a query says what is right here, unless its name does; of several items which is which', () => {
    const rights = new Map([
      [A, 'of A'],
      [B, `label of ${B}`],
      [C, 'of C'],
    ]);
    const items = new Map([...known.items].map(([key, one]) => [key, { ...one, right: rights.get(key) ?? null }]));
    const found = queriesOf(told, new Map([[ID, { ...known, items }]]));
    expect(found.map(({ right }) => right)).toEqual([['of C'], [`label of ${A}: of A`]]);
  });

  test('an item whose answer a revision changed is called by what it is here, and what was right here is not said of it', () => {
    const old = `${ID}#flaps.value.standard~9`;
    const slips = [{ key: old, asked: 'Flaps', given: 'Two', times: 1 }];
    const queries = [{ items: [old], on: '2026-11-24', note: 'No.' }];
    const report = received(reportOf({ decks: [deckOf([item(old, { day: 0.1, sureWrong: 1 })], { slips, queries })] }));
    const one = pack(report, 0);
    const of = { people: peopleOf([one], []), reports: new Map([[one.hash, one]]), only: new Set<string>() };
    const items = new Map([...known.items].map(([key, each]) => [key, { ...each, right: 'One' }]));
    const here: KnownDecks = new Map([[ID, { ...known, items }]]);
    const label = `label of ${D} · another revision`;
    expect(queriesOf(of, here)).toMatchObject([{ labels: [label], where: ['Limits'], right: [] }]);
    expect(slipsOf(one, here).slips).toMatchObject([{ right: null }]);
    expect(sureWrongOf(one, here).map((each) => each.label)).toEqual([label]);
    expect(tableOf([report], { decks: here }).weakest.map((each) => each.label)).toEqual([label]);
    expect(queriesOf(of, new Map())).toMatchObject([{ labels: ['flaps, value standard'], where: [] }]);
  });
});
