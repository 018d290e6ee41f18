import { describe, expect, test } from 'vitest';
import { calloutForm } from '../../src/forms/callout/form.ts';
import { draw, mark } from '../../src/forms/registry.ts';
import { areAlike } from '../../src/forms/words/match.ts';
import type { Step } from '../../src/model/deck.ts';
import type { CalloutShown, Offer, WordsGiven } from '../../src/model/form.ts';
import type { Resolved } from '../../src/subjects/resolved.ts';
import { LEFT_OUT } from '../../src/subjects/resolved.ts';
import { flow, resolved } from '../unit/forms/small-decks.ts';
import { files, flownBy, letters, marked, offersBy, procedureOf, SEEDS, toldAll, wordsDetail } from './words-decks.ts';

/*
 * What is said, over every deck that is shipped, flown in all variants. What is right is worked out from the authored
 * steps, without the marking.
 */

const offersOf = (all: Resolved) => offersBy(calloutForm as never, all);

const stepOf = (all: Resolved, offer: Offer): Step => {
  const steps = procedureOf(all, offer).situations.flatMap(({ steps: list }) => list);
  return steps.find(({ step }) => step.id === offer.about.part?.[0])?.step as Step;
};

const eachDrawn = (all: Resolved, check: (offer: Offer, shown: CalloutShown, where: string) => void): number => {
  let count = 0;
  for (const offer of offersOf(all))
    for (const seed of SEEDS) {
      const where = `${JSON.stringify(offer.about)} ${offer.variant} seed ${seed}`;
      const shown = draw(all, offer, seed) as CalloutShown | null;
      if (shown === null) continue;
      count += 1;
      toldAll(all, offer, shown, where);
      check(offer, shown, where);
    }
  return count;
};

const SINGLE = (by: string | undefined) => by !== undefined && by !== 'both' && by !== 'either';

describe.each(files)('%s', (file) => {
  const all = flownBy(file);

  test('typed: the authored words from the authored seat are right, from another seat wrong', () => {
    eachDrawn(all, (offer, shown, where) => {
      const { say = '', by, alsoSay = [] } = stepOf(all, offer);
      if (offer.about.way !== 'typed') return;
      expect(shown.choices, where).toEqual([]);
      const seat = shown.seats.length > 0 ? { by: by as string } : {};
      for (const said of [say, ...alsoSay].map((text) => text.toUpperCase())) {
        if (said.includes('{')) continue;
        const right = marked(all, offer, shown, { said, ...seat }, where);
        expect(Object.values(right.marks), `${where}: ${said}`).toEqual(['right']);
        expect(right.flawed).toBe(false);
        for (const { id } of shown.seats)
          if (id !== by)
            expect(Object.values(marked(all, offer, shown, { said, by: id }, where).marks), where).toEqual(['wrong']);
      }
      const wrong = marked(all, offer, shown, { said: `${say} now`, ...seat }, where);
      expect(Object.values(wrong.marks), where).toEqual(['wrong']);
      expect(wordsDetail(wrong).note, where).toContain('now');
      expect(wordsDetail(wrong).seat?.isRight ?? true, where).toBe(true);
      const none = marked(all, offer, shown, { said: 'xyzzy', ...seat }, where);
      expect(Object.values(none.marks), where).toEqual(['wrong']);
      expect(letters(wordsDetail(none).right.text), where).toBe(letters(say));
    });
  });

  test('picked: exactly one choice is right, and no two are taken for one another', () => {
    eachDrawn(all, (offer, shown, where) => {
      if (offer.about.way !== 'picked') return;
      const { id: asked, say = '', by, alsoSay = [] } = stepOf(all, offer);
      const seat = shown.seats.length > 0 ? { by: by as string } : {};
      expect(shown.choices.length, where).toBeGreaterThanOrEqual(3);
      expect(shown.choices.length, where).toBeLessThanOrEqual(5);
      const right = shown.choices.filter(({ id }) => id === asked);
      expect(
        right.map(({ text }) => text),
        where,
      ).toEqual([say]);
      shown.choices.forEach(({ id, text }, i) => {
        const given: WordsGiven = { choice: id, ...seat };
        expect(Object.values(marked(all, offer, shown, given, where).marks), where).toEqual([
          id === asked ? 'right' : 'wrong',
        ]);
        if (id !== asked) for (const one of alsoSay) expect(letters(text), where).not.toBe(letters(one));
        for (const other of shown.choices.slice(0, i)) expect(areAlike(text, other.text), where).toBe(false);
      });
    });
  });

  test('nothing shown says the words; seats are asked only of one of several', () => {
    eachDrawn(all, (offer, shown, where) => {
      const { say = '', by } = stepOf(all, offer);
      expect(shown.before.length, where).toBeLessThanOrEqual(2);
      const words = ` ${say
        .toLowerCase()
        .replaceAll(/[^a-z0-9]+/g, ' ')
        .trim()} `;
      for (const text of shown.before)
        expect(` ${text.toLowerCase().replaceAll(/[^a-z0-9]+/g, ' ')} `, where).not.toContain(words);
      expect(letters(shown.cue), where).not.toBe(letters(say));
      expect(shown.cue === '' && shown.before.length === 0, where).toBe(false);
      expect([shown.ask, shown.cue, ...shown.scene, ...shown.before].join(' '), where).not.toContain('{');
      if (!SINGLE(by)) expect(shown.seats, where).toEqual([]);
      if (shown.seats.length > 0) {
        expect(shown.seats.length, where).toBeGreaterThanOrEqual(2);
        expect(
          shown.seats.map(({ id }) => id),
          where,
        ).toContain(by);
        expect(
          shown.seats.every(({ id }) => SINGLE(id)),
          where,
        ).toBe(true);
      }
      expect(['memory', 'flow'], where).toContain(procedureOf(all, offer).done);
    });
  });
});

test('the demonstration decks have many, most of them in both ways', () => {
  const offers = files.flatMap((file) => offersOf(flownBy(file)));
  const typed = offers.filter(({ about }) => about.way === 'typed').length;
  const picked = offers.filter(({ about }) => about.way === 'picked').length;
  expect(typed).toBeGreaterThan(30);
  expect(picked).toBeGreaterThan(30);
  expect(offers.filter(({ needs }) => needs === 'read').length).toBe(picked);
});

describe('odd decks', () => {
  const sound = (all: Resolved): Offer[] => {
    for (const offer of offersOf(all))
      for (const seed of SEEDS) {
        const shown = draw(all, offer, seed) as CalloutShown | null;
        if (shown === null) continue;
        const { say = '', by } = stepOf(all, offer);
        const who = shown.seats.length > 0 ? { by: by as string } : {};
        const given: WordsGiven =
          shown.choices.length > 0 ? { choice: offer.about.part?.[0] ?? '', ...who } : { said: say, ...who };
        expect(Object.values(marked(all, offer, shown, given, say).marks), say).toEqual(['right']);
      }
    return offersOf(all);
  };
  const said = (...steps: readonly Partial<Step>[]) =>
    resolved({ procedures: [flow(steps.map((step, i) => ({ id: `s${i}`, ...step })))] });
  const cue = (i: number) => ({ cue: { text: `Lamp ${'abcdefgh'[i]} comes on` } });

  test('no callouts, one step, no crew', () => {
    expect(sound(resolved({ procedures: [flow(5)] }))).toEqual([]);
    expect(sound(said({ say: 'Check' }))).toEqual([]);
    const one = sound(said({ say: 'Check', ...cue(0) }));
    expect(one.map(({ about }) => about.way)).toEqual(['typed']);
    expect(one[0]?.behind).toBeUndefined();
  });

  test('callouts of forty words, in scripts from right to left, of signs alone', () => {
    const forty = [...Array(40).keys()].map((i) => `word${i}`).join(' ');
    const all = said(
      ...[forty, `${forty} more`, 'ירוק שלוש', 'ضغط منخفض', 'अवतरण दो', '!!', '離陸 推力'].map((say, i) => ({
        say,
        ...cue(i),
      })),
    );
    expect(sound(all).length).toBeGreaterThan(8);
  });

  test('two that are said at one cue are not asked by it', () => {
    const all = said({ do: 'Watch' }, { say: 'Alpha', ...cue(0) }, { say: 'Bravo', ...cue(0) });
    for (const offer of sound(all)) expect((draw(all, offer, 1) as CalloutShown).ask).toContain('next');
    const lanes = resolved({
      procedures: [
        flow([
          {
            lanes: [
              [
                { id: 'a', do: 'Watch' },
                { id: 'b', say: 'Alpha' },
              ],
              [
                { id: 'c', do: 'Look' },
                { id: 'd', say: 'Bravo' },
              ],
            ],
          },
        ]),
      ],
    });
    // Either may be said next.
    expect(sound(lanes)).toEqual([]);
  });

  test('what its cue says is asked without it', () => {
    const all = said({ do: 'Watch' }, { say: 'Lamp a comes on', ...cue(0) }, { say: 'Bravo', ...cue(1) });
    const [first] = sound(all).filter(({ about }) => about.part?.[0] === 's1');
    const shown = draw(all, first as Offer, 1) as CalloutShown;
    expect(shown.cue).toBe('');
    expect(shown.before).toEqual(['Watch']);
  });

  test('seats: PF and PM where one of them says anything; none for both, or where who is left out', () => {
    const steps = [
      { say: 'Alpha', by: 'PM', ...cue(0) },
      { say: 'Bravo', by: 'both', ...cue(1) },
    ];
    const seats = (all: Resolved) =>
      offersOf(all).map((offer) => (draw(all, offer, 1) as CalloutShown).seats.map(({ id }) => id));
    expect(seats(said(...steps))).toEqual([['PF', 'PM'], []]);
    const procedures = [flow(steps.map((step, i) => ({ id: `s${i}`, ...step })))];
    expect(seats(resolved({ procedures }, { [LEFT_OUT]: ['crew'] }))).toEqual([[], []]);
    expect(seats(resolved({ procedures }, { [LEFT_OUT]: ['words'] }))).toEqual([]);
  });

  test('what the deck no longer holds marks nothing', () => {
    const all = said({ say: 'Alpha', ...cue(0) }, { do: 'Watch' });
    const [offer] = offersOf(all) as [Offer];
    const shown = draw(all, offer, 1) as CalloutShown;
    expect(mark(resolved({ procedures: [flow(3)] }), offer, shown, { said: 'Alpha' }).marks).toEqual({});
    const gone = resolved({ procedures: [flow(3, { id: 'other' })] });
    expect(mark(gone, offer, shown, null).marks).toEqual({});
  });
});
