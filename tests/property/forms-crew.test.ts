import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../src/forms/registry.ts';
import { type Deck, isBlock, isStep, type Node, type Step } from '../../src/model/deck.ts';
import type { CrewShown, DealtDetail, Offer } from '../../src/model/form.ts';
import type { Resolved } from '../../src/subjects/resolved.ts';
import { flow, resolved, word } from '../unit/forms/small-decks.ts';

/*
 * Who does what, over every deck that is shipped, flown in all variants. Who does a step is read here from the authored
 * deck, without the marking.
 */

const files = readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json'));
const SEEDS = [1, 2, 3];

const flownBy = (file: string): Resolved => {
  const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
  return resolve(
    deck,
    'd'.repeat(64),
    Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)])),
  );
};

const stepsBelow = (nodes: readonly Node[]): Step[] =>
  nodes.flatMap((node) => {
    if (isStep(node)) return [node];
    return isBlock(node) ? (node.lanes ?? [node.steps ?? []]).flatMap(stepsBelow) : [];
  });
const authored = ({ deck }: Resolved): Map<string, Step> =>
  new Map((deck.procedures ?? []).flatMap(({ steps }) => stepsBelow(steps)).map((step) => [step.id, step]));
const labelOf = ({ deck }: Resolved, seat: string): string =>
  deck.crew?.find(({ id }) => id === seat)?.label ?? (seat === 'both' ? 'Both' : seat === 'either' ? 'Either' : seat);

const crewOf = (all: Resolved): Offer[] => offers(all, null, 1).filter(({ form }) => form === 'crew');
const drawnOf = (all: Resolved, offer: Offer, seed: number): CrewShown => {
  const shown = draw(all, offer, seed);
  if (shown?.form !== 'crew') throw new Error(`nothing drawn: ${JSON.stringify(offer.about)}`);
  return shown;
};
const marksByStep = (marks: Readonly<Record<string, string>>): Record<string, string> =>
  Object.fromEntries(Object.entries(marks).map(([key, m]) => [/#([^.]+)\.crew~/.exec(key)?.[1] ?? key, m]));

/** The question is sound, its right answer is right, and each row given to each other seat is found, and it alone. */
const holds = (all: Resolved, offer: Offer, seed: number): void => {
  const where = `${JSON.stringify(offer.about)} ${offer.variant} seed ${seed}`;
  const by = authored(all);
  const shown = drawnOf(all, offer, seed);
  const ids = shown.rows.map(({ id }) => id);
  expect(ids, where).toEqual(offer.about.part);
  expect(ids.length, where).toBe(offer.rows);
  const right = Object.fromEntries(ids.map((id) => [id, by.get(id)?.by ?? '']));
  expect(new Set(Object.values(right)).size, where).toBeGreaterThan(1);
  const seats = shown.seats.map(({ id }) => id);
  expect([...seats].sort(), where).toEqual([...new Set([...by.values()].flatMap((step) => step.by ?? []))].sort());
  expect(
    shown.seats.map(({ text }) => text),
    where,
  ).toEqual(seats.map((id) => labelOf(all, id)));
  for (const { id, text } of shown.rows) {
    const words = text.toLowerCase().split(/[^\p{L}\p{N}]+/u);
    expect(words, where).not.toContain(labelOf(all, right[id] ?? '').toLowerCase());
    expect(text, where).not.toMatch(/\{/);
  }
  // One who reads alike and is done by another would have two answers.
  for (const a of shown.rows)
    for (const b of shown.rows) if (a.text === b.text) expect(right[a.id], where).toBe(right[b.id]);

  const chance = 1 / seats.length;
  expect(offer.g, where).toBeCloseTo(chance, 12);
  const told = mark(all, offer, shown, null);
  expect(new Set(Object.values(told.marks)), where).toEqual(new Set(['told']));
  expect(Object.keys(told.marks).sort(), where).toEqual([...offer.proves].sort());

  const marked = mark(all, offer, shown, { deal: right });
  expect(marksByStep(marked.marks), where).toEqual(Object.fromEntries(ids.map((id) => [id, 'right'])));
  expect(marked, where).toMatchObject({ flawed: false });
  expect(marked.g, where).toBeCloseTo(chance ** ids.length, 12);

  for (const id of ids)
    for (const seat of seats.filter((one) => one !== right[id])) {
      const given = { deal: { ...right, [id]: seat } };
      const wrong = mark(all, offer, shown, given);
      expect(marksByStep(wrong.marks), where).toEqual(
        Object.fromEntries(ids.map((one) => [one, one === id ? 'wrong' : 'right'])),
      );
      expect(wrong.flawed, where).toBe(true);
      expect(wrong.g, where).toBeCloseTo(chance, 12);
      const { rows } = wrong.detail as DealtDetail;
      expect(
        rows.filter(({ isRight }) => !isRight),
        where,
      ).toMatchObject([{ id, given: labelOf(all, seat), right: labelOf(all, right[id] ?? '') }]);
      const { form, about, variant } = offer;
      const kept = JSON.parse(JSON.stringify({ form, about, variant, shown, given }));
      expect(mark(all, { ...kept, proves: [] }, kept.shown, kept.given), where).toEqual(wrong);
    }
};

describe.each(files)('%s', (file) => {
  const all = flownBy(file);

  test('every question is sound, every wrong row is found, nothing else is accused', () => {
    for (const offer of crewOf(all)) for (const seed of SEEDS) holds(all, offer, seed);
  });

  test('rows are neighbours in a procedure that is done from memory or as a flow, in its order', () => {
    for (const { about, variant, behind = [], proves } of crewOf(all)) {
      const p = all.views
        .find(({ id }) => id === variant)
        ?.procedures.find(({ procedure }) => procedure.id === about.thing);
      expect(['memory', 'flow']).toContain(p?.done);
      const steps = p?.situations.find(({ id }) => id === about.situation)?.steps ?? [];
      const places = (about.part ?? []).map((id) => steps.findIndex(({ step }) => step.id === id));
      expect(places).toEqual([...places].sort((a, b) => a - b));
      expect((places.at(-1) ?? 99) - (places[0] ?? 0)).toBeLessThan(7);
      expect(behind).toEqual(places.flatMap((i) => steps[i]?.place ?? []));
      expect(proves).toEqual(places.flatMap((i) => steps[i]?.crew ?? []));
    }
  });
});

test('in the demonstration decks everyone of a memory or flow procedure is asked, but where the words say who it is', () => {
  for (const file of ['merrow-takeoff.deck.json', 'merrow-abnormal.deck.json']) {
    const all = flownBy(file);
    const asked = new Set(crewOf(all).flatMap(({ about }) => about.part ?? []));
    const drilled = (all.deck.procedures ?? [])
      .filter(({ done }) => done === 'memory' || done === 'flow')
      .flatMap(({ steps }) => stepsBelow(steps))
      .filter((step) => step.by !== undefined);
    // "Cabin secured" is said by the cabin crew.
    const open = drilled.filter(({ id }) => !asked.has(id)).map(({ id }) => id);
    expect(open, file).toEqual(file === 'merrow-takeoff.deck.json' ? ['lu-cabin'] : []);
  }
});

describe('small decks', () => {
  const dealt = (by: readonly (string | undefined)[], text = word): Node[] =>
    by.map((one, i) => ({ id: `s${i}`, do: text(i), ...(one !== undefined && { by: one }) }));
  const partsOf = (all: Resolved) => crewOf(all).map(({ about }) => about.part);

  test('no crew, one seat, one step: nothing is asked', () => {
    expect(partsOf(resolved({ procedures: [flow(6)] }))).toEqual([]);
    expect(partsOf(resolved({ procedures: [flow(dealt(['PF', 'PF', 'PF']))] }))).toEqual([]);
    expect(partsOf(resolved({ procedures: [flow(dealt(['PF']))] }))).toEqual([]);
    expect(
      partsOf(resolved({ procedures: [flow(dealt(['PF', undefined])), flow(dealt(['PM']), { id: 'b' })] })),
    ).toEqual([]);
    expect(partsOf(resolved({}))).toEqual([]);
  });

  test('steps without crew are left out, and those before the first row are its context', () => {
    const all = resolved({ procedures: [flow(dealt([undefined, undefined, undefined, 'PF', undefined, 'PM']))] });
    const [offer, ...more] = crewOf(all);
    expect(more).toEqual([]);
    expect(offer?.about.part).toEqual(['s3', 's5']);
    expect(drawnOf(all, offer as Offer, 1).before).toEqual([word(1), word(2)]);
    holds(all, offer as Offer, 1);
  });

  test('a step that its window leaves to one seat stands beside the nearest one of another', () => {
    const all = resolved({ procedures: [flow(dealt([...Array(9).fill('PF'), 'PM']))] });
    const parts = partsOf(all);
    expect(new Set(parts.flat())).toEqual(new Set(['s3', 's4', 's5', 's6', 's7', 's8', 's9']));
    for (const part of parts) expect(part).toContain('s9');
    for (const offer of crewOf(all)) holds(all, offer, 1);
  });

  test('each part of a first run is dealt by itself, too: one place not known yet keeps no other part back', () => {
    const all = resolved({ procedures: [flow(dealt([...Array(8).keys()].map((i) => (i % 2 === 0 ? 'PF' : 'PM'))))] });
    const first = offers(all, null, 1).filter(({ form, needs }) => form === 'run' && needs === 'read');
    expect(first.length).toBeGreaterThan(1);
    expect(partsOf(all)).toEqual(expect.arrayContaining(first.map(({ about }) => about.part)));
    for (const offer of crewOf(all)) holds(all, offer, 1);
  });

  test('words that name the seat leave the row out; a part of a word names nobody', () => {
    const words = ['PM: set it', 'Watch the RPM', 'Lamp on', 'The Captain, too', 'Call the PM'];
    const all = resolved({
      crew: [{ id: 'cap', label: 'Captain' }],
      procedures: [flow(dealt(['PM', 'PM', 'PF', 'cap', 'PF'], (i) => words[i] ?? ''))],
    });
    expect(partsOf(all)).toEqual([['s1', 's2', 's4']]);
    for (const offer of crewOf(all)) holds(all, offer, 1);
  });

  test('two steps of the same words by two seats are not asked, by one they are', () => {
    const same = (i: number) => (i < 2 ? 'Check' : word(i));
    expect(partsOf(resolved({ procedures: [flow(dealt(['PF', 'PM', 'PF', 'PM'], same))] }))).toEqual([['s2', 's3']]);
    const all = resolved({ procedures: [flow(dealt(['PF', 'PF', 'PF', 'PM'], same))] });
    expect(partsOf(all)).toEqual([['s0', 's1', 's2', 's3']]);
    holds(all, crewOf(all)[0] as Offer, 1);
  });

  test('two seats that read alike, or one without a word: nothing is asked', () => {
    const steps = dealt(['a', 'b', 'PF']);
    const crew = (label: string) => [
      { id: 'a', label: 'Captain' },
      { id: 'b', label },
    ];
    for (const label of ['captain ', '…'])
      expect(partsOf(resolved({ crew: crew(label), procedures: [flow(steps)] }))).toEqual([]);
    expect(partsOf(resolved({ crew: crew('Purser'), procedures: [flow(steps)] }))).toEqual([['s0', 's1', 's2']]);
  });

  test('forty words, and words from right to left', () => {
    const long = (i: number) => Array(40).fill(word(i)).join(' ');
    const hebrew = (i: number) => `${['הדק', 'שסתום', 'משאבה', 'נורה'][i]} פתוח`;
    for (const text of [long, hebrew]) {
      const all = resolved({ procedures: [flow(dealt(['PF', 'PM', 'both', 'PM'], text))] });
      expect(partsOf(all)).toEqual([['s0', 's1', 's2', 's3']]);
      holds(all, crewOf(all)[0] as Offer, 1);
    }
  });

  test('lists that are read are asked otherwise; a seat that the deck does not have is none', () => {
    for (const done of ['read-and-do', 'challenge-response'] as const)
      expect(partsOf(resolved({ procedures: [flow(dealt(['PF', 'PM', 'PF']), { done })] }))).toEqual([]);
    expect(partsOf(resolved({ procedures: [flow(dealt(['PF', 'nobody', 'PM']))] }))).toEqual([['s0', 's2']]);
  });

  test('a learner who leaves the crew out is not asked, and a former answer marks nothing', () => {
    const procedures = [flow(dealt(['PF', 'PM', 'PF']))];
    const all = resolved({ procedures });
    const offer = crewOf(all)[0] as Offer;
    const shown = drawnOf(all, offer, 1);
    const without = resolved({ procedures }, { '-': ['crew'] });
    expect(crewOf(without)).toEqual([]);
    expect(mark(without, offer, shown, { deal: { s0: 'PF' } }).marks).toEqual({});
  });

  test('what the deck no longer holds marks nothing; a row that was not dealt is wrong', () => {
    const all = resolved({ procedures: [flow(dealt(['PF', 'PM', 'PF']))] });
    const offer = crewOf(all)[0] as Offer;
    const shown = drawnOf(all, offer, 1);
    for (const other of [flow(4, { id: 'other' }), flow(2)]) {
      const gone = resolved({ procedures: [other] });
      expect(mark(gone, offer, shown, { deal: { s0: 'PF' } })).toMatchObject({ marks: {}, flawed: true });
      expect(draw(gone, offer, 1)).toBeNull();
    }
    // Another deck's steps may have come to be done by one.
    expect(draw(resolved({ procedures: [flow(dealt(['PF', 'PF', 'PF']))] }), offer, 1)).toBeNull();
    expect(marksByStep(mark(all, offer, shown, { deal: { s0: 'PF', s1: 'PM' } }).marks)).toEqual({
      s0: 'right',
      s1: 'right',
      s2: 'wrong',
    });
  });

  test('who did it by an older revision is told so', () => {
    const old = resolved({ procedures: [flow(dealt(['PM', 'PM', 'PF']))] });
    const now = resolved({ version: '2.0.0', procedures: [flow(dealt(['PF', 'PM', 'PF']))] });
    // 31 December 2026.
    const all: Resolved = {
      ...now,
      others: [{ deck: old.deck, resolved: () => old, when: 'past', day: 20818, next: now.deck }],
    };
    const offer = crewOf(all)[0] as Offer;
    const shown = drawnOf(all, offer, 1);
    const notes = (deal: Record<string, string>) =>
      (mark(all, offer, shown, { deal }).detail as DealtDetail).rows.flatMap((row) => row.notes ?? []);
    expect(notes({ s0: 'PM', s1: 'PF', s2: 'PF' })).toEqual(['That was right until 31 December 2026.']);
  });
});

test('any deal of any length: sound, and each planted fault is found', () => {
  const steps = fc.array(fc.constantFrom('PF', 'PM', 'both', undefined), { minLength: 0, maxLength: 20 });
  fc.assert(
    fc.property(steps, fc.integer(), (by, seed) => {
      const all = resolved({
        procedures: [flow(by.map((one, i) => ({ id: `s${i}`, do: word(i), ...(one !== undefined && { by: one }) })))],
      });
      const asked = crewOf(all);
      for (const offer of asked) holds(all, offer, seed);
      // Whoever stands within seven steps of another seat is asked.
      const near = by.flatMap((one, i) =>
        one !== undefined && by.some((two, j) => two !== undefined && two !== one && Math.abs(i - j) < 7)
          ? [`s${i}`]
          : [],
      );
      expect(new Set(asked.flatMap(({ about }) => about.part ?? []))).toEqual(new Set(near));
    }),
    { numRuns: 60 },
  );
});
