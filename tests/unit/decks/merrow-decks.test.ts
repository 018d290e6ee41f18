import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { resolve } from '../../../src/deck/resolve.ts';
import { draw, mark, offers } from '../../../src/forms/registry.ts';
import { parse } from '../../../src/formula/parse.ts';
import { foldText } from '../../../src/lib/fold-text.ts';
import {
  type Block,
  type Deck,
  isBlock,
  isFact,
  isNumberAsk,
  isNumberLimit,
  isStep,
  isTable,
  type Node,
  type Step,
  type Unit,
} from '../../../src/model/deck.ts';
import type { Offer, ScenarioShown } from '../../../src/model/form.ts';
import type { Flown, Resolved } from '../../../src/subjects/resolved.ts';
import { ruleThatHolds, withLets } from '../../../src/subjects/scenario/values.ts';

/*
 * The two decks of the type that does not exist: what they hold, that every number is marked as invented, that no
 * number of a real type got in, and that everything in them can be met by a learner.
 */

const read = (name: string): Deck =>
  JSON.parse(readFileSync(new URL(`../../../decks/${name}.deck.json`, import.meta.url), 'utf8')) as Deck;

const takeoff = read('merrow-takeoff');
const abnormal = read('merrow-abnormal');
const DECKS: readonly (readonly [string, Deck])[] = [
  ['take-off', takeoff],
  ['abnormal', abnormal],
];

const CONTENT = 'a'.repeat(64);
const EVERYTHING: Flown = { engine: ['tk11', 'tk14'], operator: ['calder', 'fellwater'] };
const resolved = new Map<Deck, Resolved>();
const flownBy = (deck: Deck, flown: Flown = EVERYTHING): Resolved => {
  if (flown !== EVERYTHING) return resolve(deck, CONTENT, flown);
  const known = resolved.get(deck) ?? resolve(deck, CONTENT, flown);
  resolved.set(deck, known);
  return known;
};

const nodesOf = (nodes: readonly Node[]): Node[] =>
  nodes.flatMap((n) => [n, ...(isBlock(n) ? (n.lanes ?? [n.steps ?? []]).flatMap((list) => nodesOf(list)) : [])]);
const allNodes = (deck: Deck): Node[] => (deck.procedures ?? []).flatMap((p) => nodesOf(p.steps));
const stepsOf = (deck: Deck): Step[] => allNodes(deck).filter(isStep);
const blocksOf = (deck: Deck): Block[] => allNodes(deck).filter(isBlock);

/** Every number that a limit asks or a table holds. */
const numbersOf = (deck: Deck): { id: string; unit: Unit; value: number; source: string | undefined }[] =>
  (deck.limits ?? []).flatMap((l) => {
    if (isFact(l)) return [];
    const of = (value: number | undefined, source?: string) =>
      value === undefined ? [] : [{ id: l.id, unit: l.unit, value, source: source ?? l.source }];
    if (isTable(l)) return l.table.rows.flatMap((row) => of(row[1]));
    const own = l.cases ?? [l];
    return own.flatMap((c) => [...of(c.value, c.source), ...of(c.from, c.source), ...of(c.to, c.source)]);
  });

const sourceId = (ref: string | undefined): string => (ref ?? '').split('#')[0] as string;

describe.each(DECKS)('Merrow 240, %s', (_, deck) => {
  it('calls itself fictional, and so does every number in it', () => {
    expect(deck.nature).toBe('fictional');
    const basis = new Map(deck.sources.map((s) => [s.id, s.basis]));
    expect([...basis.values()].every((b) => b === 'invented')).toBe(true);
    const numbers = numbersOf(deck);
    for (const n of numbers) expect([n.id, basis.get(sourceId(n.source))]).toEqual([n.id, 'invented']);
    for (const s of deck.scenarios ?? []) expect([s.id, basis.get(sourceId(s.source))]).toEqual([s.id, 'invented']);
    for (const p of deck.procedures ?? []) expect([p.id, basis.get(sourceId(p.source))]).toEqual([p.id, 'invented']);
    for (const s of stepsOf(deck)) if (s.source) expect(basis.get(sourceId(s.source))).toBe('invented');
  });

  // Values of real types, from memory: a learner who knows one must not find it here.
  it('holds none of the numbers of real types', () => {
    const real: readonly (readonly [number, Unit])[] = [
      [3, '°/s'],
      [15, '°'],
      [12.5, '°'],
      [50, '% N1'],
      [1.05, 'EPR'],
      [20, 'kt'],
      [80, 'kt'],
      [100, 'kt'],
      [10, 's'],
      [100, 'ft'],
      [400, 'ft'],
    ];
    const found = numbersOf(deck).filter((n) => real.some(([v, u]) => v === n.value && u === n.unit));
    expect(found.map((n) => `${n.id} ${n.value} ${n.unit}`)).toEqual([]);
  });

  it('gives every id once, and names nothing that is not there', () => {
    const ids = [
      ...(deck.procedures ?? []).map((p) => p.id),
      ...stepsOf(deck).map((s) => s.id),
      ...blocksOf(deck).flatMap((b) => b.id ?? []),
      ...(deck.limits ?? []).map((l) => l.id),
      ...(deck.scenarios ?? []).map((s) => s.id),
    ];
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    const limits = new Set((deck.limits ?? []).map((l) => l.id));
    const asks = new Set((deck.scenarios ?? []).flatMap((s) => s.asks.map((a) => `${s.id}#${a.id}`)));
    const crew = new Set(['PF', 'PM', 'both', 'either', ...(deck.crew ?? []).map((c) => c.id)]);
    const here = new Set(ids);
    const missing: string[] = [];
    const need = (ok: boolean, what: string) => {
      if (!ok) missing.push(what);
    };
    for (const s of stepsOf(deck)) {
      const wanted = [
        s.limit,
        s.cue?.limit,
        s.from?.limit,
        s.until?.limit,
        s.after?.atLeast?.limit,
        s.after?.atMost?.limit,
      ];
      for (const l of wanted) need(l === undefined || limits.has(l), `${s.id}: limit ${l}`);
      for (const o of [...(s.needs ?? []), s.answers, s.after?.step]) {
        need(o === undefined || here.has(o), `${s.id}: step ${o}`);
      }
      need(s.rule === undefined || asks.has(s.rule), `${s.id}: rule ${s.rule}`);
      need(s.by === undefined || crew.has(s.by), `${s.id}: crew ${s.by}`);
      for (const d of [s.cue?.day, s.from?.day, s.until?.day]) {
        need(d === undefined || (deck.day ?? []).some((x) => x.id === d), `${s.id}: day ${d}`);
      }
      for (const e of [s.cue?.event]) {
        need(e === undefined || (deck.conditions ?? []).some((x) => x.id === e), `${s.id}: event ${e}`);
      }
    }
    for (const n of allNodes(deck)) if ('use' in n) need(here.has(n.use), `use ${n.use}`);
    expect(missing).toEqual([]);
  });

  it('has no formula that cannot be read', () => {
    const formulas = [
      ...allNodes(deck).flatMap((n) => n.if ?? []),
      ...(deck.day ?? []).flatMap((d) => d.require ?? []),
      ...(deck.scenarios ?? []).flatMap((s) => [
        ...Object.values(s.let ?? {}),
        ...(s.require ?? []),
        ...s.asks.flatMap((a) => [
          ...(a.if ? [a.if] : []),
          ...(isNumberAsk(a)
            ? [a.number, ...(a.slips ?? []).map((x) => x.number)]
            : a.choose.rules.flatMap((r) => r.if ?? [])),
        ]),
      ]),
    ];
    expect(formulas.length).toBeGreaterThan(10);
    expect(formulas.filter((f) => !parse(f).ok)).toEqual([]);
  });

  it('fits a phone, and gives most steps a reason and a usual slip', () => {
    const steps = stepsOf(deck);
    const long = steps.filter((s) => (s.do ?? '').length > 60 || (s.say ?? '').length > 60);
    expect(long.map((s) => s.id)).toEqual([]);
    expect(steps.filter((s) => s.why).length / steps.length).toBeGreaterThan(0.5);
    expect(steps.filter((s) => s.slip).length).toBeGreaterThan(steps.length / 4);
    expect(steps.filter((s) => s.by === undefined).map((s) => s.id)).toEqual([]);
  });

  it('gives neighbours in an asked order a reason for it', () => {
    const bare: string[] = [];
    const walk = (nodes: readonly Node[]): void => {
      nodes.forEach((n, i) => {
        if (isBlock(n)) for (const list of n.lanes ?? [n.steps ?? []]) walk(list);
        else if (isStep(n) && i > 0 && !n.cue && !n.answers && !n.after && !n.needs && !n.from) bare.push(n.id);
      });
    };
    for (const p of deck.procedures ?? []) if (p.done === 'memory' || p.done === 'flow') walk(p.steps);
    expect(bare).toEqual([]);
  });

  it('has in each situation an order, a run of at most 12 rows, and steps that can be told apart', () => {
    for (const view of flownBy(deck).views) {
      for (const p of view.procedures) {
        expect(p.situations.length, p.procedure.id).toBeGreaterThan(0);
        for (const s of p.situations) {
          const where = `${view.id} ${p.procedure.id} ${s.id}`;
          expect(s.steps.length, where).toBeLessThanOrEqual(12);
          const asked = p.done === 'memory' || p.done === 'flow';
          const texts = s.steps.map((x) => foldText(x.text));
          texts.forEach((t, i) => {
            const twin = texts.indexOf(t);
            if (twin !== i && asked) expect(s.order.before[twin]?.[i], `${where}: ${t}`).toBe(true);
          });
          if (asked) expect(s.order.pairs, where).toBeGreaterThan(0);
        }
      }
    }
  });

  it('changes with the variant: each option of each axis has items of its own', () => {
    const items = [...flownBy(deck).items.values()];
    for (const axis of deck.variants ?? []) {
      for (const option of Object.keys(axis.options)) {
        const own = items.filter((i) => i.views.every((v) => v.split(',').includes(`${axis.id}=${option}`)));
        expect(own.length, `${axis.id}=${option}`).toBeGreaterThan(0);
      }
    }
    const untold = flownBy(deck, {});
    expect(untold.views).toHaveLength(1);
    expect(untold.items.size).toBeLessThan(items.length);
  });

  it('asks every rule and number of its scenarios by seeded draws, and marks the right answer right', () => {
    const all = flownBy(deck);
    const asked = new Set<string>();
    for (const offer of offers(all, null, 1).filter((o) => o.form === 'scenario')) {
      for (let seed = 1; seed <= 5; seed++) {
        const where = `${offer.about.thing} ${offer.about.case} ${offer.about.rule ?? ''} seed ${seed}`;
        const shown = draw(all, offer, seed) as ScenarioShown | null;
        expect(shown, where).not.toBeNull();
        if (!shown) continue;
        expect(`${shown.situation} ${shown.ask}`, where).not.toMatch(/[{}]|\bundefined\b|NaN/);
        const given = rightAnswer(all, offer, shown);
        const marked = mark(all, offer, shown, given);
        for (const key of offer.proves) expect(marked.marks[key], where).toBe('right');
        for (const key of offer.proves) asked.add(key);
      }
    }
    const wanted = [...all.items.values()].filter((i) => i.facet === 'rule' || i.facet === 'number');
    expect(wanted.filter((i) => !asked.has(i.key)).map((i) => i.label)).toEqual([]);
    expect(wanted.length).toBeGreaterThan(5);
  });

  it('can put every place and every limit to a learner who flies everything', () => {
    const all = flownBy(deck);
    const proved = new Set<string>();
    for (const offer of offers(all, null, 1).filter((o) => o.form !== 'scenario')) {
      const shown = draw(all, offer, 7);
      expect(shown, `${offer.form} ${offer.about.thing} ${offer.about.situation ?? ''}`).not.toBeNull();
      expect(JSON.stringify(shown)).not.toMatch(/\{[a-z][A-Za-z0-9]*\}/);
      for (const key of offer.proves) proved.add(key);
    }
    const wanted = [...all.items.values()].filter((i) => i.facet === 'place' || i.facet === 'value');
    expect(wanted.filter((i) => !proved.has(i.key)).map((i) => i.label)).toEqual([]);
  });
});

/** What the rule that holds, or the formula, gives: worked out from the drawn values, not by the marking. */
function rightAnswer(all: Resolved, offer: Offer, shown: ScenarioShown) {
  const view = all.views.find((v) => v.id === offer.variant);
  const scenario = view?.scenarios.find((s) => s.scenario.id === offer.about.thing);
  const ask = scenario?.asks.find((a) => a.ask.id === offer.about.case);
  const values = view && scenario && withLets(scenario, shown.drawn, view);
  if (!view || !ask || !values) throw new Error('the offer does not fit the deck');
  if ('rules' in ask) {
    const rule = ruleThatHolds(ask, values, view);
    expect(rule?.rule.id).toBe(offer.about.rule);
    return { choice: rule?.rule.then[0] as string };
  }
  const told = mark(all, offer, shown, null).detail;
  if (told.form !== 'scenario') throw new Error('not a scenario');
  const value = Number(told.right.replace(/[^\d.−-]/g, '').replace('−', '-'));
  expect(Number.isFinite(value), told.right).toBe(true);
  return { typed: [String(value)], value: [value] };
}

describe('what the take-off deck holds', () => {
  it('has the procedures, steps, limits and scenarios it promises', () => {
    expect(takeoff.procedures?.length).toBeGreaterThanOrEqual(6);
    expect(stepsOf(takeoff).length).toBeGreaterThanOrEqual(50);
    expect(takeoff.limits?.length).toBeGreaterThanOrEqual(22);
    expect(takeoff.scenarios?.length).toBeGreaterThanOrEqual(4);
    expect(new Set(takeoff.procedures?.map((p) => p.done))).toEqual(
      new Set(['memory', 'flow', 'read-and-do', 'challenge-response']),
    );
  });

  it('uses every construct of the language', () => {
    const steps = stepsOf(takeoff);
    const limits = takeoff.limits ?? [];
    const text = JSON.stringify(takeoff);
    const used = {
      lanes: blocksOf(takeoff).some((b) => b.lanes),
      together: blocksOf(takeoff).some((b) => b.together),
      named: blocksOf(takeoff).some((b) => b.id),
      use: allNodes(takeoff).some((n) => 'use' in n),
      opposite: allNodes(takeoff).some((n) => n.if === 'rolling') && allNodes(takeoff).some((n) => n.if === '!rolling'),
      needs: steps.some((s) => s.needs),
      wait: steps.some((s) => s.after?.atLeast),
      held: steps.some((s) => s.from && s.until),
      when: steps.some((s) => s.when) && limits.some((l) => l.when),
      day: steps.some((s) => s.cue?.day) && /\{v1\}/.test(text),
      answers: steps.some((s) => s.answers && s.ifNoAnswer),
      alsoSay: steps.some((s) => s.alsoSay),
      critical: steps.some((s) => s.critical) && limits.some((l) => l.critical),
      rule: steps.some((s) => s.rule),
      strangers: takeoff.procedures?.some((p) => p.strangers),
      senses: new Set(limits.filter(isNumberLimit).map((l) => l.sense)).size,
      strict: limits.some((l) => isNumberLimit(l) && l.strict),
      fact: limits.some(isFact),
      table: limits.some((l) => isTable(l) && l.asked),
      given: limits.some((l) => !isTable(l) && l.cases?.some((c) => c.given)),
      byVariant: limits.some((l) => !isTable(l) && l.cases?.some((c) => c.when)),
      lookup: /lookup\('/.test(text),
      limitInFormula: /limit\('/.test(text),
      events: takeoff.scenarios?.some((s) =>
        Object.values(s.draw).some((d) => 'oneOf' in d && !Array.isArray(d.oneOf)),
      ),
      picture: takeoff.scenarios?.some((s) => s.picture),
    };
    expect(Object.entries(used).filter(([, v]) => !v)).toEqual([]);
    expect(used.senses).toBe(5);
  });
});

describe('what the abnormal deck holds', () => {
  it('has the procedures, steps, limits and scenarios it promises', () => {
    expect(abnormal.procedures?.length).toBeGreaterThanOrEqual(4);
    expect(stepsOf(abnormal).length).toBeGreaterThanOrEqual(30);
    expect(abnormal.limits?.length).toBeGreaterThanOrEqual(8);
    expect(abnormal.scenarios?.length).toBeGreaterThanOrEqual(2);
    expect(allNodes(abnormal).some((n) => 'use' in n)).toBe(true);
    expect(abnormal.procedures?.some((p) => p.done === 'challenge-response')).toBe(true);
  });

  it('gives the type the same numbers in both decks', () => {
    const first = new Map(numbersOf(takeoff).map((n) => [`${n.id} ${n.unit}`, 0]));
    const values = (deck: Deck, name: string): number[] =>
      numbersOf(deck)
        .filter((n) => `${n.id} ${n.unit}` === name)
        .map((n) => n.value);
    const shared = numbersOf(abnormal)
      .map((n) => `${n.id} ${n.unit}`)
      .filter((n) => first.has(n));
    expect(shared.length).toBeGreaterThan(1);
    for (const n of shared) expect([n, values(abnormal, n)]).toEqual([n, values(takeoff, n)]);
  });
});
