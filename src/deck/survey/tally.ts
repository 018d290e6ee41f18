import type { Deck } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import { at } from '../../subjects/finding.ts';
import { formulaWords } from '../../subjects/formula-words.ts';
import type { Axis, Space } from '../../subjects/space.ts';
import { type AskOutcome, judge, outcomeOf } from './outcome.ts';
import type { Variant } from './setting.ts';
import { type AskSurvey, NO_RULE, NO_VALUE, NOT_ASKED, REFUSED, type Refusal } from './types.ts';
import { numberWords } from './words.ts';

/** Draws between two pauses. */
const SLICE = 1024;

/** Every draw tried, with what comes of it for the question that is looked at. */
export interface Tally {
  readonly count: number;
  readonly met: number;
  readonly broken: number;
  readonly refusals: readonly Refusal[];
  readonly asks: readonly AskSurvey[];
  /** Outcome of each draw. */
  readonly outcomes: Int16Array;
  /** Answer of each draw; NaN where it is no number. */
  readonly numbers: Float64Array;
  /** Place of each drawn value on its axis, draw by draw. */
  readonly places: Uint32Array;
}

interface Counts {
  readonly rules: number[];
  noRule: number;
  noValue: number;
  notAsked: number;
  least: number;
  most: number;
}

/**
 * @param looked place of the question that is looked at
 * @param path pointer of the scenario
 */
export function* tally(
  deck: Deck,
  { resolved, view }: Variant,
  axes: readonly Axis[],
  space: Space,
  looked: number,
  path: string,
): Generator<undefined, Tally> {
  const judged = judge(deck, resolved, view);
  const outcomes = new Int16Array(space.count).fill(REFUSED);
  const numbers = new Float64Array(space.count).fill(Number.NaN);
  const places = new Uint32Array(space.count * axes.length);
  const refused = resolved.require.map(() => 0);
  let [met, broken, near] = [0, 0, 0];
  const counts = resolved.asks.map(
    (ask): Counts => ({
      rules: 'rules' in ask ? ask.rules.map(() => 0) : [0],
      noRule: 0,
      noValue: 0,
      notAsked: 0,
      least: Number.POSITIVE_INFINITY,
      most: Number.NEGATIVE_INFINITY,
    }),
  );
  const drawn: Record<string, number | string | boolean> = {};
  const placeOf = axes.map(finder);
  for (let i = 0; i < space.count; i++) {
    if (i % SLICE === SLICE - 1) yield;
    space.put(i, drawn);
    for (const [k, axis] of axes.entries()) places[i * axes.length + k] = placeOf[k]?.(drawn[axis.name]) ?? 0;
    const one = judged(drawn);
    if (one.is === 'refused') refused[one.require] = (refused[one.require] as number) + 1;
    else if (one.is === 'near-v1') near += 1;
    else if (one.is === 'broken') broken += 1;
    if (one.is === 'broken') outcomes[i] = NO_VALUE;
    if (one.is !== 'met') continue;
    met += 1;
    for (const [k, ask] of resolved.asks.entries()) {
      const found = outcomeOf(ask, drawn, view);
      count(counts[k] as Counts, found);
      if (k !== looked) continue;
      outcomes[i] = found.outcome;
      if (found.number !== null) numbers[i] = found.number;
    }
  }
  return {
    count: space.count,
    met,
    broken,
    refusals: refusalsOf(deck, { resolved, view, words: '' }, refused, near, path),
    asks: resolved.asks.map((_, k) => surveyOf(deck, { resolved, view, words: '' }, k, counts[k] as Counts, path)),
    outcomes,
    numbers,
    places,
  };
}

/** Finds a value on its axis. */
function finder(axis: Axis): (value: Drawn[string] | undefined) => number {
  if (axis.count > MOST_LISTED) return (value) => search(axis, Number(value));
  const known = new Map<Drawn[string] | undefined, number>();
  for (let i = 0; i < axis.count; i++) known.set(axis.value(i), i);
  return (value) => known.get(value) ?? 0;
}

/** Values kept in a table; an axis with more is a range, whose values rise. */
const MOST_LISTED = 5000;

function search(axis: Axis, value: number): number {
  let [low, high] = [0, axis.count - 1];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((axis.value(middle) as number) < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

function count(c: Counts, { outcome, number }: AskOutcome): void {
  if (outcome === NO_RULE) c.noRule += 1;
  else if (outcome === NO_VALUE) c.noValue += 1;
  else if (outcome === NOT_ASKED) c.notAsked += 1;
  else c.rules[outcome] = (c.rules[outcome] as number) + 1;
  if (number === null) return;
  c.least = Math.min(c.least, number);
  c.most = Math.max(c.most, number);
}

function refusalsOf(
  deck: Deck,
  { resolved, view }: Variant,
  refused: readonly number[],
  near: number,
  path: string,
): Refusal[] {
  const own = resolved.scenario.require?.length ?? 0;
  const out = refused.map(
    (n, k): Refusal => ({
      path: k < own ? at(path, 'require', k) : '/day',
      words: formulaWords(deck, view, resolved, resolved.require[k] as never),
      count: n,
    }),
  );
  if (near > 0) out.push({ path: at(path, 'draw'), words: 'no event within 5 kt below V1', count: near });
  return out.filter((one) => one.count > 0);
}

function surveyOf(deck: Deck, { resolved, view }: Variant, k: number, c: Counts, path: string): AskSurvey {
  const ask = resolved.asks[k] as (typeof resolved.asks)[number];
  const here = at(path, 'asks', k);
  const common = {
    path: here,
    id: ask.ask.id,
    words: ask.ask.ask,
    answered: c.rules.reduce((a, b) => a + b, 0),
    noRule: c.noRule,
    noValue: c.noValue,
    notAsked: c.notAsked,
  };
  if ('number' in ask) {
    const range = c.least <= c.most ? ([numberWords(ask.ask, c.least), numberWords(ask.ask, c.most)] as const) : null;
    return { ...common, rules: null, range };
  }
  const { options } = ask.ask.choose;
  return {
    ...common,
    range: null,
    rules: ask.rules.map((rule, n) => ({
      id: rule.rule.id,
      path: at(here, 'choose', 'rules', n),
      words: rule.if ? formulaWords(deck, view, resolved, rule.if) : '',
      gives: rule.rule.then.map((id) => options[id] ?? id),
      count: c.rules[n] as number,
    })),
  };
}
