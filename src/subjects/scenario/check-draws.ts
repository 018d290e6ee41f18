import { headwind } from '../../formula/flight.ts';
import type { Tree } from '../../formula/tree.ts';
import type { Deck, Scenario } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import type { Checking } from '../check.ts';
import { at } from '../finding.ts';
import { type Call, callsIn, comparisonsOf, evaluate, inlined, isTrue, namesIn, numberIn } from '../formulas.ts';
import type { ResolvedAsk, ResolvedScenario, View } from '../resolved.ts';
import { type Axis, axisOfDraw, axisOfName, inShort, spaceOf } from '../space.ts';
import { type DrawPlan, drawScenario, namesUsed, planDraw } from './draw.ts';

/** Tailwind that no airliner and few light aeroplanes may take off or land with, kt. Common practice, no source. */
const MOST_TAILWIND = 15;
/** A bound below this tells a tailwind from a headwind; it limits none, kt. */
const LEAST_LIMIT = 5;
/** Draws so few for a rule that the live draw is tried too. */
const RARE = 1 / 200;

/** What may still be tried in one deck, so that none takes minutes: draws counted, and rules drawn live. */
export interface Budget {
  points: number;
  live: number;
}

/** A count of draws with one for example. */
interface Tally {
  count: number;
  readonly example: string;
}
class Tallies {
  readonly #map = new Map<string, Tally>();
  readonly #names: readonly string[];
  constructor(names: readonly string[]) {
    this.#names = names;
  }
  add(key: string, drawn: Drawn): void {
    const t = this.#map.get(key);
    if (t) t.count += 1;
    else this.#map.set(key, { count: 1, example: inShort(drawn, this.#names) });
  }
  count = (key: string): number => this.#map.get(key)?.count ?? 0;
  [Symbol.iterator](): Iterator<[string, Tally]> {
    return this.#map[Symbol.iterator]();
  }
}

/** One variant combination with the scenario as it is there. */
export type InView = readonly [View, ResolvedScenario];

/** Draws tried between two pauses: some ms. */
const SLICE = 2048;

/**
 * Draws a scenario in every combination of its values, or many at random, and counts what comes of it. Pauses often, so
 * that it can be given up or go on later.
 * @param views those that hold it
 * @returns whether every combination was tried
 */
export function* checkDraws(
  c: Pick<Checking, 'deck' | 'add'>,
  scenario: Scenario,
  path: string,
  views: readonly InView[],
  budget: Budget,
): Generator<undefined, boolean> {
  const different = new Map<string, InView>();
  for (const [view, resolved] of views) {
    // Variants in which its limits have the same values are one and the same trial.
    const key = limitsOf(resolved)
      .map((id) => view.limitValue(id))
      .join();
    if (!different.has(key)) different.set(key, [view, resolved]);
  }
  const trials: Trial[] = [];
  for (const [view, resolved] of different.values()) trials.push(yield* trial(c.deck, view, resolved, budget));
  if (trials.length === 0) return true;
  const sum = (f: (t: Trial) => number): number => trials.reduce((n, t) => n + f(t), 0);
  const exact = trials.every((t) => t.exact);
  const tried = sum((t) => t.tried);
  if (sum((t) => t.met) === 0) {
    const what = trials[0]?.blocking ?? '';
    c.add(exact ? 'scenario-never' : 'scenario-rare', at(path, 'draw'), { tried, what });
  } else {
    scenario.asks.forEach((ask, i) => {
      const here = at(path, 'asks', i);
      if ('number' in ask) {
        if (sum((t) => t.asked.count(`${i}`)) === 0)
          c.add(exact ? 'scenario-never' : 'scenario-rare', here, { tried, what: '' });
        return;
      }
      ask.choose.rules.forEach((rule, k) => {
        const count = sum((t) => t.asked.count(`${i} ${k}`));
        const place = at(here, 'choose', 'rules', k);
        if (count === 0) c.add(exact ? 'rule-never' : 'rule-rare', place, { id: rule.id, tried });
        else if (count < tried * RARE && budget.live-- > 0 && !trials.some((t) => t.drawable(ask.id, rule.id)))
          c.add('rule-rare', place, { id: rule.id, tried: 2000 });
      });
    });
  }
  for (const t of trials) {
    const share = (n: number): number => Math.max(1, Math.round((100 * n) / Math.max(1, t.met + t.broken)));
    for (const [place, { count, example }] of t.noValue)
      c.add('draw-no-value', path + place, { share: share(count), example });
    for (const [place, { count, example }] of t.noRule)
      c.add('rule-none', path + place, { share: share(count), example });
    if (t.tail) c.add('wind-unsound', at(path, 'draw'), { tail: Math.round(t.tail.kt), example: t.tail.example });
    // What is wrong in one variant is most often wrong in all: said once.
    if ([...t.noValue, ...t.noRule].length > 0 || t.tail) break;
  }
  if (scenario.nearV1) c.add('near-v1', at(path, 'nearV1'));
  return exact;
}

interface Trial {
  readonly exact: boolean;
  readonly tried: number;
  /** Draws that meet all that is required. */
  readonly met: number;
  /** Draws that would, if everything had a value. */
  readonly broken: number;
  /** The requirement that lets none through. */
  readonly blocking: string;
  /** `ask` or `ask rule` by their place. */
  readonly asked: Tallies;
  readonly noValue: Tallies;
  readonly noRule: Tallies;
  readonly tail: { readonly kt: number; readonly example: string } | null;
  drawable(ask: string, rule: string): boolean;
}

function* trial(deck: Deck, view: View, resolved: ResolvedScenario, budget: Budget): Generator<undefined, Trial> {
  const { scenario } = resolved;
  const axes = axesOf(deck, resolved);
  const space = spaceOf(axes, Math.max(500, budget.points));
  budget.points = Math.max(0, budget.points - space.count);
  const wind = windOf(resolved);
  const plan = planDraw(deck, resolved, scenario.asks[0]?.id ?? '', null, view);
  const passed = resolved.require.map(() => 0);
  let [met, broken] = [0, 0];
  let tail: Trial['tail'] = null;
  const names = axes.map((a) => a.name);
  const drawn: Record<string, number | string | boolean> = {};
  const [noValue, noRule, asked] = [new Tallies(names), new Tallies(names), new Tallies(names)];
  draws: for (let i = 0; i < space.count; i++) {
    if (i % SLICE === SLICE - 1) yield;
    space.put(i, drawn);
    let without: string | null = null;
    for (const { name, tree } of resolved.lets) {
      const value = evaluate(tree, drawn, view);
      // A name without a value is one that no formula can use.
      (drawn as Record<string, unknown>)[name] = value ?? undefined;
      if (value === null) without ??= at('/let', name);
    }
    for (const [k, tree] of resolved.require.entries()) {
      const truth = isTrue(tree, drawn, view);
      if (truth === false) continue draws;
      // What the day requires stands behind the scenario's own, which alone have a place in its text.
      if (truth === null && k < (scenario.require?.length ?? 0)) without ??= at('/require', k);
      passed[k] = (passed[k] as number) + 1;
    }
    if (plan && nearV1(plan, drawn, view)) continue;
    if (without !== null) {
      broken += 1;
      noValue.add(without, drawn);
      continue;
    }
    met += 1;
    let refused = false;
    resolved.asks.forEach((ask, k) => {
      if (ask.if && isTrue(ask.if, drawn, view) !== true) return;
      if ('number' in ask) {
        if (numberIn(ask.number, drawn, view) === null) noValue.add(at('/asks', k, 'number'), drawn);
        else asked.add(`${k}`, drawn);
        return;
      }
      for (const [n, rule] of ask.rules.entries()) {
        const truth = rule.if ? isTrue(rule.if, drawn, view) : true;
        if (truth === null) noValue.add(at('/asks', k, 'choose', 'rules', n, 'if'), drawn);
        if (truth === false) continue;
        if (truth) {
          asked.add(`${k} ${n}`, drawn);
          refused ||= wind.limits(k, n, drawn, view);
        }
        return;
      }
      noRule.add(at('/asks', k, 'choose', 'rules'), drawn);
    });
    if (tail === null && !refused) {
      const kt = wind.tail(drawn, view);
      if (kt > MOST_TAILWIND) tail = { kt, example: inShort(drawn, names) };
    }
  }
  const shut = passed.indexOf(0);
  return {
    exact: space.exact,
    tried: space.count,
    met,
    broken,
    blocking: scenario.require?.[shut] ?? '',
    asked,
    noValue,
    noRule,
    tail,
    drawable: (ask, rule) => {
      const steered = planDraw(deck, resolved, ask, rule, view);
      return steered !== null && [1, 2, 3].some((seed) => drawScenario(steered, seed) !== null);
    },
  };
}

/** What is drawn for a scenario: its own values, then those of the day and conditions that it uses. */
export function axesOf(deck: Deck, resolved: ResolvedScenario): Axis[] {
  const own = Object.entries(resolved.scenario.draw).map(([name, draw]) => axisOfDraw(name, draw));
  const others = namesUsed(resolved).filter((name) => !Object.hasOwn(resolved.scenario.draw, name));
  return [...own, ...others.flatMap((name) => axisOfName(deck, name) ?? [])];
}

/** Limits that its formulas name. */
export const limitsOf = (resolved: ResolvedScenario): string[] =>
  [...resolved.lets.map((l) => l.tree), ...resolved.require, ...resolved.asks.flatMap(treesOf)]
    .flatMap(callsIn)
    .flatMap(({ name, args: [first] }) => (name === 'limit' && first?.kind === 'string' ? [first.value] : []));

const treesOf = (ask: ResolvedAsk): Tree[] => [
  ...(ask.if ? [ask.if] : []),
  ...('number' in ask ? [ask.number] : ask.rules.flatMap((r) => r.if ?? [])),
];

/** An RTO event within 5 kt below V1 is not drawn unless the author says so: as in draw.ts. */
export function nearV1(plan: DrawPlan, values: Drawn, view: View): boolean {
  if (!plan.events.some((e) => (e.words[String(values[e.name])] ?? '') !== '')) return false;
  return plan.v1.some(({ left, right }) => {
    const [a, b] = namesIn(left).some((n) => /^v1$/i.test(n)) ? [left, right] : [right, left];
    const [v1, speed] = [numberIn(a, values, view), numberIn(b, values, view)];
    return v1 !== null && speed !== null && speed < v1 && v1 - speed <= 5;
  });
}

interface Wind {
  /** The greatest tailwind on a runway, kt. */
  tail(values: Drawn, view: View): number;
  /** Did a rule up to this one hold the tailwind against a limit that it exceeds? */
  limits(ask: number, rule: number, values: Drawn, view: View): boolean;
}

function windOf(resolved: ResolvedScenario): Wind {
  const lets = new Map(resolved.lets.map((l) => [l.name, l.tree]));
  const whole = (tree: Tree): Tree => inlined(tree, lets);
  const runways = new Set(
    Object.entries(resolved.scenario.draw).flatMap(([name, d]) => ('show' in d && d.show === 'runway' ? [name] : [])),
  );
  const onRunway = (tree: Tree): Call[] =>
    callsIn(tree).filter(({ name, args: [, , to] }) => {
      return (name === 'headwind' || name === 'crosswind') && to?.kind === 'name' && runways.has(to.name);
    });
  const trees = [...resolved.lets.map((l) => l.tree), ...resolved.require, ...resolved.asks.flatMap(treesOf)];
  const all = trees.map(whole).flatMap(onRunway);
  // Where a headwind is computed, its wind is the one along the runway: a gust may stand for the crosswind alone.
  const heads = all.filter((call) => call.name === 'headwind');
  const counted = heads.length > 0 ? heads : all;
  const calls = [...new Map(counted.map(({ args }) => [JSON.stringify(args), args])).values()];
  const along = (tree: Tree): boolean => callsIn(tree).some((call) => call.name === 'headwind');
  const compared = resolved.asks.map((ask) =>
    'rules' in ask
      ? ask.rules.map((r) =>
          (r.if ? comparisonsOf(whole(r.if)) : []).flatMap(({ left, right }) =>
            along(left) === along(right)
              ? []
              : [along(left) ? { wind: left, bound: right } : { wind: right, bound: left }],
          ),
        )
      : [],
  );
  return {
    tail: (values, view) =>
      Math.max(
        0,
        ...calls.map((args) => {
          const [direction, speed, runway] = args.map((a) => numberIn(a, values, view) ?? 0);
          return -headwind(direction as number, speed as number, runway as number);
        }),
      ),
    limits: (ask, rule, values, view) =>
      (compared[ask] ?? []).slice(0, rule + 1).some((list) =>
        list.some(({ wind, bound }) => {
          const limit = Math.abs(numberIn(bound, values, view) ?? 0);
          return limit >= LEAST_LIMIT && Math.abs(numberIn(wind, values, view) ?? 0) > limit;
        }),
      ),
  };
}
