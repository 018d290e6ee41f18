/** Numbers computed the wrong way, over all demonstration decks and variants: none is ever counted right. */
import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { resolve } from '../../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import { askedScenario } from '../../../src/forms/scenario/draw.ts';
import type { Deck } from '../../../src/model/deck.ts';
import type { ScenarioShown } from '../../../src/model/form.ts';
import { numberSlips } from '../../../src/subjects/scenario/slips.ts';
import { numberOf, withLets } from '../../../src/subjects/scenario/values.ts';

const SEEDS = 60;

test.each(readdirSync('decks'))('%s', (file) => {
  const deck = JSON.parse(readFileSync(`decks/${file}`, 'utf8')) as Deck;
  const flown = Object.fromEntries((deck.variants ?? []).map(({ id, options }) => [id, Object.keys(options)]));
  const all = resolve(deck, 'a'.repeat(64), flown);
  let tried = 0;
  for (const offer of offers(all, null, 1)) {
    const asked = offer.form === 'scenario' ? askedScenario(all, offer.variant, offer.about) : null;
    if (asked === null || !('number' in asked.ask)) continue;
    const slips = numberSlips(asked.ask, new Map(asked.scenario.lets.map(({ name, tree }) => [name, tree])));
    for (let seed = 0; seed < SEEDS; seed++) {
      const shown = draw(all, offer, seed) as ScenarioShown | null;
      const values = shown && withLets(asked.scenario, shown.drawn, asked.view);
      for (const { number, note } of values ? slips : []) {
        const wrong = values && numberOf(number, values, asked.view);
        const right = values && numberOf(asked.ask.number, values, asked.view);
        // What comes to the same number there is no slip: "above 27 °C" at 10 °C.
        if (shown === null || wrong === null || right === null || Math.abs(wrong - right) < 1e-9) continue;
        tried += 1;
        const given = { typed: [String(wrong)], value: [wrong] };
        expect(mark(all, offer, shown, given).flawed, `${shown.situation} ${note}`).toBe(true);
      }
    }
  }
  expect(tried > 0).toBe((deck.scenarios ?? []).some(({ asks }) => asks.some((ask) => 'number' in ask)));
});
