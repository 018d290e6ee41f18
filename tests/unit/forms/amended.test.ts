import { describe, expect, test } from 'vitest';
import { mark } from '../../../src/forms/registry.ts';
import { dayOfIso } from '../../../src/lib/date-words.ts';
import type { Limit, NumberLimit } from '../../../src/model/deck.ts';
import type { NextDetail } from '../../../src/model/form.ts';
import type { OtherRevision, Resolved } from '../../../src/subjects/resolved.ts';
import {
  answerDetail,
  drawnLimit,
  drawnRun,
  drawnScenario,
  flow,
  given,
  limitDeck,
  offerFor,
  plain,
  resolved,
  rule,
  runDetail,
  scenarioDeck,
  whole,
} from './small-decks.ts';

/** Every number here is invented. */
const limit = (value: number, more: Partial<NumberLimit> = {}): Resolved =>
  limitDeck({ unit: 'ft', sense: 'at least', value, ...more } as Partial<Limit>);

const other = (before: Resolved, more: Partial<OtherRevision> = {}): OtherRevision => ({
  deck: before.deck,
  resolved: () => before,
  when: 'past',
  day: dayOfIso('2026-11-30'),
  ...more,
});
const among = (now: Resolved, ...others: OtherRevision[]): Resolved => ({ ...now, others });

describe('an old number', () => {
  test('is told as what was right, at any distance outside the band, and is wrong', () => {
    const { detail, mark: m } = given(among(limit(250), other(limit(200))), 200);
    expect(m).toBe('wrong');
    expect(detail.slip).toBe('That was right until 30 November 2026.');
    // Without the old revision nothing is said: one machine-made explanation would have to fit.
    expect(given(limit(250), 200).detail.slip).toBeUndefined();
    // One unit off the new answer: nothing machine-made is named so near.
    expect(given(among(limit(250), other(limit(249))), 249).detail.slip).toBe('That was right until 30 November 2026.');
  });

  test('across several older revisions: the one that had it last', () => {
    const all = among(
      limit(300),
      other(limit(250), { day: dayOfIso('2026-11-30') }),
      other(limit(200), { day: dayOfIso('2026-06-30') }),
      other(limit(250), { day: dayOfIso('2025-12-31') }),
    );
    expect(given(all, 250).detail.slip).toBe('That was right until 30 November 2026.');
    expect(given(all, 200).detail.slip).toBe('That was right until 30 June 2026.');
    expect(given(all, 260).detail.slip).toBeUndefined();
  });

  test('gives way to a slip of the author, and goes before a machine-made one', () => {
    const slips = [{ value: 200, note: 'Of another type.' }];
    expect(given(among(limit(250, { slips }), other(limit(200))), 200).detail.slip).toBe('Of another type.');
    // 2500 is also the decimal place.
    expect(given(among(limit(250), other(limit(2500))), 2500).detail.slip).toBe(
      'That was right until 30 November 2026.',
    );
  });

  test('within the new band it is right', () => {
    expect(given(among(limit(250, { accept: 10 }), other(limit(245))), 245)).toMatchObject({ mark: 'right' });
  });

  test('without a date: the edition of the source that changed, else the version', () => {
    const source = (edition: string) => [{ id: 'inv', title: 'Invented manual', edition, basis: 'invented' as const }];
    const deck = (value: number, edition: string, version: string): Resolved => {
      const made = limit(value, { source: 'inv#3' });
      return { ...made, deck: { ...made.deck, version, sources: source(edition) } };
    };
    const [old, now] = [deck(200, 'Edition 12', '1.0.0'), deck(250, 'Edition 13', '2.0.0')];
    expect(given(among(now, other(old, { day: null, next: now.deck })), 200).detail.slip).toBe(
      'That was right until Invented manual, Edition 13.',
    );
    const same = deck(250, 'Edition 12', '2.0.0');
    expect(given(among(same, other(old, { day: null, next: same.deck })), 200).detail.slip).toBe(
      'That was right until version 2.0.0 of this deck.',
    );
  });

  test('both ends of a range; one of them', () => {
    const range = (from: number, to: number) => limitDeck({ unit: '°', sense: 'from-to', from, to } as Partial<Limit>);
    const all = among(range(12, 15), other(range(8, 10)));
    expect(given(all, 8, 10).detail.slip).toBe('That was right until 30 November 2026.');
    expect(given(all, 12, 10).detail.slip).toBe('That was right until 30 November 2026.');
    expect(given(all, 7, 10).detail.slip).toBeUndefined();
  });

  test('of another unit it is no answer to this question', () => {
    expect(given(among(limit(250), other(limit(200, { unit: 'm' }))), 200).detail.slip).toBeUndefined();
  });
});

test('a choice that was right once', () => {
  const fact = (is: string, slips: object = {}) =>
    limitDeck({ options: { red: 'Red', blue: 'Blue', grey: 'Grey' }, is, ...slips } as Partial<Limit>);
  const slip = (all: Resolved, choice: string) => {
    const offer = offerFor(all, 'limit');
    return answerDetail(mark(all, offer, drawnLimit(all, offer), { choice })).slip;
  };
  const all = among(fact('blue'), other(fact('red')));
  expect(slip(all, 'red')).toBe('That was right until 30 November 2026.');
  expect(slip(all, 'grey')).toBeUndefined();
  expect(slip(all, 'blue')).toBeUndefined();
  const own = among(fact('blue', { slips: [{ is: 'red', note: 'Of another type.' }] }), other(fact('red')));
  expect(slip(own, 'red')).toBe('Of another type.');
});

describe('both answers while they change', () => {
  const coming = among(limit(200), other(limit(250), { when: 'coming', day: dayOfIso('2026-12-01') }));
  const ahead = among(limit(250), other(limit(200), { when: 'now', day: dayOfIso('2026-11-30') }));

  test('the question says as of when it is asked, and gives nothing away', () => {
    expect(drawnLimit(coming, offerFor(coming, 'limit')).scene).toEqual(['As it is until 30 November 2026']);
    expect(drawnLimit(ahead, offerFor(ahead, 'limit')).scene).toEqual(['As it is from 1 December 2026']);
    const same = among(limit(200), other(limit(200), { when: 'coming', day: dayOfIso('2026-12-01') }));
    expect(drawnLimit(same, offerFor(same, 'limit')).scene).toEqual([]);
    const past = among(limit(250), other(limit(200)));
    expect(drawnLimit(past, offerFor(past, 'limit')).scene).toEqual([]);
  });

  test('the verdict names both, whatever was answered', () => {
    for (const typed of [200, 250, 7]) {
      expect(given(coming, typed).detail.dated?.map(plain)).toEqual(['From 1 December 2026: at least 250 ft']);
      expect(given(ahead, typed).detail.dated?.map(plain)).toEqual(['Until 30 November 2026: at least 200 ft']);
    }
    expect(given(among(limit(250), other(limit(200))), 250).detail.dated).toBeUndefined();
  });

  test('the other one given is told as such', () => {
    expect(given(coming, 250).detail.slip).toBe('That will be right from 1 December 2026.');
    expect(given(ahead, 200).detail.slip).toBe('That is right until 30 November 2026.');
  });
});

describe('scenarios', () => {
  const number = (formula: string) =>
    scenarioDeck({
      draw: { x: { from: 10, to: 90 } },
      asks: [{ id: 'n', ask: 'How much?', number: formula, unit: 'kt' }],
    });

  test('a number computed the old way', () => {
    const all = among(number('x * 2'), other(number('x * 2 + 300')));
    const offer = offerFor(all, 'scenario');
    const shown = drawnScenario(all, offer);
    const value = (shown.drawn.x as number) * 2 + 300;
    const detail = answerDetail(mark(all, offer, shown, { typed: [String(value)], value: [value] }));
    expect(detail.slip).toBe('That was right until 30 November 2026.');
  });

  test('an old formula of other drawn values says nothing', () => {
    const old = scenarioDeck({
      draw: { y: { from: 10, to: 90 } },
      asks: [{ id: 'n', ask: 'How much?', number: 'y', unit: 'kt' }],
    });
    const all = among(number('x * 2'), other(old));
    const offer = offerFor(all, 'scenario');
    expect(
      answerDetail(mark(all, offer, drawnScenario(all, offer), { typed: ['7'], value: [7] })).slip,
    ).toBeUndefined();
  });

  test('the choice of an old rule', () => {
    const choice = (at: number) =>
      scenarioDeck({
        draw: { x: { from: 40, to: 44 } },
        asks: [
          {
            id: 'c',
            ask: 'What?',
            choose: {
              options: { go: 'Go', stop: 'Stop', wait: 'Wait' },
              rules: [rule('far', `x > ${at}`, ['go']), rule('near', '', ['stop'])],
            },
          },
        ],
      });
    const all = among(choice(30), other(choice(60)));
    const offer = offerFor(all, 'scenario', ({ about }) => about.rule === 'far');
    const shown = drawnScenario(all, offer);
    const slip = (given: string) => answerDetail(mark(all, offer, shown, { choice: given })).slip;
    expect(slip('stop')).toBe('That was right until 30 November 2026.');
    expect(slip('wait')).toBeUndefined();
    expect(slip('go')).toBeUndefined();
  });
});

describe('an order that was right once', () => {
  const steps = (...ids: string[]) => ids.map((id) => ({ id, do: `Lamp ${id}` }));
  const of = (...ids: string[]) => resolved({ procedures: [flow(steps(...ids))] });

  test('of steps moved, and without a step that was put in', () => {
    const all = among(of('a', 'c', 'b', 'd'), other(of('a', 'b', 'c', 'd')));
    const shown = drawnRun(all, whole());
    const slip = (...order: string[]) => runDetail(mark(all, whole(), shown, { order })).slip;
    expect(slip('a', 'b', 'c', 'd')).toBe('That was right until 30 November 2026.');
    expect(slip('a', 'c', 'b', 'd')).toBeUndefined();
    expect(slip('b', 'a', 'c', 'd')).toBeUndefined();

    const inserted = among(of('a', 'x', 'b', 'c'), other(of('a', 'b', 'c')));
    const drawn = drawnRun(inserted, whole());
    const told = (...order: string[]) => runDetail(mark(inserted, whole(), drawn, { order })).slip;
    expect(told('a', 'b', 'c')).toBe('That was right until 30 November 2026.');
    expect(told('a', 'b', 'x', 'c')).toBeUndefined();
    expect(runDetail(mark(inserted, whole(), drawn, null)).slip).toBeUndefined();
  });

  test('what came next once', () => {
    const all = among(of('a', 'x', 'b', 'c', 'd'), other(of('a', 'b', 'c', 'd')));
    const offer = offerFor(all, 'next', ({ about }) => about.part?.[0] === 'x');
    const shown = { form: 'next' as const, title: '', scene: [], drawn: {}, before: [], ask: '', choices: [] };
    const note = (choice: string) => (mark(all, offer, shown, { choice }).detail as NextDetail).wrong?.note;
    expect(note('b')).toBe('That was right until 30 November 2026.');
    expect(note('c')).toBeUndefined();
  });
});

test('a revision that knew no variants is looked up all the same', () => {
  const axis = { id: 'engine', label: 'Engine', options: { a: 'A', b: 'B' } };
  const one = { id: 'one', ask: 'How fast?', unit: 'ft', sense: 'at least' } as const;
  const now = resolved(
    {
      variants: [axis],
      limits: [
        {
          ...one,
          cases: [
            { id: 'a', when: { engine: 'a' }, value: 250 },
            { id: 'b', when: { engine: 'b' }, value: 260 },
          ],
        },
      ],
    },
    { engine: ['a'] },
  );
  expect(given(among(now, other(limit(200))), 200).detail.slip).toBe('That was right until 30 November 2026.');
});
