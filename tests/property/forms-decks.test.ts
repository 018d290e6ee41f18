import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import { resolve } from '../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../src/forms/registry.ts';
import type { Deck } from '../../src/model/deck.ts';
import type { Given, Offer, Shown } from '../../src/model/form.ts';
import { evaluate } from '../../src/subjects/formulas.ts';
import type { Resolved, RunStep, View } from '../../src/subjects/resolved.ts';

/*
 * Every deck that is shipped, as a learner of all its variants meets it: from the file to the marks. The right answer
 * is worked out here from the deck, without the marking.
 */

const files = readdirSync(at('decks')).filter((f) => f.endsWith('.deck.json'));
const SEEDS = [1, 2, 3];
const BASIC: ReadonlySet<string> = new Set(['run', 'next', 'limit', 'scenario']);

function flownBy(file: string): Resolved {
  const deck = JSON.parse(readFileSync(at('decks', file), 'utf8')) as Deck;
  const all = Object.fromEntries((deck.variants ?? []).map((a) => [a.id, Object.keys(a.options)]));
  return resolve(deck, 'd'.repeat(64), all);
}

const viewOf = (all: Resolved, { variant }: Offer): View => all.views.find((v) => v.id === variant) as View;

function stepsAsked(all: Resolved, { about, ...offer }: Offer): RunStep[] {
  const p = viewOf(all, { about, ...offer }).procedures.find((x) => x.procedure.id === about.thing);
  const steps = p?.situations.find((s) => s.id === about.situation)?.steps ?? [];
  return about.part ? steps.filter((s) => about.part?.includes(s.step.id)) : [...steps];
}

interface Answers {
  readonly right: Given;
  readonly wrong: readonly Given[];
}

/** A right answer, and wrong ones. */
function answersTo(all: Resolved, offer: Offer, shown: Shown): Answers {
  const view = viewOf(all, offer);
  const { about } = offer;
  if (shown.form === 'run') {
    const order = stepsAsked(all, offer).map((s) => s.step.id);
    const stranger = shown.chips.find((c) => c.id.startsWith('stranger-'));
    return {
      right: { order },
      wrong: [{ order: order.slice(1) }, { order: [] }, ...(stranger ? [{ order: [stranger.id, ...order] }] : [])],
    };
  }
  if (shown.form === 'next') {
    const [right] = about.part ?? [];
    const wrong = shown.choices.filter((c) => c.id !== right).map((c) => ({ choice: c.id }));
    return { right: { choice: right as string }, wrong };
  }
  if (shown.form === 'limit') {
    const one = view.limits.find((l) => l.limit.id === about.thing)?.cases.find((c) => c.id === about.case);
    if (!one) throw new Error(`${about.thing} ${about.case}`);
    if (typeof one.value === 'string') {
      const others = shown.choices.filter((c) => c.id !== one.value).map((c) => ({ choice: c.id }));
      return { right: { choice: one.value }, wrong: others };
    }
    const far = one.value.map((x) => 3 * Math.abs(x) + 1777);
    return { right: { typed: [], value: one.value }, wrong: [{ typed: [], value: far }] };
  }
  if (shown.form !== 'scenario') throw new Error(shown.form);
  const s = view.scenarios.find((x) => x.scenario.id === about.thing);
  const ask = s?.asks.find((a) => a.ask.id === about.case);
  if (!s || !ask) throw new Error(`${about.thing} ${about.case}`);
  const names: Record<string, number | string | boolean> = { ...shown.drawn };
  for (const { name, tree } of s.lets) names[name] = evaluate(tree, names, view) as number;
  for (const r of s.require) expect(evaluate(r, names, view)).toBe(true);
  if ('number' in ask) {
    const value = evaluate(ask.number, names, view) as number;
    return { right: { typed: [], value: [value] }, wrong: [{ typed: [], value: [3 * Math.abs(value) + 1777.7] }] };
  }
  const rule = ask.rules.find((r) => r.if === null || evaluate(r.if, names, view) === true);
  expect(rule?.rule.id).toBe(about.rule);
  const gives = rule?.rule.then ?? [];
  return {
    right: { choice: gives[0] as string },
    wrong: shown.choices.filter((c) => !gives.includes(c.id)).map((c) => ({ choice: c.id })),
  };
}

describe.each(files)('%s', (file) => {
  const all = flownBy(file);
  // The forms of the first day; each of the others has a test of its own over the same decks.
  const list = offers(all, null, 1).filter(({ form }) => BASIC.has(form));

  test('every place, value, rule and number is proved by some question', () => {
    const proved = new Set(list.flatMap((o) => o.proves));
    const wanted = [...all.items.values()].filter((i) => ['place', 'value', 'rule', 'number'].includes(i.facet));
    expect(wanted.length).toBeGreaterThan(20);
    expect(wanted.filter((i) => !proved.has(i.key)).map((i) => i.label)).toEqual([]);
    for (const key of proved) expect(all.items.has(key)).toBe(true);
  });

  test('every draw marks its right answer right, wrong ones wrong, and marks the same from the log', () => {
    const empty: string[] = [];
    for (const offer of list) {
      for (const seed of SEEDS) {
        const where = `${offer.form} ${JSON.stringify(offer.about)} ${offer.variant} seed ${seed}`;
        const shown = draw(all, offer, seed);
        if (shown === null) {
          empty.push(where);
          continue;
        }
        const { right, wrong } = answersTo(all, offer, shown);
        const good = mark(all, offer, shown, right);
        expect(Object.keys(good.marks).sort(), where).toEqual([...offer.proves].sort());
        expect(new Set(Object.values(good.marks)), where).toEqual(new Set(['right']));
        expect(good.flawed, where).toBe(false);
        expect(good.g, where).toBeLessThanOrEqual(1);
        for (const answer of wrong) {
          const bad = mark(all, offer, shown, answer);
          expect(bad.flawed, where).toBe(true);
          if (shown.form !== 'run') expect(Object.values(bad.marks), where).toEqual(['wrong']);
        }
        const told = mark(all, offer, shown, null);
        expect(new Set(Object.values(told.marks)), where).toEqual(new Set(['told']));
        // What the log keeps: JSON of the question, of what was shown and of what was given.
        const { form, about, variant } = offer;
        const kept = JSON.parse(JSON.stringify({ form, about, variant, shown, right })) as Pick<
          Offer,
          'form' | 'about' | 'variant'
        > & { shown: Shown; right: Given };
        const again = mark(all, { ...kept, proves: [] }, kept.shown, kept.right);
        expect(again, where).toEqual(good);
      }
    }
    expect(empty).toEqual([]);
  });

  test('every place can be proved soundly: some faultless run that holds it is not one guess in five', () => {
    const sound = new Set<string>();
    for (const offer of list.filter((o) => o.form === 'run')) {
      const shown = draw(all, offer, 1);
      if (!shown) continue;
      const { g } = mark(all, offer, shown, answersTo(all, offer, shown).right);
      if (g <= 0.2) for (const key of offer.proves) sound.add(key);
    }
    const places = [...all.items.values()].filter((i) => i.facet === 'place');
    expect(places.filter((i) => !sound.has(i.key)).map((i) => i.label)).toEqual([]);
  });

  test('nothing that is shown has an unfilled place or a number that is none', () => {
    for (const offer of list) {
      const text = JSON.stringify(draw(all, offer, 5));
      expect(text, JSON.stringify(offer.about)).not.toMatch(/\{[a-z][A-Za-z0-9]*\}|undefined|NaN|Infinity/);
    }
  });

  test('guess rates, times and rows are within their bounds', () => {
    for (const o of list) {
      expect(o.g).toBeGreaterThan(0);
      expect(o.g).toBeLessThan(1);
      expect(o.seconds).toBeGreaterThan(3);
      expect(o.seconds).toBeLessThan(90);
      expect(o.proves.length).toBeGreaterThan(0);
    }
  });

  test('the same arguments give the same questions', () => {
    expect(offers(flownBy(file), null, 1)).toEqual(offers(all, null, 1));
  });
});
