import { describe, expect, test } from 'vitest';
import { resolve } from '../../../src/deck/resolve.ts';
import { type Rehearsal, rehearsables, rehearse } from '../../../src/drill/rehearsal.ts';
import { answerIn, isOf, ownSteps, toldOf } from '../../../src/drill/rehearsal-told.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { AnswerEntry, Entry } from '../../../src/model/entry.ts';
import type { RunShown } from '../../../src/model/form.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { type Practice, practiceOf, resolvedDeck } from './practice.ts';

const BARE = {
  format: 1,
  id: 'calder/long',
  version: '1.0.0',
  title: 'Long',
  language: 'en',
  nature: 'fictional',
  sources: [{ id: 'inv', title: 'Invented manual', basis: 'invented' }],
};
const ONE = { engine: ['tk11'], operator: ['calder'] };
const deck = resolvedDeck('merrow-takeoff', ONE);
const abnormal = resolvedDeck('merrow-abnormal', ONE);

/** Reads things of a deck. */
const read = (practice: Practice, resolved: Resolved, about: readonly string[]) =>
  practice.write({ k: 'read', deck: resolved.ref, about });
const stepsOf = (resolved: Resolved, id: string): string[] =>
  resolved.views.flatMap(({ procedures }) =>
    procedures
      .filter(({ procedure }) => procedure.id === id)
      .flatMap(({ situations }) => situations.flatMap(({ steps }) => steps.map(({ step }) => step.id))),
  );
const wish = (procedure: string) => ({ id: 'r1', procedure, seat: 'PF', seed: 5 });
const sureBlame = () => 1;

describe('what can be rehearsed', () => {
  test('procedures whose order is asked; read only where each step was read or answered', () => {
    const practice = practiceOf([deck]);
    const titles = rehearsables(deck, practice.memory).map(({ procedure }) => procedure);
    expect(titles).toContain('rotation');
    // Lists are read.
    expect(titles).not.toContain('before-take-off-list');
    const ways = () => rehearsables(deck, practice.memory).find((one) => one.procedure === 'rotation')?.ways ?? [];
    expect(ways().map((way) => way.read)).toEqual([false]);
    const [last = '', ...others] = stepsOf(deck, 'rotation').reverse();
    read(practice, deck, others);
    expect(ways().map((way) => way.read)).toEqual([false]);
    expect(rehearse(deck, practice.memory, wish('rotation'))).toBeNull();
    read(practice, deck, [last]);
    expect(ways().map((way) => way.read)).toEqual([true]);
    expect(rehearse(deck, practice.memory, wish('rotation'))).not.toBeNull();
  });

  test('a way is named by its circumstances, each said once', () => {
    const words = (id: string) =>
      rehearsables(deck, practiceOf([]).memory)
        .find(({ procedure }) => procedure === id)
        ?.ways.map((way) => way.words);
    expect(words('rotation')).toEqual(['']);
    expect(words('set-thrust')).toEqual([
      'Rolling take-off: cleared before stopping on the runway',
      'Standing take-off: stopped on the centreline',
    ]);
  });

  test('seats are the crew that the steps name; both pilots are no seat, and one brings the other', () => {
    const seats = (resolved: Resolved, id: string) =>
      rehearsables(resolved, practiceOf([]).memory)
        .find(({ procedure }) => procedure === id)
        ?.seats.map((one) => one.id);
    expect(seats(deck, 'rotation')).toEqual(['PF', 'PM']);
    expect(seats(deck, 'line-up')).toEqual(['PF', 'PM', 'cabin']);
    const rules = resolvedDeck('public-rules');
    expect(seats(rules, 'jet-take-off-roll')).toEqual(['PF', 'PM']);
    expect(seats(rules, 'stall-recovery')).toEqual([]);
  });
});

describe('the questions', () => {
  test('the whole run first, longer than a phone shows too', () => {
    const steps = Array.from({ length: 15 }, (_, i) => ({
      id: `s${i}`,
      do: `Step ${i}`,
      by: i % 2 === 0 ? 'PF' : 'PM',
    }));
    const long = resolve(
      { ...BARE, procedures: [{ id: 'long', title: 'Long', done: 'flow', steps, strangers: ['Nothing'] }] } as Deck,
      'b'.repeat(64),
      {},
    );
    const practice = practiceOf([long]);
    read(
      practice,
      long,
      steps.map(({ id }) => id),
    );
    const [run, ...values] = rehearse(long, practice.memory, wish('long'))?.questions ?? [];
    const shown = run?.shown as RunShown;
    expect(run?.offer.about).toEqual({ thing: 'long', situation: '' });
    expect(shown.before).toEqual([]);
    expect(shown.chips.map(({ id }) => id).sort()).toEqual(steps.map(({ id }) => id).sort());
    expect(values).toEqual([]);
  });

  test('then each number that its steps name, once, in their order', () => {
    const practice = practiceOf([deck]);
    read(practice, deck, stepsOf(deck, 'rotation'));
    const rehearsal = rehearse(deck, practice.memory, wish('rotation'));
    expect(rehearsal?.questions.map(({ offer }) => offer.about.thing)).toEqual([
      'rotation',
      'rotation-rate',
      'tail-pitch',
      'pitch-target',
      'climb-speed',
      'gear-speed',
      'turn-height',
      'bank-limit',
      'autopilot-height',
    ]);
  });

  test('the case of a limit is one that the circumstances of the run give', () => {
    const steps = [
      { id: 'a', do: 'A', limit: 'warm-up' },
      { id: 'b', do: 'B', if: 'cold', limit: 'free' },
      { id: 'c', do: 'C', if: '!cold', cue: { limit: 'warm-up' } },
    ];
    const value = (id: string, given?: object) => ({ id, value: id.length, ...(given && { given }) });
    const limit = (id: string, cases: readonly object[]) => ({
      id,
      ask: `${id}?`,
      unit: 'min',
      sense: 'exactly',
      cases,
    });
    const small = resolve(
      {
        ...BARE,
        conditions: [
          { id: 'cold', yes: 'Cold', no: 'Warm' },
          { id: 'wet', yes: 'Wet', no: 'Dry' },
          { id: 'load', label: 'Load', unit: 't', from: 0, to: 9 },
        ],
        procedures: [{ id: 'p', title: 'P', done: 'flow', steps }],
        limits: [
          limit('warm-up', [value('usual'), value('soaked', { cold: true })]),
          limit('free', [value('dry', { wet: false, load: { from: 5 } }), value('wet', { wet: true })]),
        ],
      } as unknown as Deck,
      'b'.repeat(64),
      {},
    );
    const practice = practiceOf([small]);
    read(practice, small, ['a', 'b', 'c']);
    const seen = new Map<string, Set<string>>();
    for (let seed = 0; seed < 24; seed++) {
      const { questions = [] } = rehearse(small, practice.memory, { ...wish('p'), seed }) ?? {};
      const cold = questions[0]?.shown.form === 'run' && questions[0].shown.drawn.cold === true;
      for (const { offer } of questions.slice(1)) {
        const name = `${cold ? 'cold' : 'warm'} ${offer.about.thing}`;
        seen.set(name, (seen.get(name) ?? new Set()).add(offer.about.case ?? ''));
      }
      expect(questions).toHaveLength(cold ? 3 : 2);
    }
    // What was not drawn leaves the choice open.
    expect(Object.fromEntries([...seen].map(([name, cases]) => [name, [...cases].sort()]))).toEqual({
      'cold warm-up': ['soaked'],
      'warm warm-up': ['usual'],
      'cold free': ['dry', 'wet'],
    });
  });

  test('a decision is asked once its rules were read, by the rule drawn', () => {
    const practice = practiceOf([deck]);
    read(practice, deck, stepsOf(deck, 'line-up'));
    const things = () =>
      rehearse(deck, practice.memory, { ...wish('line-up'), situation: '1' })?.questions.map(
        ({ offer }) => offer.about.thing,
      );
    expect(things()).toEqual(['line-up']);
    read(practice, deck, ['pack-setting']);
    expect(things()).toEqual(['line-up', 'pack-setting']);
  });

  test('the same wish gives the same; another seed another order', () => {
    const practice = practiceOf([deck]);
    read(practice, deck, stepsOf(deck, 'rotation'));
    const of = (seed: number) => JSON.stringify(rehearse(deck, practice.memory, { ...wish('rotation'), seed }));
    expect(of(3)).toBe(of(3));
    expect(of(3)).not.toBe(of(4));
  });
});

describe('answers and verdicts', () => {
  const practice = practiceOf([deck]);
  read(practice, deck, stepsOf(deck, 'rotation'));
  const rehearsal = rehearse(deck, practice.memory, wish('rotation')) as Rehearsal;
  const order =
    deck.views[0]?.procedures
      .find(({ procedure }) => procedure.id === 'rotation')
      ?.situations[0]?.steps.map(({ step }) => step.id) ?? [];
  const answer = { sure: true, unsure: [], ms: 30_000.4 } as const;

  test('an answer is an ordinary entry, with the seat; right in order, and every step is right', () => {
    const entry = answerIn(deck, rehearsal, 0, { ...answer, given: { order } }, sureBlame);
    expect(entry).toMatchObject({ k: 'answer', drill: 'r1', form: 'run', seat: 'PF', sure: true, ms: 30_000, mv: 1 });
    expect(entry).not.toHaveProperty('flawed');
    expect(Object.values((entry as AnswerEntry).marks)).toEqual(order.map(() => 'right'));
    const before = practice.memory.items.size;
    practice.write(entry as AnswerEntry);
    expect(practice.memory.items.size).toBe(before + order.length);
  });

  test("don't know takes back what was entered", () => {
    const entry = answerIn(deck, rehearsal, 0, { ...answer, sure: null, given: { order } }, sureBlame) as AnswerEntry;
    expect(entry.given).toBeNull();
    expect(new Set(Object.values(entry.marks))).toEqual(new Set(['told']));
  });

  test('of another deck, or of a variant no longer flown, nothing is marked', () => {
    expect(answerIn(abnormal, rehearsal, 0, { ...answer, given: { order } }, sureBlame)).toBeNull();
    const other = { ...resolvedDeck('merrow-takeoff', { engine: ['tk14'] }) };
    expect(answerIn(other, rehearsal, 0, { ...answer, given: { order } }, sureBlame)).toBeNull();
    expect(answerIn(deck, rehearsal, 99, { ...answer, given: { order } }, sureBlame)).toBeNull();
  });

  test('verdicts come from the log: those answered, as they were marked, and queries', () => {
    const swapped = [order[1], order[0], ...order.slice(2)] as string[];
    // Both of the pair could be blamed: the one that was is blamed again.
    const key = (step: string) => [...deck.items.keys()].find((one) => one.includes(`#${step}.place`)) ?? '';
    for (const blamed of [order[0], order[1]] as string[]) {
      const entry = answerIn(deck, rehearsal, 0, { ...answer, given: { order: swapped } }, (one) =>
        one === key(blamed) ? 0 : 1,
      ) as AnswerEntry;
      const log = [
        { ...entry, v: 1, id: 'w.1', at: 1, off: 0, app: 't' },
        { k: 'answer', drill: 'other', v: 1, id: 'w.2', at: 2, off: 0, app: 't' },
        { k: 'void', drill: 'r1', of: 'w.1', why: 'query', v: 1, id: 'w.3', at: 3, off: 0, app: 't' },
      ] as Entry[];
      const told = toldOf(
        deck,
        rehearsal,
        log.filter((one) => isOf(rehearsal, one)),
      );
      expect(told).toHaveLength(rehearsal.questions.length);
      expect(told[0]).toMatchObject({ entry: 'w.1', sure: true, voided: 'query', marked: { flawed: true } });
      expect(told[0]?.marked.marks).toEqual(entry.marks);
      const { detail } = told[0]?.marked ?? {};
      const misplaced = detail?.form === 'run' ? detail.chips.filter(({ state }) => state === 'misplaced') : [];
      expect(misplaced.map(({ id }) => id)).toEqual([blamed]);
      expect(told.slice(1).every((one) => one === null)).toBe(true);
    }
  });

  test('own steps: of the seat, and of both pilots', () => {
    const entry = answerIn(deck, rehearsal, 0, { ...answer, given: { order } }, sureBlame) as AnswerEntry;
    const log = [{ ...entry, v: 1, id: 'w.1', at: 1, off: 0, app: 't' }] as Entry[];
    const [told] = toldOf(deck, rehearsal, log);
    if (told == null) throw new Error('not told');
    const pf = ownSteps(deck, rehearsal, told).map(({ id }) => id);
    const pm = ownSteps(deck, { ...rehearsal, seat: 'PM' }, told).map(({ id }) => id);
    expect([pf.length, pm.length]).toEqual([7, 2]);
    expect([...pf, ...pm].sort()).toEqual([...order].sort());
    expect(ownSteps(deck, { ...rehearsal, seat: null }, told)).toEqual([]);
  });
});
