import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../src/forms/registry.ts';
import type { Deck, NumberLimit } from '../../src/model/deck.ts';
import type { Given, Offer, RuleShown, Shown, ValueShown } from '../../src/model/form.ts';
import type { Resolved, View } from '../../src/subjects/resolved.ts';
import { flow, resolved } from '../unit/forms/small-decks.ts';

/*
 * Limits and rules asked inside a step, and branches, over every deck that is shipped, flown in all variants. Which
 * answers are right is worked out here from the deck, without the marking.
 */

const files = readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json'));
const SEEDS = [1, 2, 3, 4];

const flownBy = (file: string): Resolved => {
  const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
  return resolve(
    deck,
    'e'.repeat(64),
    Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)])),
  );
};

const viewOf = (all: Resolved, { variant }: Offer): View => all.views.find(({ id }) => id === variant) as View;

const eachDrawn = (
  all: Resolved,
  is: (offer: Offer) => boolean,
  check: (offer: Offer, shown: Shown, where: string) => void,
): number => {
  let count = 0;
  for (const offer of offers(all, null, 1).filter(is)) {
    for (const seed of SEEDS) {
      const where = `${JSON.stringify(offer.about)} ${offer.variant} seed ${seed}`;
      const shown = draw(all, offer, seed);
      if (shown === null) continue;
      count += 1;
      check(offer, shown, where);
      const told = mark(all, offer, shown, null);
      expect(told.marks, where).toEqual(Object.fromEntries(offer.proves.map((key) => [key, 'told'])));
    }
  }
  return count;
};

/** Marks as it should, and the same from the log. */
const holds = (all: Resolved, offer: Offer, shown: Shown, given: Given, isRight: boolean, where: string): void => {
  const marked = mark(all, offer, shown, given);
  expect(marked.marks, where).toEqual(
    Object.fromEntries(offer.proves.map((key) => [key, isRight ? 'right' : 'wrong'])),
  );
  expect(marked.flawed, where).toBe(!isRight);
  expect(marked.detail.form, where).toBe(offer.form);
  const { form, about, variant } = offer;
  const kept = JSON.parse(JSON.stringify({ form, about, variant, shown, given }));
  expect(mark(all, { ...kept, proves: [] }, kept.shown, kept.given), where).toEqual(marked);
};

const stepOf = (all: Resolved, offer: Offer) =>
  viewOf(all, offer)
    .procedures.find(({ procedure }) => procedure.id === offer.about.procedure)
    ?.situations.find(({ id }) => id === offer.about.situation)
    ?.steps.find(({ step }) => step.id === offer.about.part?.[0]);

describe.each(files)('%s', (file) => {
  const all = flownBy(file);

  test('a limit is asked in the step that names it, and its authored value alone is right', () => {
    eachDrawn(
      all,
      ({ form }) => form === 'value',
      (offer, shown, where) => {
        expect(stepOf(all, offer)?.step.limit, where).toBe(offer.about.thing);
        const { fields, step, before } = shown as ValueShown;
        const found = viewOf(all, offer).limits.find(({ limit }) => limit.id === offer.about.thing);
        expect(found?.cases, where).toHaveLength(1);
        const right = found?.cases[0]?.value ?? [];
        if (typeof right === 'string') {
          for (const { id } of (shown as ValueShown).choices)
            holds(all, offer, shown, { choice: id }, id === right, where);
          return;
        }
        const limit = found?.limit as NumberLimit;
        for (const text of [step, ...before])
          for (const value of right) expect(text.split(/\s/), where).not.toContain(`${value}`);
        expect(fields, where).toHaveLength(right.length);
        const given = (value: readonly number[]): Given => ({ value, typed: value.map(String) });
        const wide =
          typeof limit.accept === 'number' ? limit.accept : Math.max(limit.accept?.plus ?? 0, limit.accept?.minus ?? 0);
        holds(all, offer, shown, given(right), true, where);
        holds(all, offer, shown, given(right.map((x) => x + 2 * wide + 1)), false, where);
      },
    );
  });

  test('a rule is asked in the step that it decides, whatever the circumstances of the procedure', () => {
    eachDrawn(
      all,
      ({ form, about }) => form === 'rule' && about.way !== 'branch',
      (offer, shown, where) => {
        const { thing, case: asked, procedure } = offer.about;
        expect(stepOf(all, offer)?.step.rule, where).toBe(`${thing}#${asked}`);
        const p = viewOf(all, offer).procedures.find((one) => one.procedure.id === procedure);
        for (const { steps } of p?.situations ?? [])
          expect(
            steps.map(({ step }) => step.id),
            where,
          ).toContain(offer.about.part?.[0]);
        const ask = viewOf(all, offer)
          .scenarios.find(({ scenario }) => scenario.id === thing)
          ?.asks.find((one) => one.ask.id === asked);
        if (ask === undefined || !('rules' in ask)) return;
        // The draw was steered to this rule.
        const rule = ask.rules.find((one) => one.rule.id === offer.about.rule);
        for (const { id } of (shown as RuleShown).choices)
          holds(all, offer, shown, { choice: id }, rule?.rule.then.includes(id) === true, where);
      },
    );
  });

  test('of a branch exactly one step is done in the circumstances shown', () => {
    eachDrawn(
      all,
      ({ form, about }) => form === 'rule' && about.way === 'branch',
      (offer, shown, where) => {
        const p = viewOf(all, offer).procedures.find(({ procedure }) => procedure.id === offer.about.thing);
        const here = p?.situations.find(({ id }) => id === offer.about.situation)?.steps ?? [];
        const isDone = (id: string) => here.some(({ step }) => step.id === id);
        const { choices, scene } = shown as RuleShown;
        expect(scene.length, where).toBeGreaterThan(0);
        expect(
          choices.filter(({ id }) => isDone(id)),
          where,
        ).toHaveLength(1);
        expect(choices.length, where).toBe(offer.rows);
        expect(offer.g, where).toBeCloseTo(1 / choices.length, 10);
        // What is wrong here is right elsewhere, at least of one.
        expect(
          choices.some(
            ({ id }) => !isDone(id) && p?.situations.some(({ steps }) => steps.some(({ step }) => step.id === id)),
          ),
          where,
        ).toBe(true);
        for (const { id } of choices) holds(all, offer, shown, { choice: id }, isDone(id), where);
      },
    );
  });
});

test('the demo decks are asked in all three ways', () => {
  const all = files.map(flownBy);
  const count = (is: (offer: Offer) => boolean) => all.reduce((sum, one) => sum + eachDrawn(one, is, () => {}), 0);
  expect(count(({ form }) => form === 'value')).toBeGreaterThan(20);
  expect(count(({ form, about }) => form === 'rule' && about.way !== 'branch')).toBeGreaterThan(10);
  expect(count(({ form, about }) => form === 'rule' && about.way === 'branch')).toBeGreaterThan(20);
});

describe('odd decks', () => {
  const inStep = (all: Resolved) => offers(all, null, 1).filter(({ form }) => form === 'value' || form === 'rule');

  test('a step that says the number, or the choice, is not asked for it', () => {
    const limits = [
      { id: 'speed', ask: 'Speed', unit: 'kt', sense: 'exactly', value: 80 },
      { id: 'switch', ask: 'Switch', options: { on: 'ON', off: 'OFF' }, is: 'off' },
    ];
    const said = resolved({
      limits,
      procedures: [
        flow([
          { id: 'a', do: 'Call at 80 kt', limit: 'speed' },
          { id: 'b', do: 'Packs OFF', limit: 'switch' },
        ]),
      ],
    } as never);
    expect(inStep(said)).toEqual([]);
    const unsaid = resolved({
      limits,
      procedures: [
        flow([
          { id: 'a', do: 'Call the speed', limit: 'speed' },
          { id: 'b', do: 'Set the packs', limit: 'switch' },
        ]),
      ],
    } as never);
    expect(inStep(unsaid).map(({ about }) => about.thing)).toEqual(['speed', 'switch']);
  });

  test('a question whose step, procedure or limit has gone is drawn no more, and marked as nothing', () => {
    const deck = (steps: unknown[]) =>
      resolved({
        limits: [{ id: 'speed', ask: 'Speed', unit: 'kt', sense: 'exactly', value: 80 }],
        procedures: [flow(steps as never)],
      } as never);
    const steps = [
      { id: 'a', do: 'Call', limit: 'speed' },
      { id: 'b', do: 'Look' },
    ];
    const [offer] = inStep(deck(steps));
    if (offer === undefined) throw new Error('nothing to ask');
    const shown = draw(deck(steps), offer, 1) as Shown;
    const later = deck([
      { id: 'b', do: 'Look' },
      { id: 'c', do: 'Listen' },
    ]);
    expect(draw(later, offer, 1)).toBeNull();
    const gone = resolved({
      procedures: [flow(steps.map(({ id, do: words }) => ({ id, do: words })))],
    } as never);
    expect(mark(gone, offer, shown, { value: [80], typed: ['80'] }).marks).toEqual({});
  });
});
