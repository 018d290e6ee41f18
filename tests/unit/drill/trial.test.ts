import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { at } from '../../../scripts/lib/paths.mjs';
import { askTrial, markTrial, trialsOf } from '../../../src/drill/trial.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { RunShown } from '../../../src/model/form.ts';

const deck = JSON.parse(readFileSync(at('decks/merrow-takeoff.deck.json'), 'utf8')) as Deck;
const FLOWN = { engine: ['tk11'], operator: ['calder'] };
const procedure = deck.procedures?.[0]?.id ?? '';

test('a procedure is tried as learners meet it: in small parts first, each named by its ends', () => {
  const { trials, label } = trialsOf(deck, FLOWN, procedure);
  expect(label).toContain('TK-11');
  expect(trials.length).toBeGreaterThan(3);
  expect(new Set(trials.map(({ words }) => words)).size).toBe(trials.length);
  const needs = trials.map(({ offer }) => offer.needs);
  expect(needs.lastIndexOf('read')).toBeLessThan(needs.indexOf('right-once'));
});

test('from any step: every question holds it, and what begins with it comes first', () => {
  const all = trialsOf(deck, FLOWN, procedure).resolved.views[0]?.procedures.find((p) => p.procedure.id === procedure);
  for (const { step } of all?.situations[0]?.steps ?? []) {
    const { trials } = trialsOf(deck, FLOWN, procedure, step.id);
    expect(trials.length).toBeGreaterThan(0);
    for (const { offer } of trials) if (offer.about.part !== undefined) expect(offer.about.part).toContain(step.id);
  }
});

test('the answer is marked as in a drill, and goes nowhere', () => {
  const tried = trialsOf(deck, FLOWN, procedure);
  const trial = tried.trials.find(({ offer }) => offer.form === 'run');
  if (trial === undefined) throw new Error('nothing to try');
  const shown = askTrial(tried, trial, 7) as RunShown;
  const order = trial.offer.about.part ?? [];
  const told = markTrial(tried, trial, shown, { given: { order }, sure: true, unsure: [] });
  expect(Object.values(told.marked.marks).every((mark) => mark === 'right')).toBe(true);
  expect(told.entry).toBeNull();
  const wrong = markTrial(tried, trial, shown, { given: { order: [...order].reverse() }, sure: true, unsure: [] });
  expect(Object.values(wrong.marked.marks)).toContain('wrong');
});

test('each rule of a scenario and each case of a limit is a question of its own', () => {
  for (const scenario of (deck.scenarios ?? []).filter((one) => one.when === undefined)) {
    const { trials } = trialsOf(deck, FLOWN, scenario.id);
    const rules = scenario.asks.flatMap((ask) =>
      'choose' in ask ? ask.choose.rules.map(({ id }) => `${ask.id} ${id}`) : [ask.id],
    );
    expect(
      trials
        // The same once more inside the step that it decides.
        .filter(({ offer }) => offer.form === 'scenario')
        .map(({ offer }) => (offer.about.rule ? `${offer.about.case} ${offer.about.rule}` : offer.about.case))
        .sort(),
    ).toEqual(rules.sort());
  }
});
