import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../src/forms/registry.ts';
import { type Deck, isFact, isTable, type Limit, type Node, type NumberLimit } from '../../src/model/deck.ts';
import type { DealtDetail, DifferenceGiven, DifferenceShown, Offer } from '../../src/model/form.ts';
import type { Flown, Resolved } from '../../src/subjects/resolved.ts';
import { flow, plain, resolved } from '../unit/forms/small-decks.ts';

/*
 * What changes from one variant to the other, over every deck that is shipped, flown in all of them. What holds in each
 * is read here from the authored deck, without the marking.
 */

const files = readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json'));
const SEEDS = [1, 2, 3];
const deckIn = (file: string): Deck => JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
const everyOption = (deck: Deck): Flown =>
  Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
const flownBy = (deck: Deck, flown = everyOption(deck)): Resolved => resolve(deck, 'd'.repeat(64), flown);

type Picked = Readonly<Record<string, string>>;
interface Authored {
  readonly when?: Picked;
  readonly given?: object;
  readonly value?: number;
  readonly is?: string;
}
/** What a limit says for a pick without circumstances: the case confined to it, else the one for all. */
const heldIn = (limit: Limit, pick: Picked): number | string | undefined => {
  const cases = ((limit as { cases?: readonly Authored[] }).cases ?? [limit as Authored]).filter((c) => !c.given);
  const fits = cases.filter(({ when = {} }) => Object.entries(when).every(([axis, o]) => pick[axis] === o));
  const narrow = fits.sort((a, b) => Object.keys(b.when ?? {}).length - Object.keys(a.when ?? {}).length)[0];
  return narrow?.value ?? narrow?.is;
};
/** `engine=tk11,operator=calder` */
const pickOf = (view: string): Picked =>
  Object.fromEntries(view.split(',').map((one) => one.split('=') as [string, string]));
const pairOf = ({ about }: Offer): [Picked, Picked] => {
  const [a = '', b = ''] = (about.way ?? '').split('|');
  return [pickOf(a), pickOf(b)];
};
const axisOf = (offer: Offer): string => {
  const [a, b] = pairOf(offer);
  const axes = Object.keys(a).filter((axis) => a[axis] !== b[axis]);
  expect(axes).toHaveLength(1);
  return axes[0] as string;
};

const differencesOf = (all: Resolved): Offer[] => offers(all, null, 1).filter(({ form }) => form === 'difference');
const drawnOf = (all: Resolved, offer: Offer, seed: number): DifferenceShown => {
  const shown = draw(all, offer, seed);
  if (shown?.form !== 'difference') throw new Error(`nothing drawn: ${JSON.stringify(offer.about)}`);
  return shown;
};
const numbers = (...value: number[]): DifferenceGiven => ({ typed: value.map(String), value });
const deal = ({ rows }: DifferenceShown, ...seats: string[]): DifferenceGiven => ({
  deal: Object.fromEntries(rows.map(({ id }, i) => [id, seats[i] ?? ''])),
});

/** The marks in the order of the two variants, and what is said of each. */
const told = (all: Resolved, offer: Offer, shown: DifferenceShown, given: DifferenceGiven | null) => {
  const marked = mark(all, offer, shown, given);
  const { form, about, variant } = offer;
  const kept = JSON.parse(JSON.stringify({ form, about, variant, shown, given }));
  expect(mark(all, { ...kept, proves: [] }, kept.shown, kept.given)).toEqual(marked);
  expect(Object.keys(marked.marks).sort()).toEqual([...offer.proves].sort());
  const { rows, note } = marked.detail as DealtDetail;
  const marks = offer.proves.map((key) => marked.marks[key]);
  const isRight = given !== null && marks.every((one) => one === 'right');
  expect(marked.flawed).toBe(!isRight);
  expect(rows.map((row) => row.isRight)).toEqual(marks.map((one) => one === 'right'));
  return { marks, rows, note, g: marked.g };
};

/** Right answers right, each wrong one found and it alone, both exchanged told so. */
const holds = (
  all: Resolved,
  offer: Offer,
  seed: number,
  right: readonly [number | string, number | string],
  wrong: number | string,
): void => {
  const shown = drawnOf(all, offer, seed);
  const labels = shown.fields.length > 0 ? shown.fields.map(({ label }) => label) : shown.rows.map(({ text }) => text);
  const axis = all.deck.variants?.find(({ id }) => id === axisOf(offer));
  expect(labels).toEqual(pairOf(offer).map((pick) => axis?.options[pick[axis.id] ?? '']));
  for (const label of labels) expect(shown.scene.join(' ')).not.toContain(label);
  const give = (...both: (number | string)[]): DifferenceGiven =>
    shown.fields.length > 0 ? numbers(...both.map(Number)) : deal(shown, ...both.map(String));
  const [a, b] = right;
  const faultless = told(all, offer, shown, give(a, b));
  expect(faultless).toMatchObject({ marks: ['right', 'right'], note: undefined });
  expect(faultless.g).toBeLessThan(offer.g);
  expect(told(all, offer, shown, give(wrong, b))).toMatchObject({ marks: ['wrong', 'right'], note: undefined });
  expect(told(all, offer, shown, give(a, wrong))).toMatchObject({ marks: ['right', 'wrong'], note: undefined });
  expect(told(all, offer, shown, give(b, b))).toMatchObject({ marks: ['wrong', 'right'], note: undefined });
  expect(told(all, offer, shown, give(b, a))).toMatchObject({
    marks: ['wrong', 'wrong'],
    note: 'The two are exchanged.',
  });
  expect(told(all, offer, shown, null)).toMatchObject({ marks: ['told', 'told'], note: undefined });
};

describe.each(files)('%s', (file) => {
  const deck = deckIn(file);
  const all = flownBy(deck);

  test('each variant is marked by itself, against the authored deck', () => {
    for (const offer of differencesOf(all)) {
      const limit = deck.limits?.find(({ id }) => id === offer.about.thing) as Limit;
      const [a, b] = pairOf(offer).map((pick) => heldIn(limit, pick)) as [number | string, number | string];
      expect(a).not.toBe(b);
      const wrong = isFact(limit)
        ? (Object.keys(limit.options).find((o) => o !== a && o !== b) ?? '')
        : Math.max(Number(a), Number(b)) + 100;
      for (const seed of SEEDS) holds(all, offer, seed, [a, b], wrong);
    }
  });

  test('what differs is asked, once for each axis; what does not is not', () => {
    const views = all.views.map(({ id }) => pickOf(id));
    const differ = new Set<string>();
    for (const limit of deck.limits ?? []) {
      if (isTable(limit) || (!isFact(limit) && limit.sense === 'from-to')) continue;
      for (const a of views)
        for (const b of views) {
          const axes = Object.keys(a).filter((axis) => a[axis] !== b[axis]);
          const [one, two] = [heldIn(limit, a), heldIn(limit, b)];
          if (axes.length === 1 && one !== undefined && two !== undefined && one !== two)
            differ.add(`${limit.id} by ${axes[0]}`);
        }
    }
    expect(
      differencesOf(all)
        .map((offer) => `${offer.about.thing} by ${axisOf(offer)}`)
        .sort(),
    ).toEqual([...differ].sort());
  });

  test('who flies one option of each axis is never asked', () => {
    const one = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options).slice(0, 1)]));
    expect(differencesOf(flownBy(deck, one))).toEqual([]);
    expect(differencesOf(flownBy(deck, {}))).toEqual([]);
  });
});

test('the demonstration decks have both kinds: numbers, and facts that are dealt', () => {
  const count = (file: string, is: (shown: DifferenceShown) => boolean) => {
    const all = flownBy(deckIn(file));
    return differencesOf(all).filter((offer) => is(drawnOf(all, offer, 1))).length;
  };
  expect(count('merrow-takeoff.deck.json', ({ fields }) => fields.length === 2)).toBe(5);
  expect(count('merrow-takeoff.deck.json', ({ rows }) => rows.length === 2)).toBe(1);
  expect(count('merrow-abnormal.deck.json', ({ fields }) => fields.length === 2)).toBe(2);
  expect(count('merrow-abnormal.deck.json', ({ rows }) => rows.length === 2)).toBe(1);
});

const VARIANTS = [
  { id: 'type', label: 'Type', options: { a: 'Alder', b: 'Birch', c: 'Cedar' } },
  { id: 'base', label: 'Base', options: { n: 'North', s: 'South' } },
];
const BOTH: Flown = { type: ['a', 'b'] };
const small = (content: Partial<Deck>, flown: Flown = BOTH): Resolved =>
  resolved({ variants: VARIANTS, ...content }, flown);
const byType = (a: number, b: number, more: Partial<NumberLimit> = {}): Limit =>
  ({
    id: 'one',
    ask: 'How high?',
    unit: 'ft',
    sense: 'at least',
    cases: [
      { id: 'alder', when: { type: 'a' }, value: a },
      { id: 'birch', when: { type: 'b' }, value: b },
    ],
    ...more,
  }) as Limit;

describe('limits', () => {
  test('how it is asked and what is said of it', () => {
    const all = small({ limits: [byType(500, 800, { reference: 'AAL', why: 'Hills.', source: 'inv#2' })] });
    const [offer, ...more] = differencesOf(all);
    expect(more).toEqual([]);
    expect(offer).toMatchObject({
      about: { thing: 'one', case: 'alder', way: 'type=a|type=b' },
      variant: 'type=a',
      needs: 'right-once',
      rows: 2,
      ease: 0.15,
    });
    const shown = drawnOf(all, offer as Offer, 1);
    expect(shown).toMatchObject({
      ask: 'How high? What is it in each?',
      scene: [],
      fields: [
        { label: 'Alder', unit: 'ft', reference: 'AAL', sense: 'at least' },
        { label: 'Birch', unit: 'ft', reference: 'AAL', sense: 'at least' },
      ],
    });
    const { rows } = told(all, offer as Offer, shown, numbers(500, 700));
    expect(rows.map(({ given, right, off }) => [given, right, off].map(plain))).toEqual([
      ['500 ft AAL', 'at least 500 ft AAL', undefined],
      ['700 ft AAL', 'at least 800 ft AAL', '100 ft below the limit, on the unsafe side'],
    ]);
    const { detail } = mark(all, offer as Offer, shown, null);
    expect(detail).toMatchObject({ why: 'Hills.', source: 'Invented manual, 2, 2' });
  });

  test('equal, within the accepted distance, from-to, or in one variant alone: not asked', () => {
    expect(differencesOf(small({ limits: [byType(500, 500)] }))).toEqual([]);
    expect(differencesOf(small({ limits: [byType(500, 520, { accept: 20 })] }))).toEqual([]);
    expect(differencesOf(small({ limits: [byType(500, 520, { accept: 19 })] }))).toHaveLength(1);
    // On the compass 360 is 0.
    expect(
      differencesOf(small({ limits: [byType(0, 360, { unit: '°', sense: 'exactly', show: 'direction' })] })),
    ).toEqual([]);
    const range = byType(1, 2, {
      sense: 'from-to',
      cases: [
        { id: 'alder', when: { type: 'a' }, from: 1, to: 2 },
        { id: 'birch', when: { type: 'b' }, from: 2, to: 3 },
      ],
    });
    expect(differencesOf(small({ limits: [range] }))).toEqual([]);
    const alone = byType(1, 2, { cases: [{ id: 'alder', when: { type: 'a' }, value: 1 }] });
    expect(differencesOf(small({ limits: [alone] }))).toEqual([]);
  });

  test('options that read alike could not be told apart', () => {
    const variants = [{ id: 'type', label: 'Type', options: { a: 'Alder', b: 'alder.' } }];
    expect(differencesOf(resolved({ variants, limits: [byType(500, 800)] }, BOTH))).toEqual([]);
  });

  test('three options: each two of them that differ', () => {
    const cases = [...((byType(500, 800) as NumberLimit).cases ?? []), { id: 'rest', value: 900 }];
    const all = small({ limits: [byType(0, 0, { cases })] }, { type: ['a', 'b', 'c'] });
    expect(differencesOf(all).map(({ about }) => about.way)).toEqual([
      'type=a|type=b',
      'type=a|type=c',
      'type=b|type=c',
    ]);
    const like = small(
      { limits: [byType(0, 0, { cases: [...cases.slice(0, 1), { id: 'rest', value: 900 }] })] },
      {
        type: ['a', 'b', 'c'],
      },
    );
    // Birch and Cedar have one answer: against Alder it is asked once.
    expect(differencesOf(like).map(({ about }) => about.way)).toEqual(['type=a|type=b']);
  });

  test('along one axis; the option of the other that decides as well is said', () => {
    const cases = [
      { id: 'an', when: { type: 'a', base: 'n' }, value: 100 },
      { id: 'bn', when: { type: 'b', base: 'n' }, value: 200 },
      { id: 'as', when: { type: 'a', base: 's' }, value: 300 },
      { id: 'bs', when: { type: 'b', base: 's' }, value: 400 },
    ];
    const all = small({ limits: [byType(0, 0, { cases })] }, { type: ['a', 'b'], base: ['n', 's'] });
    const asked = differencesOf(all);
    expect(asked.map((offer) => [axisOf(offer), drawnOf(all, offer, 1).scene])).toEqual([
      ['base', ['Alder']],
      ['type', ['North']],
      ['type', ['South']],
      ['base', ['Birch']],
    ]);
    const values = (offer: Offer) =>
      pairOf(offer).map(({ type, base }) => cases.find(({ id }) => id === `${type}${base}`)?.value ?? 0);
    for (const offer of asked) holds(all, offer, 1, values(offer) as [number, number], 999);
  });

  test('under circumstances: the same for both, and said', () => {
    const conditions = [{ id: 'wet', label: 'Wet', yes: 'Wet runway', no: 'Dry runway' }];
    const cases = [
      { id: 'a-wet', when: { type: 'a' }, given: { wet: true }, value: 10 },
      { id: 'b-wet', when: { type: 'b' }, given: { wet: true }, value: 20 },
      { id: 'a-else', when: { type: 'a' }, value: 30 },
      { id: 'b-else', when: { type: 'b' }, value: 40 },
    ];
    const all = small({ conditions, limits: [byType(0, 0, { cases })] });
    const asked = differencesOf(all);
    expect(asked.map((offer) => [offer.about.case, ...drawnOf(all, offer, 1).scene])).toEqual([
      ['a-wet', 'Wet runway'],
      ['a-else', 'None of these: Wet runway'],
    ]);
    holds(all, asked[0] as Offer, 1, [10, 20], 99);
    holds(all, asked[1] as Offer, 1, [30, 40], 99);
    // One variant knows the circumstances, the other does not: "none of these" would not be common to both.
    const other = small({ conditions, limits: [byType(0, 0, { cases: cases.filter(({ id }) => id !== 'b-wet') })] });
    expect(differencesOf(other)).toEqual([]);
  });

  test('a fact of two choices: exchanged is the only way to have both wrong', () => {
    const limit = {
      id: 'one',
      ask: 'Who says it',
      options: { x: 'The one', y: 'The other' },
      cases: [
        { id: 'alder', when: { type: 'a' }, is: 'x' },
        { id: 'birch', when: { type: 'b' }, is: 'y' },
      ],
    } as Limit;
    const all = small({ limits: [limit] });
    const offer = differencesOf(all)[0] as Offer;
    const shown = drawnOf(all, offer, 1);
    expect(shown.ask).toBe('Who says it: what holds in each?');
    expect(shown.seats.map(({ text }) => text).sort()).toEqual(['The one', 'The other']);
    expect(told(all, offer, shown, deal(shown, 'x', 'y'))).toMatchObject({ marks: ['right', 'right'], g: 1 / 2 });
    expect(told(all, offer, shown, deal(shown, 'y', 'y')).marks).toEqual(['wrong', 'right']);
    expect(told(all, offer, shown, deal(shown, 'y', 'x')).note).toBe('The two are exchanged.');
    // In words that are the same there is no difference.
    expect(differencesOf(small({ limits: [{ ...limit, options: { x: 'The one', y: 'the one.' } } as Limit] }))).toEqual(
      [],
    );
  });

  test('what the deck no longer holds, or who no longer flies both, marks nothing', () => {
    const all = small({ limits: [byType(500, 800)] });
    const offer = differencesOf(all)[0] as Offer;
    const shown = drawnOf(all, offer, 1);
    const others = [
      small({ limits: [byType(500, 800, { id: 'two' })] }),
      small({ limits: [byType(500, 500)] }),
      small({ limits: [byType(500, 800)] }, { type: ['a'] }),
      resolved({ limits: [byType(500, 800)] }),
    ];
    for (const other of others) {
      expect(mark(other, offer, shown, numbers(500, 800))).toMatchObject({ marks: {}, flawed: true });
      expect(draw(other, offer, 1)).toBeNull();
    }
    for (const way of [undefined, '', '|', 'type=a', 'type=a|type=a', 'type=a|type=b|type=c'])
      expect(
        draw(all, { ...offer, about: { thing: 'one', case: 'alder', ...(way !== undefined && { way }) } }, 1),
      ).toBeNull();
    // A field that is not there is a wrong one.
    expect(Object.values(mark(all, offer, shown, numbers(500)).marks).sort()).toEqual(['right', 'wrong']);
  });

  test('whatever the numbers: the two are asked where neither would pass for the other', () => {
    const number = fc.integer({ min: -50, max: 400 });
    fc.assert(
      fc.property(number, number, fc.integer({ min: 0, max: 30 }), fc.integer(), (a, b, accept, seed) => {
        const all = small({ limits: [byType(a, b, { accept })] });
        const asked = differencesOf(all);
        expect(asked).toHaveLength(Math.abs(a - b) > accept ? 1 : 0);
        for (const offer of asked) holds(all, offer, seed, [a, b], Math.max(a, b) + accept + 1);
      }),
      { numRuns: 80 },
    );
  });
});

describe('who does it', () => {
  const steps = (more: readonly Node[] = [], words = 'Hand off the levers'): Node[] => [
    { id: 'before', do: 'Set thrust', by: 'PF' },
    { id: 'alder', do: words, by: 'PM', when: { type: 'a' }, why: 'The left hand.' },
    { id: 'birch', do: words, by: 'PF', when: { type: 'b' } },
    ...more,
  ];

  test('a step of the same words that another does in each variant', () => {
    const all = small({ procedures: [flow(steps(), { title: 'Roll', starts: 'Rolling' })] });
    const [offer, ...more] = differencesOf(all);
    expect(more).toEqual([]);
    expect(offer).toMatchObject({ about: { thing: 'flow', situation: '', part: ['alder'], way: 'type=a|type=b' } });
    const shown = drawnOf(all, offer as Offer, 1);
    expect(shown).toMatchObject({
      ask: 'Hand off the levers: who does it in each?',
      scene: ['Roll', 'Rolling'],
      rows: [{ text: 'Alder' }, { text: 'Birch' }],
      seats: [{ id: 'PF' }, { id: 'PM' }],
    });
    expect(told(all, offer as Offer, shown, deal(shown, 'PM', 'PF'))).toMatchObject({ marks: ['right', 'right'] });
    const { marks, rows, note } = told(all, offer as Offer, shown, deal(shown, 'PF', 'PF'));
    expect(marks).toEqual(['wrong', 'right']);
    expect(rows[0]).toMatchObject({ text: 'Alder', given: 'PF', right: 'PM', why: 'The left hand.' });
    expect(note).toBeUndefined();
    expect(told(all, offer as Offer, shown, deal(shown, 'PF', 'PM'))).toMatchObject({
      marks: ['wrong', 'wrong'],
      note: 'The two are exchanged.',
    });
    expect(told(all, offer as Offer, shown, null).marks).toEqual(['told', 'told']);
  });

  test('not where the words differ, stand twice, name the seat, or the list is read', () => {
    const none = (nodes: readonly Node[], more = {}) =>
      expect(differencesOf(small({ procedures: [flow(nodes, more)] }))).toEqual([]);
    none(steps().map((one) => ('id' in one && one.id === 'birch' ? { ...one, do: 'Hands off the levers' } : one)));
    none(steps([{ id: 'again', do: 'Hand off the levers', by: 'PM' }]));
    none(steps([], 'PM: hand off the levers'));
    none(steps(), { done: 'read-and-do' });
    none(steps().map((one) => ('id' in one && one.id === 'birch' ? { ...one, by: 'PM' } : one)));
  });

  test('in words from right to left, and in forty of them', () => {
    for (const words of ['יד מן המצערות', Array(40).fill('lever').join(' ')]) {
      const all = small({ procedures: [flow(steps([], words))] });
      const offer = differencesOf(all)[0] as Offer;
      const shown = drawnOf(all, offer, 1);
      expect(shown.ask).toBe(`${words}: who does it in each?`);
      expect(told(all, offer, shown, deal(shown, 'PM', 'PF')).marks).toEqual(['right', 'right']);
    }
  });

  test('one step, no crew, one seat: nothing', () => {
    for (const nodes of [
      [{ id: 'x', do: 'Go', by: 'PF' }],
      steps().map((one) => ({ id: 'x', ...one, by: 'PF' })),
      [{ id: 'x', do: 'Go' }],
    ])
      expect(differencesOf(small({ procedures: [flow(nodes as Node[])] }))).toEqual([]);
  });
});
