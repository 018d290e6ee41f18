import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import { startPaced } from '../../src/drill/paced.ts';
import { foldText } from '../../src/lib/fold-text.ts';
import { isTwin } from '../../src/lib/twin.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { PacedGiven } from '../../src/model/form.ts';
import { act, advance, begin, givenOfCourse } from '../../src/paced/course.ts';
import { firstHand, nextHand } from '../../src/paced/hand.ts';
import { judge } from '../../src/paced/judge.ts';
import type { Resolved } from '../../src/subjects/resolved.ts';
import { verdictSign, verdictWords } from '../../src/ui/forms/paced/lane.ts';
import { markedAs, markedRun, played, readAll, runDeck, STEPS, startOf, timings } from '../unit/paced/runs.ts';

const demo = (name: string, flown: Record<string, readonly string[]>): Resolved =>
  resolve(JSON.parse(readFileSync(at('decks', `${name}.deck.json`), 'utf8')) as Deck, 'd'.repeat(64), flown);
const DECKS: readonly Resolved[] = [
  demo('merrow-takeoff', { engine: ['tk11'], operator: ['calder'] }),
  demo('merrow-takeoff', { engine: ['tk11', 'tk14'], operator: ['calder', 'fellwater'] }),
  demo('merrow-abnormal', { operator: ['fellwater'] }),
  runDeck(),
  runDeck({ failure: { condition: 'out', speed: 'v1', share: 0.5, from: -10, to: 10 } }),
];
const wishes = fc.record({
  deck: fc.integer({ min: 0, max: DECKS.length - 1 }),
  seat: fc.constantFrom('PF', 'PM', null),
  seed: fc.integer({ min: 0, max: 0xffffffff }),
  stretch: fc.constantFrom(0, 1, 3, 10),
});
const drawn = ({ deck, ...wish }: { deck: number; seat: string | null; seed: number; stretch: number }) => {
  const all = DECKS[deck] as Resolved;
  const paced = all.deck.paced?.[0]?.id ?? '';
  const start = startPaced(all, readAll(all), { paced, ...wish });
  if (start === null) throw new Error(`${paced} cannot be drawn`);
  return { all, start };
};

describe('marking', () => {
  test('a crew that does everything at its cue is right; what is planted is found, and nothing else is accused', () => {
    fc.assert(
      fc.property(wishes, fc.nat(), fc.constantFrom('late', 'missing', 'extra'), (wish, which, fault) => {
        const { all, start } = drawn(wish);
        const faultless = markedAs(all, start);
        const fine = timings(faultless.detail);
        expect(fine.filter((one) => !one.endsWith(' in-time'))).toEqual([]);
        expect(faultless.flawed).toBe(false);
        expect(new Set(Object.values(faultless.marks))).toEqual(new Set(['right']));
        const ids = fine.map((one) => one.split(' ')[0] as string);
        const id = ids[which % ids.length] as string;
        const step = start.plan.steps.find((one) => one.id === id);
        if (fault === 'extra') {
          const { marks, detail, flawed } = markedAs(all, start, undefined, [{ id: 'stranger-x-0', at: 3 }]);
          expect(marks).toEqual(faultless.marks);
          expect(detail.extra).toHaveLength(1);
          expect(flawed).toBe(true);
          return;
        }
        const off = fault === 'late' ? (step?.late ?? 0) + 0.5 : null;
        const { detail, marks, flawed } = markedAs(all, start, (one) => (one === id ? off : 0));
        // What follows by what was done may come up later, or not at all where a failure ends the run: never as a fault.
        expect(timings(detail).filter((one) => !one.endsWith(' in-time'))).toEqual([`${id} ${fault}`]);
        expect(flawed).toBe(true);
        const wrong = Object.keys(marks).filter((key) => marks[key] !== 'right');
        expect(
          wrong.filter((key) => !key.includes(`#${id}.`)),
          id,
        ).toEqual([]);
      }),
      // Its first step left out, the answer to it has its own cue.
      { numRuns: 40, examples: [[{ deck: 0, seat: 'PF', seed: 0, stretch: 0 }, 0, 'missing']] },
    );
  });

  test('whoever does each own step within its tolerance is never marked down for what the program plays', () => {
    fc.assert(
      fc.property(
        wishes,
        fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 40, maxLength: 40 }),
        (wish, offs) => {
          const { all, start } = drawn(wish);
          const { steps, expected } = start.plan;
          const given = givenOfCourse(
            start.plan,
            played(start, (id) => {
              const off = offs[expected.indexOf(id) % offs.length] ?? 0;
              const step = steps.find((one) => one.id === id);
              // An answer waits for what it answers.
              if (step?.sign === 'heard') return Math.max(0, off) * step.late;
              return off * ((off < 0 ? step?.early : step?.late) ?? 0);
            }),
          );
          const doneAt = new Map(given.acts.map(({ id, at }) => [id, at]));
          const own = judge(steps, given).filter(({ step: { who } }) => who === 'own');
          for (const { step, cueAt, timing, behind } of own) {
            const at = doneAt.get(step.id) ?? Number.NaN;
            // Who does the step before late has the cue of this one later: only then is it out of its window.
            if (at < cueAt - step.early || at > cueAt + step.late) continue;
            const answered = step.trigger.at === 'after' ? step.trigger.steps : [];
            if (step.sign === 'heard' && answered.some((id) => (given.played[id] ?? doneAt.get(id) ?? 0) > at))
              continue;
            expect(timing, step.id).toBe('in-time');
            for (const id of behind) expect(doneAt.get(id) ?? 0, `${step.id} waits for ${id}`).toBeGreaterThan(at);
          }
          // A tick stands nowhere beside a fault, and what was played is told in the order of time.
          const { detail } = markedRun(all, start, given);
          for (const one of detail.steps)
            if (verdictSign(one) === '✓') expect(verdictWords(one, false)).toBe('in time');
          const times = detail.steps.map((one) => one.doneAt ?? one.cueAt);
          expect(times).toEqual([...times].sort((a, b) => a - b));
        },
      ),
      { numRuns: 40 },
    );
  });

  test('from the log it is marked as it was, and so again', () => {
    fc.assert(
      fc.property(
        wishes,
        fc.array(fc.constantFrom(-4, -1, 0, 0, 1, 4, null), { minLength: 40, maxLength: 40 }),
        (wish, offs) => {
          const { all, start } = drawn(wish);
          const ids = start.plan.expected;
          const given = givenOfCourse(
            start.plan,
            played(start, (id) => offs[ids.indexOf(id) % offs.length] ?? null),
          );
          const once = markedRun(all, start, given);
          const logged = JSON.parse(JSON.stringify({ shown: start.shown, given }));
          expect(markedRun(all, { ...start, shown: logged.shown }, logged.given)).toEqual(once);
          expect(once.g).toBeGreaterThan(0);
          expect(once.g).toBeLessThanOrEqual(1 / start.shown.buttons);
          // Only what was shown to come up is marked, and only the learner's.
          const own = new Set(start.plan.steps.filter(({ who }) => who === 'own').map(({ id }) => id));
          for (const { id, timing } of once.detail.steps) if (timing !== 'played') expect(own.has(id)).toBe(true);
        },
      ),
      { numRuns: 25 },
    );
  });

  test('whatever stands in a log, marking throws not', () => {
    const { all, start } = drawn({ deck: 3, seat: 'PM', seed: 1, stretch: 1 });
    const id = fc.constantFrom(
      ...start.plan.steps.map((one) => one.id),
      'stop',
      'go',
      'gone',
      'constructor',
      '__proto__',
    );
    const times = fc.dictionary(id, fc.oneof(fc.double(), fc.constant(null)));
    const givens = fc.record({
      acts: fc.array(fc.record({ id, at: fc.double(), choice: id })),
      cues: times,
      played: times,
      asked: fc.constant(true),
      failed: fc.record({ at: fc.double(), speed: fc.double() }),
    });
    fc.assert(
      fc.property(givens, (given) => {
        const { marks } = markedRun(all, start, given as unknown as PacedGiven);
        for (const mark of Object.values(marks)) expect(['right', 'wrong', 'told']).toContain(mark);
      }),
    );
  });
});

describe('what stands at the thumb', () => {
  test('at most six, each once, what is due among them; a place whose button stays keeps it', () => {
    fc.assert(
      fc.property(wishes, fc.array(fc.nat({ max: 5 }), { minLength: 60, maxLength: 60 }), (wish, taps) => {
        const { start } = drawn(wish);
        const { plan, others } = start;
        let c = begin(plan);
        let hand = firstHand(plan, c, others, wish.seed);
        for (const tap of taps) {
          c = advance(plan, c, 60);
          if (c.ended !== null) break;
          const button = hand.buttons[tap];
          if (button !== undefined) c = act(plan, c, button.id, button.text);
          const before = hand;
          hand = nextHand(plan, c, others, hand);
          const ids = hand.buttons.map(({ id }) => id);
          expect(ids.length).toBeLessThanOrEqual(6);
          expect(new Set(ids).size).toBe(ids.length);
          const texts = hand.buttons.map(({ text }) => foldText(text));
          expect(new Set(texts).size).toBe(texts.length);
          if (hand.buttons.length === before.buttons.length)
            for (const [i, { id }] of before.buttons.entries()) {
              const now = ids.indexOf(id);
              if (now >= 0) expect(now).toBe(i);
            }
          const waiting = plan.steps.filter(
            ({ id, who }) => who === 'own' && id in c.cues && !(id in c.done) && !(id in c.dropped),
          );
          if (waiting.length > 0) expect(waiting.some(({ id }) => ids.includes(id))).toBe(true);
          if (waiting.length > 0 && waiting.length < 6)
            expect(waiting.every(({ text }) => texts.includes(foldText(text)))).toBe(true);
          // No other may say what an own step says: tapped, it would be wrong though right.
          const own = new Set(plan.steps.filter(({ who }) => who === 'own').map(({ text }) => foldText(text)));
          for (const one of hand.buttons) if (!one.own) expect(own.has(foldText(one.text))).toBe(false);
          for (const one of hand.buttons)
            for (const other of hand.buttons)
              if (one !== other && !one.own) expect(isTwin(foldText(one.text), foldText(other.text))).toBe(false);
        }
      }),
      { numRuns: 40 },
    );
  });

  test('40 words, and right to left', () => {
    const long = Array.from({ length: 40 }, (_, i) => `word${i}`).join(' ');
    const deck = runDeck({}, [
      ...STEPS,
      { id: 'long', by: 'PM', say: long, needs: ['wait'] },
      { id: 'rtl', by: 'PM', say: 'שלום עולם', needs: ['long'] },
    ]);
    const { detail } = markedAs(deck, startOf(deck));
    expect(timings(detail).slice(-2)).toEqual(['long in-time', 'rtl in-time']);
  });
});
