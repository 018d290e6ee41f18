import { describe, expect, test } from 'vitest';
import { compareDecks } from '../../src/deck/compare/compare.ts';
import { listForm } from '../../src/forms/list/form.ts';
import { draw, mark } from '../../src/forms/registry.ts';
import { areAlike } from '../../src/forms/words/match.ts';
import type { Procedure, Step } from '../../src/model/deck.ts';
import type { ListShown, Offer, WordsGiven } from '../../src/model/form.ts';
import { parseItemKey } from '../../src/model/item.ts';
import type { Resolved } from '../../src/subjects/resolved.ts';
import { LEFT_OUT } from '../../src/subjects/resolved.ts';
import { flow, resolved } from '../unit/forms/small-decks.ts';
import { files, flownBy, letters, marked, offersBy, procedureOf, SEEDS, toldAll, wordsDetail } from './words-decks.ts';

/*
 * Lists that are read, over every deck that is shipped, flown in all variants. What is right is worked out from the
 * authored procedures, without the marking.
 */

const offersOf = (all: Resolved) => offersBy(listForm as never, all);

const eachDrawn = (all: Resolved, check: (offer: Offer, shown: ListShown, where: string) => void): void => {
  for (const offer of offersOf(all))
    for (const seed of SEEDS) {
      const where = `${JSON.stringify(offer.about)} ${offer.variant} seed ${seed}`;
      const shown = draw(all, offer, seed) as ListShown | null;
      if (shown === null) continue;
      toldAll(all, offer, shown, where);
      check(offer, shown, where);
    }
};

const stepOf = (all: Resolved, offer: Offer): Step | undefined =>
  procedureOf(all, offer)
    .situations.flatMap(({ steps }) => steps)
    .find(({ step }) => step.id === offer.about.part?.[0])?.step;

/** Of what is asked the right words, the choice with them, and who says them. */
const rightOf = (all: Resolved, offer: Offer) => {
  const { procedure } = procedureOf(all, offer);
  const step = stepOf(all, offer);
  return step === undefined
    ? { id: procedure.id, words: procedure.called ?? '', by: procedure.calledBy }
    : { id: step.id, words: step.say ?? '', by: step.by };
};

const facetsOf = (keys: readonly string[]) => keys.map((key) => parseItemKey(key)?.facet);

describe.each(files)('%s', (file) => {
  const all = flownBy(file);

  test('words: the authored ones are right, others wrong; the seat of a call is an item of its own', () => {
    eachDrawn(all, (offer, shown, where) => {
      if (shown.way !== 'call' && shown.way !== 'response') return;
      const { id, words, by = '' } = rightOf(all, offer);
      const isPicked = shown.choices.length > 0;
      expect(isPicked, where).toBe(offer.about.way?.endsWith('-picked'));
      const seats = shown.seats.length > 0 ? shown.seats.map((seat) => seat.id) : [undefined];
      const answers: (WordsGiven & { readonly isRight: boolean })[] = isPicked
        ? shown.choices.map(({ id: choice }) => ({ choice, isRight: choice === id }))
        : [words.toLowerCase(), `${words} now`, 'xyzzy'].map((said, i) => ({ said, isRight: i === 0 }));
      for (const { isRight, ...one } of answers)
        for (const seat of seats) {
          const given = { ...one, ...(seat !== undefined && { by: seat }) } as WordsGiven;
          const isSeat = seat === undefined || seat === by;
          const verdict = marked(all, offer, shown, given, where);
          expect(verdict.flawed, where).toBe(!isRight || !isSeat);
          for (const [key, mark] of Object.entries(verdict.marks)) {
            const asked =
              shown.way === 'response' ? isRight && isSeat : facetsOf([key])[0] === 'crew' ? isSeat : isRight;
            expect(mark, `${where} ${key} ${JSON.stringify(given)}`).toBe(asked ? 'right' : 'wrong');
          }
          expect(letters(wordsDetail(verdict).right.text), where).toBe(letters(words));
        }
      shown.choices.forEach(({ text }, i) => {
        for (const other of shown.choices.slice(0, i)) expect(areAlike(text, other.text), where).toBe(false);
      });
    });
  });

  test('which list, and who calls for it: one is right', () => {
    eachDrawn(all, (offer, shown, where) => {
      if (shown.way !== 'which' && shown.way !== 'caller') return;
      const { procedure } = procedureOf(all, offer);
      const right = shown.way === 'which' ? procedure.id : procedure.calledBy;
      for (const { id } of shown.choices)
        expect(Object.values(marked(all, offer, shown, { choice: id }, where).marks), where).toEqual([
          id === right ? 'right' : 'wrong',
        ]);
      expect(
        shown.choices.filter(({ id }) => id === right),
        where,
      ).toHaveLength(1);
      expect(new Set(shown.choices.map(({ text }) => letters(text))).size, where).toBe(shown.choices.length);
      if (shown.way !== 'which') return;
      expect(shown.choices.length, where).toBeGreaterThanOrEqual(3);
      // No other list begins so.
      const others = all.views.flatMap(({ procedures }) => procedures.map((p) => p.procedure));
      for (const { id } of shown.choices)
        if (id !== procedure.id)
          expect(others.find((p) => p.id === id)?.starts, where).not.toBe(procedure.starts ?? '');
    });
  });

  test('nothing shown says the answer; the order is never asked, nor a list that is recalled', () => {
    eachDrawn(all, (offer, shown, where) => {
      const { procedure, done } = procedureOf(all, offer);
      expect(['read-and-do', 'challenge-response'], where).toContain(done);
      expect(facetsOf(offer.proves), where).not.toContain('place');
      const seen = [shown.title, shown.ask, shown.challenge, ...shown.scene].map(letters);
      if (shown.way === 'which') for (const line of seen) expect(line, where).not.toContain(letters(procedure.title));
      if (shown.way === 'call')
        for (const line of seen) expect(line, where).not.toContain(letters(procedure.called ?? ''));
      if (shown.way === 'response') expect(shown.challenge, where).not.toBe('');
      expect(seen.join(' '), where).not.toContain('{');
    });
  });

  test('labels of the items of a list do not say the words', () => {
    for (const view of all.views)
      for (const { calls, procedure } of view.procedures) {
        const item = calls?.words == null ? undefined : all.items.get(calls.words);
        if (item !== undefined) expect(letters(item.label)).not.toContain(letters(procedure.called ?? ''));
      }
  });
});

test('the demonstration decks are asked in every way', () => {
  const ways = new Set(files.flatMap((file) => offersOf(flownBy(file))).map(({ about }) => about.way));
  expect([...ways].sort()).toEqual(['call', 'call-picked', 'caller', 'response', 'response-picked', 'which']);
});

const list = (id: string, more: Partial<Procedure> = {}): Procedure =>
  flow([{ id: `${id}-a`, do: 'Brakes', say: 'Set' }], {
    id,
    title: `The list ${id}`,
    done: 'challenge-response',
    ...more,
  });

describe('odd decks', () => {
  const ways = (all: Resolved) => offersOf(all).map(({ about }) => `${about.thing} ${about.way}`);

  test('one list, without a call, without anything to take it for', () => {
    expect(ways(resolved({ procedures: [list('one')] }))).toEqual(['one response']);
    expect(ways(resolved({ procedures: [list('one', { called: 'Go through it' })] }))).toEqual([
      'one call',
      'one response',
    ]);
  });

  test('two lists with a beginning are not asked which; three are; two that begin alike are not', () => {
    const three = ['one', 'two', 'six'].map((id, i) => list(id, { starts: `Lamp ${'abc'[i]} comes on`, steps: [] }));
    const stepped = three.map((p) => ({ ...p, steps: [{ id: `${p.id}-a`, do: 'Brakes' }] }));
    expect(ways(resolved({ procedures: stepped.slice(0, 2) }))).toEqual([]);
    expect(ways(resolved({ procedures: stepped }))).toEqual(['one which', 'two which', 'six which']);
    const alike = stepped.map((p, i) => (i === 1 ? { ...p, starts: 'Lamp A comes on.' } : p));
    expect(ways(resolved({ procedures: alike }))).toEqual(['six which']);
    const named = stepped.map((p, i) => (i === 0 ? { ...p, starts: 'The list one is due' } : p));
    expect(ways(resolved({ procedures: named }))).toEqual(['two which', 'six which']);
  });

  test('a call that the title says is asked by when it comes; by nothing else it is not', () => {
    const titled = { title: 'Landing checklist', called: 'Landing checklist', calledBy: 'PF' };
    expect(ways(resolved({ procedures: [list('one', titled)] }))).toEqual(['one caller', 'one response']);
    const all = resolved({ procedures: [list('one', { ...titled, starts: 'Gear down' })] });
    const [call] = offersOf(all).filter(({ about }) => about.way === 'call');
    const shown = draw(all, call as Offer, 1) as ListShown;
    expect([shown.title, shown.scene]).toEqual(['A list is called for', ['Gear down']]);
    expect(shown.seats.map(({ id }) => id)).toEqual(['PF', 'PM']);
    const out = resolved({ procedures: [list('one', { ...titled, starts: 'Gear down' })] }, { [LEFT_OUT]: ['words'] });
    expect(ways(out)).toEqual(['one caller']);
  });

  test('a challenge in its own step, and one with two responses', () => {
    const spoken = list('one', {
      steps: [
        { id: 'a', say: 'Brakes?', by: 'PM' },
        { id: 'b', say: 'Set', by: 'PF', answers: 'a' },
      ],
    });
    const all = resolved({ procedures: [spoken] });
    expect(offersOf(all).map(({ about }) => about.part)).toEqual([['b']]);
    const shown = draw(all, offersOf(all)[0] as Offer, 1) as ListShown;
    expect([shown.challenge, shown.ask]).toEqual(['Brakes?', 'What is answered, and by whom?']);
    const twice = list('one', {
      steps: [
        { id: 'a', do: 'Flaps', say: 'Up' },
        { id: 'b', do: 'Flaps', say: 'Down' },
      ],
    });
    expect(ways(resolved({ procedures: [twice] }))).toEqual([]);
    const echoed = list('one', { steps: [{ id: 'a', do: 'Flaps up', say: 'Flaps up' }] });
    expect(ways(resolved({ procedures: [echoed] }))).toEqual([]);
  });

  test('right-to-left and forty words', () => {
    const forty = [...Array(40).keys()].map((i) => `word${i}`).join(' ');
    const steps = [forty, 'נעול', 'مضبوط', 'बंद'].map((say, i) => ({ id: `s${i}`, do: `Switch ${'abcd'[i]}`, say }));
    const all = resolved({ procedures: [list('one', { steps })] });
    const offers = offersOf(all);
    expect(offers.length).toBe(8);
    for (const offer of offers) {
      const shown = draw(all, offer, 1) as ListShown;
      const given = shown.choices.length > 0 ? { choice: rightOf(all, offer).id } : { said: rightOf(all, offer).words };
      expect(Object.values(mark(all, offer, shown, given).marks)).toEqual(['right']);
    }
  });

  test('what the deck no longer holds marks nothing', () => {
    const all = resolved({ procedures: [list('one', { called: 'Go through it' })] });
    for (const offer of offersOf(all)) {
      const shown = draw(all, offer, 1) as ListShown;
      for (const other of [list('two'), flow(3, { id: 'one' }), list('one', { steps: [{ id: 'x', do: 'Look' }] })])
        expect(mark(resolved({ procedures: [other] }), offer, shown, { said: 'Set' }).marks).toEqual({});
    }
  });
});

describe('another call, caller or beginning is another answer', () => {
  const lists = (more: Partial<Procedure> = {}) => ({
    procedures: ['one', 'two', 'six'].map((id, i) =>
      list(id, {
        called: `Go through ${id}`,
        calledBy: 'PF',
        starts: `Lamp ${'abc'[i]} comes on`,
        ...(i === 0 && more),
      }),
    ),
  });
  const before = resolved(lists());

  test.each([
    ['words', 'called', 'Begin with it', 'called with the words'],
    ['crew', 'calledBy', 'PM', 'called by'],
    ['cue', 'starts', 'Lamp d comes on', 'starts'],
  ] as const)('%s', (facet, field, text, what) => {
    const after = resolved(lists({ [field]: text }));
    const keys = (all: Resolved) => [...all.items.keys()].filter((key) => key.includes(`#one.${facet}~`));
    expect(keys(before)).toHaveLength(1);
    expect(keys(after)).toHaveLength(1);
    expect(keys(after)).not.toEqual(keys(before));
    expect([...after.items.keys()].filter((key) => !before.items.has(key))).toEqual(keys(after));
    const { differences } = compareDecks(before.deck, after.deck);
    expect(differences.map((d) => [d.kind, d.what, d.rise])).toEqual([['answer', what, 'major']]);
    expect(differences[0]?.path).toBe(`/procedures/0/${field}`);
  });

  test('other punctuation and case are not', () => {
    const after = resolved(lists({ called: 'go through: ONE' }));
    expect([...after.items.keys()]).toEqual([...before.items.keys()]);
    expect(compareDecks(before.deck, after.deck).differences.map((d) => d.kind)).toEqual(['words']);
  });
});
