import type { Tree } from '../../formula/tree.ts';
import { below, type Random, seeded } from '../../lib/random.ts';
import type { Band, Deck, Draw, Id } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import { UNIT_FACTS } from '../../model/units.ts';
import { bandOf, within } from '../band.ts';
import { placesIn } from '../fill.ts';
import { type Comparison, comparisonsOf, inlined, isTrue, type Lookups, namesIn, sameTree } from '../formulas.ts';
import { gridValue } from '../procedure/situations.ts';
import type { ResolvedAsk, ResolvedScenario } from '../resolved.ts';
import { marginOf } from './margin.ts';
import { type NumberSlip, numberSlips } from './slips.ts';
import { numberOf, ruleThatHolds, withLets } from './values.ts';

/** A live draw gives up after so many tries and says so. */
const TRIES = 2000;
/** Of so many draws that would do, the one nearest to a boundary is asked. */
const CANDIDATES = 6;
/** An RTO event is not drawn within so many kt below V1. */
const BELOW_V1 = 5;

export interface DrawnScenario {
  /** Values of the day, conditions and the scenario's own: all that is needed to mark again. */
  readonly drawn: Drawn;
  readonly tries: number;
}

/**
 * What a draw of one ask needs, worked out once: reuse it for many seeds.
 * @param steer the rule that is due
 */
export interface DrawPlan {
  readonly scenario: ResolvedScenario;
  readonly ask: ResolvedAsk;
  readonly steer: Id | null;
  readonly sources: readonly (readonly [string, (random: Random) => number | string | boolean])[];
  readonly comparisons: readonly { readonly comparison: Comparison; readonly band: Band }[];
  readonly v1: readonly Comparison[];
  readonly events: readonly { readonly name: string; readonly words: Readonly<Record<string, string>> }[];
  readonly slips: readonly NumberSlip[];
  readonly lookups: Lookups;
}

export function planDraw(
  deck: Deck,
  scenario: ResolvedScenario,
  askId: Id,
  steer: Id | null,
  lookups: Lookups,
): DrawPlan | null {
  const ask = scenario.asks.find((a) => a.ask.id === askId);
  if (!ask) return null;
  if (steer !== null && !('rules' in ask && ask.rules.some((r) => r.rule.id === steer))) return null;
  const lets = new Map(scenario.lets.map((l) => [l.name, l.tree]));
  const comparisons = 'rules' in ask ? consulted(ask, steer, lets, scenario) : [];
  const all = scenario.asks.flatMap((a) => ('rules' in a ? consulted(a, null, lets, scenario) : []));
  return {
    scenario,
    ask,
    steer,
    lookups,
    comparisons,
    sources: sourcesOf(deck, scenario),
    v1: scenario.scenario.nearV1
      ? []
      : all.map((c) => c.comparison).filter((c) => [c.left, c.right].some((t) => isV1(t))),
    events: Object.entries(scenario.scenario.draw).flatMap(([name, d]) =>
      'oneOf' in d && !Array.isArray(d.oneOf) ? [{ name, words: d.oneOf as Record<string, string> }] : [],
    ),
    slips: 'number' in ask ? numberSlips(ask, lets) : [],
  };
}

/** The seeded draw of a plan; null after 2,000 tries without one. */
export function drawScenario(plan: DrawPlan, seed: number): DrawnScenario | null {
  const random = seeded(seed);
  let best: { drawn: Drawn; distance: number; tries: number } | null = null;
  let unclear: { drawn: Drawn; tries: number } | null = null;
  let found = 0;
  for (let tries = 1; tries <= TRIES; tries++) {
    const drawn = Object.fromEntries(plan.sources.map(([name, draw]) => [name, draw(random)]));
    const values = acceptable(plan, drawn);
    if (!values) continue;
    if (!slipsShow(plan, values)) {
      unclear ??= { drawn, tries };
      // Some scenarios can never tell their slips apart: a quarter of the tries is enough to see that.
      if (!best && tries > TRIES / 4) break;
      continue;
    }
    const distance = nearest(plan, values);
    if (distance === null) continue;
    if (!best || distance < best.distance) best = { drawn, distance, tries };
    found++;
    if (found >= CANDIDATES || plan.comparisons.length === 0) break;
  }
  const chosen = best ?? unclear;
  return chosen && { drawn: chosen.drawn, tries: chosen.tries };
}

/**
 * Right numbers of situations as they come, not steered: what somebody might guess who has seen many.
 * @param most so many at the most; fewer where they are hard to draw
 */
export function sampleNumbers(plan: DrawPlan, most: number): number[] {
  const random = seeded(`sample ${plan.scenario.scenario.id} ${plan.ask.ask.id}`);
  const out: number[] = [];
  for (let tries = 0; tries < 5 * most && out.length < most; tries++) {
    const values = acceptable(plan, Object.fromEntries(plan.sources.map(([name, draw]) => [name, draw(random)])));
    const number = values && 'number' in plan.ask ? numberOf(plan.ask.number, values, plan.lookups) : null;
    if (number !== null) out.push(number);
  }
  return out;
}

/** Everything that must hold of a draw; the values with those of `let`, or null. */
function acceptable(plan: DrawPlan, drawn: Drawn): Drawn | null {
  const { scenario, ask, lookups } = plan;
  const values = withLets(scenario, drawn, lookups);
  if (!values) return null;
  for (const r of scenario.require) if (isTrue(r, values, lookups) !== true) return null;
  if (ask.if && isTrue(ask.if, values, lookups) !== true) return null;
  if ('rules' in ask) {
    const rule = ruleThatHolds(ask, values, lookups);
    if (!rule || (plan.steer !== null && rule.rule.id !== plan.steer)) return null;
  } else if (numberOf(ask.number, values, lookups) === null) return null;
  if (plan.events.some((e) => (e.words[String(values[e.name])] ?? '') !== '')) {
    for (const c of plan.v1) {
      const [a, b] = isV1(c.left) ? [c.left, c.right] : [c.right, c.left];
      const v1 = numberOf(a, values, lookups);
      const speed = numberOf(b, values, lookups);
      if (v1 !== null && speed !== null && speed < v1 && v1 - speed <= BELOW_V1) return null;
    }
  }
  return values;
}

/** Distance of the nearest comparison from turning, by its scale; null where one is inside the accepted band. */
function nearest(plan: DrawPlan, values: Drawn): number | null {
  let least = Number.POSITIVE_INFINITY;
  for (const { comparison, band } of plan.comparisons) {
    const margin = marginOf(comparison, values, plan.lookups);
    if (!margin) continue;
    const { plus, minus } = bandOf(band);
    if (!margin.printed && margin.distance < Math.max(plus, minus) - 1e-9) return null;
    least = Math.min(least, margin.distance / margin.scale);
  }
  return least;
}

/**
 * No slip would be accepted as right, no two give the same number, and sine and cosine taken for one another lie so
 * far apart that it is named, also when it is rounded (more than three bands): the wind is away from 45°.
 */
function slipsShow(plan: DrawPlan, values: Drawn): boolean {
  if (!('number' in plan.ask) || plan.slips.length === 0) return true;
  const right = numberOf(plan.ask.number, values, plan.lookups);
  if (right === null) return false;
  const band = bandOf(plan.ask.ask.accept);
  const wide = Math.max(band.plus, band.minus, 1e-6);
  const half = UNIT_FACTS[plan.ask.ask.unit].whole ? 0.5 : 0.05;
  const made: number[] = [];
  for (const slip of plan.slips) {
    const value = numberOf(slip.number, values, plan.lookups);
    if (value === null) continue;
    // What is counted right goes from the number as it is said: by up to half of its last digit further.
    const counted = { plus: band.plus + half, minus: band.minus + half };
    if (within(value, right, counted) || (slip.mustShow && Math.abs(value - right) <= 3 * wide + half)) return false;
    if (made.some((other) => Math.abs(other - value) <= 2 * wide)) return false;
    made.push(value);
  }
  return true;
}

/** Comparisons whose turning would change the rule: of the rule due and of those before it. */
function consulted(
  ask: Extract<ResolvedAsk, { rules: unknown }>,
  steer: Id | null,
  lets: ReadonlyMap<string, Tree>,
  scenario: ResolvedScenario,
): { comparison: Comparison; band: Band }[] {
  const until = steer === null ? ask.rules.length - 1 : ask.rules.findIndex((r) => r.rule.id === steer);
  return ask.rules.slice(0, until + 1).flatMap((r) =>
    r.if
      ? comparisonsOf(inlined(r.if, lets)).map((comparison) => ({
          comparison,
          band: bandFor(comparison, lets, scenario),
        }))
      : [],
  );
}

/** The band with which the compared number is asked in this scenario; 0 where it is not asked. */
function bandFor(c: Comparison, lets: ReadonlyMap<string, Tree>, scenario: ResolvedScenario): Band {
  for (const ask of scenario.asks) {
    if (!('number' in ask)) continue;
    const number = inlined(ask.number, lets);
    if (sameTree(number, c.left) || sameTree(number, c.right)) return ask.ask.accept ?? 0;
  }
  return 0;
}

const isV1 = (tree: Tree): boolean => namesIn(tree).length === 1 && /^v1$/i.test(namesIn(tree)[0] as string);

/** Every name to be drawn, in a stable order: the scenario's own, then values of the day and conditions that it uses. */
function sourcesOf(deck: Deck, resolved: ResolvedScenario): DrawPlan['sources'] {
  const { scenario } = resolved;
  const out: [string, (random: Random) => number | string | boolean][] = Object.entries(scenario.draw).map(
    ([name, d]) => [name, sourceOf(d)],
  );
  const own = new Set([...Object.keys(scenario.draw), ...resolved.lets.map((l) => l.name)]);
  const used = new Set(namesUsed(resolved));
  for (const d of deck.day ?? []) {
    if (used.has(d.id) && !own.has(d.id)) out.push([d.id, sourceOf({ from: d.from, to: d.to, step: d.step ?? 1 })]);
  }
  for (const c of deck.conditions ?? []) {
    if (!used.has(c.id) || own.has(c.id)) continue;
    if ('yes' in c) out.push([c.id, (random) => below(random, 2) === 1]);
    else if ('options' in c) out.push([c.id, sourceOf({ oneOf: c.options })]);
    else out.push([c.id, sourceOf({ from: c.from, to: c.to, step: c.step ?? 1 })]);
  }
  return out;
}

function sourceOf(d: Draw): (random: Random) => number | string {
  if ('from' in d) {
    const count = Math.max(1, Math.floor((d.to - d.from) / (d.step ?? 1) + 1e-9) + 1);
    return (random) => gridValue(d.from, below(random, count), d.step);
  }
  const list: readonly (number | string)[] = Array.isArray(d.oneOf) ? d.oneOf : Object.keys(d.oneOf);
  return (random) => list[below(random, list.length)] as number | string;
}

/** Names in any formula or text of a scenario. */
export const namesUsed = (resolved: ResolvedScenario): string[] => [
  ...new Set([...namesAsked(resolved), ...resolved.require.flatMap(namesIn)]),
];

/** Names that an answer may hang on: what only says which draws make sense (VR above V1) nobody needs to see. */
export function namesAsked(resolved: ResolvedScenario): string[] {
  const { scenario } = resolved;
  const trees = [
    ...resolved.lets.map((l) => l.tree),
    ...resolved.asks.flatMap((a) => [
      ...(a.if ? [a.if] : []),
      ...('number' in a ? [a.number, ...a.slips.map((s) => s.number)] : a.rules.flatMap((r) => r.if ?? [])),
    ]),
  ];
  return [
    ...new Set([
      ...trees.flatMap(namesIn),
      ...[scenario.situation, ...scenario.asks.map((a) => a.ask)].flatMap(placesIn),
    ]),
  ];
}
