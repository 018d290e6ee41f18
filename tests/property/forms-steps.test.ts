import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../src/forms/registry.ts';
import { isSaidIn } from '../../src/forms/words/match.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { BeforeShown, CueShown, Given, Offer, Shown } from '../../src/model/form.ts';
import type { Resolved, RunStep, Situation } from '../../src/subjects/resolved.ts';
import { flow, resolved, word } from '../unit/forms/small-decks.ts';

/*
 * What must be done before, and cues, over every deck that is shipped, flown in all variants. Which answers are right is
 * worked out here from the authored deck, without the marking.
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

const situationOf = (all: Resolved, { about, variant }: Offer): Situation =>
  all.views
    .find(({ id }) => id === variant)
    ?.procedures.find(({ procedure }) => procedure.id === about.thing)
    ?.situations.find(({ id }) => id === about.situation) as Situation;

/** Is a choice right, by the order itself? */
const isBefore = (all: Resolved, offer: Offer, choice: string): boolean => {
  const { steps, order } = situationOf(all, offer);
  const at = (id: string | undefined) => steps.findIndex(({ step }) => step.id === id);
  return at(choice) >= 0 && order.before[at(choice)]?.[at(offer.about.part?.[0])] === true;
};

const eachDrawn = (
  all: Resolved,
  form: Offer['form'],
  check: (offer: Offer, shown: Shown, where: string) => void,
): number => {
  let count = 0;
  for (const offer of offers(all, null, 1).filter((one) => one.form === form)) {
    for (const seed of SEEDS) {
      const where = `${JSON.stringify(offer.about)} ${offer.variant} seed ${seed}`;
      const shown = draw(all, offer, seed);
      if (shown === null) continue;
      count += 1;
      check(offer, shown, where);
      const told = mark(all, offer, shown, null);
      expect(new Set(Object.values(told.marks)), where).toEqual(new Set(['told']));
      expect(Object.keys(told.marks).sort(), where).toEqual([...offer.proves].sort());
    }
  }
  return count;
};

/** Marks as it should, and the same from the log. */
const holds = (all: Resolved, offer: Offer, shown: Shown, given: Given, isRight: boolean, where: string): void => {
  const marked = mark(all, offer, shown, given);
  expect(Object.values(marked.marks), where).toEqual([isRight ? 'right' : 'wrong']);
  expect(marked.flawed, where).toBe(!isRight);
  const { form, about, variant } = offer;
  const kept = JSON.parse(JSON.stringify({ form, about, variant, shown, given }));
  expect(mark(all, { ...kept, proves: [] }, kept.shown, kept.given), where).toEqual(marked);
};

describe.each(files)('%s', (file) => {
  const all = flownBy(file);

  test('of what must be done before exactly one is shown, and every other choice is wrong', () => {
    eachDrawn(all, 'before', (offer, shown, where) => {
      const { choices } = shown as BeforeShown;
      const right = choices.filter(({ id }) => isBefore(all, offer, id));
      expect(right, where).toHaveLength(1);
      expect(choices.length, where).toBe(offer.rows);
      expect(new Set(choices.map(({ text }) => text)).size, where).toBe(choices.length);
      for (const { id } of choices) holds(all, offer, shown, { choice: id }, right[0]?.id === id, where);
    });
  });

  test('of cues exactly one is the right one, and no two read alike', () => {
    eachDrawn(all, 'cue', (offer, shown, where) => {
      const { choices } = shown as CueShown;
      const asked = offer.about.part?.[0];
      expect(
        choices.filter(({ id }) => id === asked),
        where,
      ).toHaveLength(1);
      expect(new Set(choices.map(({ text }) => text)).size, where).toBe(choices.length);
      expect(
        choices.every(({ text }) => text !== '' && !text.includes('{')),
        where,
      ).toBe(true);
      for (const { id } of choices) holds(all, offer, shown, { choice: id }, id === asked, where);
      // Another step with the very same cue would be right as well.
      const cues = new Map<string, string>();
      for (const { procedures } of all.views)
        for (const { step } of procedures.flatMap(({ situations }) => situations.flatMap(({ steps }) => steps)))
          cues.set(step.id, JSON.stringify(step.cue));
      for (const { id } of choices) if (id !== asked) expect(cues.get(id), where).not.toBe(cues.get(asked ?? ''));
    });
  });

  test('no cue says the callout that is asked by it, and no callout the cue: such a one is asked by the call before it', () => {
    eachDrawn(all, 'cue', (offer, shown, where) => {
      const { way, about, choices } = shown as CueShown;
      const step = situationOf(all, offer).steps.find(({ step: { id } }) => id === offer.about.part?.[0])?.step;
      // One word somewhere in a sentence says nothing: "a reason to stop is recognised".
      if (step?.say === undefined || step.say === 'Stop') return;
      const right = choices.find(({ id }) => id === step.id)?.text ?? '';
      if (way === 'calls') expect(isSaidIn(step.say, about), where).toBe(false);
      else if (isSaidIn(step.say, right))
        expect(about, where).toMatch(/^The (?:first|only) callout in this procedure$|^The callout after “/);
    });
  });

  test('nothing of a list that is read out loud is asked so', () => {
    for (const { about, form, variant } of offers(all, null, 1)) {
      if (form !== 'before' && form !== 'cue') continue;
      const p = all.views
        .find(({ id }) => id === variant)
        ?.procedures.find(({ procedure }) => procedure.id === about.thing);
      expect(['memory', 'flow']).toContain(p?.done);
    }
  });
});

test('the calls that their own cue says are asked by the call before them, and every cue is asked', () => {
  const all = flownBy('merrow-takeoff.deck.json');
  const told = new Map<string, Set<string>>();
  eachDrawn(all, 'cue', (offer, shown) => {
    const { way, about } = shown as CueShown;
    const [id = ''] = offer.about.part ?? [];
    told.set(id, (told.get(id) ?? new Set()).add(`${way}: ${about}`));
  });
  expect([...(told.get('ro-speed') ?? [])]).toEqual(['trigger: The first callout in this procedure']);
  expect([...(told.get('ro-v1') ?? [])]).toEqual(['trigger: The callout after “Checked”']);
  expect([...(told.get('ro-rotate') ?? [])]).toContain('trigger: “Rotate”');
  const proved = new Set(offers(all, null, 1).flatMap(({ form, proves }) => (form === 'cue' ? proves : [])));
  const cues = all.views.flatMap(({ procedures }) =>
    procedures.flatMap(({ situations }) => situations.flatMap(({ steps }) => steps.flatMap(({ cue }) => cue ?? []))),
  );
  expect(cues.length).toBeGreaterThan(30);
  expect(cues.filter((key) => !proved.has(key))).toEqual([]);
});

test('a cue among others says its words, not the number of a limit that is asked elsewhere', () => {
  const all = flownBy('merrow-takeoff.deck.json');
  const said = new Set<string>();
  eachDrawn(all, 'cue', (_, shown) => {
    const { way, choices } = shown as CueShown;
    if (way === 'trigger') for (const { text } of choices) said.add(text);
  });
  expect(said).toContain('Speed rising');
  expect([...said].filter((text) => /^Speed rising.+/.test(text))).toEqual([]);
  // A limit alone is the cue.
  expect([...said].some((text) => /\d\skt/.test(text))).toBe(true);
});

test('the take-off deck has many of both', () => {
  const all = flownBy('merrow-takeoff.deck.json');
  expect(eachDrawn(all, 'before', () => undefined)).toBeGreaterThan(100);
  expect(eachDrawn(all, 'cue', () => undefined)).toBeGreaterThan(100);
});

describe('a callout that its cue says', () => {
  const lamps = [...Array(5).keys()].map((i) => ({ id: `l${i}`, do: word(i), cue: { text: `Lamp ${word(i + 9)}` } }));
  const asked = (nodes: Parameters<typeof flow>[0]) => {
    const all = resolved({ procedures: [flow(nodes)] });
    return offers(all, null, 1)
      .filter(({ form, about }) => form === 'cue' && about.part?.[0] === 'say')
      .map((offer) => draw(all, offer, 1) as CueShown);
  };
  const say = { id: 'say', say: 'Flaps ten', cue: { text: 'Flaps 10 shown' } };

  test('alone in its procedure, and among others', () => {
    expect(asked([...lamps, say]).map(({ about }) => about)).toEqual(['The only callout in this procedure']);
    const more = [{ id: 'm', say: 'Ready' }, ...lamps, say, { id: 'n', say: 'Done' }];
    expect(asked(more).map(({ about }) => about)).toEqual(['The callout after “Ready”']);
  });

  test('beside another one, which may come first or later: by its words, since nothing else names it', () => {
    const [shown, ...rest] = asked([...lamps, { lanes: [[say], [{ id: 'other', say: 'Ready' }]] }]);
    expect(rest).toEqual([]);
    expect(shown).toMatchObject({ way: 'trigger', about: '“Flaps ten”' });
  });

  test('another cue asks both ways', () => {
    const ways = asked([...lamps, { ...say, cue: { text: 'Lever in its gate' } }]).map(({ way }) => way);
    expect(ways).toEqual(['trigger', 'calls']);
  });
});

describe('too little to ask', () => {
  const count = (all: Resolved, form: Offer['form']) => offers(all, null, 1).filter((one) => one.form === form).length;

  test('one step, two steps, no cue', () => {
    for (const n of [1, 2]) {
      const all = resolved({ procedures: [flow(n)] });
      expect(count(all, 'before')).toBe(0);
      expect(count(all, 'cue')).toBe(0);
    }
  });

  test('one cue among steps without any', () => {
    const steps = [...Array(8).keys()].map((i) => ({
      id: `s${i}`,
      do: word(i),
      ...(i === 3 && { cue: { text: 'Both steady' } }),
    }));
    expect(count(resolved({ procedures: [flow(steps)] }), 'cue')).toBe(0);
  });

  test('the first step must have nothing done before it; the last ones have too little after them', () => {
    const all = resolved({ procedures: [flow(9)] });
    const asked = offers(all, null, 1).flatMap(({ form, about }) => (form === 'before' ? (about.part ?? []) : []));
    expect(asked).toEqual(['s1', 's2', 's3', 's4', 's5']);
  });

  test('steps beside one another are neither right nor shown', () => {
    const lane = (name: string) =>
      [...Array(5).keys()].map((i): RunStep['step'] => ({
        id: `${name}${i}`,
        do: `${word(i + (name === 'a' ? 0 : 9))}`,
      }));
    const all = resolved({ procedures: [flow([{ lanes: [lane('a'), lane('b')] }])] });
    const found = offers(all, null, 1).filter(({ form }) => form === 'before');
    expect(found.length).toBeGreaterThan(0);
    for (const offer of found)
      for (const seed of SEEDS) {
        const shown = draw(all, offer, seed) as BeforeShown;
        const own = offer.about.part?.[0]?.[0];
        expect(shown.choices.every(({ id }) => id[0] === own)).toBe(true);
      }
  });

  test('what the deck no longer holds marks nothing', () => {
    const all = resolved({ procedures: [flow(9)] });
    const offer = offers(all, null, 1).find(({ form }) => form === 'before') as Offer;
    const shown = draw(all, offer, 1) as Shown;
    const other = resolved({ procedures: [flow(9, { id: 'other' })] });
    expect(mark(other, offer, shown, { choice: 's0' }).marks).toEqual({});
    expect(mark(all, { ...offer, form: 'before' }, shown, { choice: 'nobody' }).flawed).toBe(true);
  });
});
