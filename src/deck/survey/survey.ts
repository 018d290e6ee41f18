import type { Deck } from '../../model/deck.ts';
import type { Drawn } from '../../model/form.ts';
import type { ResolvedAsk } from '../../subjects/resolved.ts';
import { axesOf } from '../../subjects/scenario/check-draws.ts';
import { drawScenario, planDraw } from '../../subjects/scenario/draw.ts';
import { type Axis, spaceOf } from '../../subjects/space.ts';
import { describe } from './bins.ts';
import { judge, outcomeOf } from './outcome.ts';
import { around, inShares, middles, sidesOf } from './picture.ts';
import { surveySetting, type Variant } from './setting.ts';
import { tally } from './tally.ts';
import {
  type Answer,
  type Boundary,
  type Example,
  NO_VALUE,
  NOT_ASKED,
  type NoSurvey,
  REFUSED,
  type Survey,
  type SurveyTask,
} from './types.ts';
import { drawnWords, numberWords } from './words.ts';

/** Examples of one table. */
const EXAMPLES = 8;
/** Values gone along in search of boundaries; of a longer axis one from each bin. */
const MOST_STEPS = 2000;

/**
 * What a scenario of a draft draws: all combinations of its values up to 50,000, else 20,000 seeded draws, judged as
 * the checker and the drill judge them. Pauses often.
 * @param text the draft as JSON
 */
export function* survey(text: string, task: SurveyTask): Generator<undefined, Survey | NoSurvey> {
  const setting = surveySetting(text, task.scenario);
  if ('problem' in setting) return setting;
  const { deck, path, variants } = setting;
  const variant = (variants[task.variant] ?? variants[0]) as Variant;
  const { resolved } = variant;
  const looked = Math.min(Math.max(task.ask, 0), resolved.asks.length - 1);
  const ask = resolved.asks[looked] as ResolvedAsk;
  const axes = axesOf(deck, resolved);
  const space = spaceOf(axes);
  const t = yield* tally(deck, variant, axes, space, looked, path);
  const shown = axes.map((axis) => describe(deck, resolved, axis));
  yield;
  const examples = examplesOf(deck, variant, looked, task.seed, axes);
  yield;
  const sides = sidesOf(axes, ask, t, task);
  // The names may have changed since the draw was chosen.
  const chosen = task.around && axes.every(({ name }) => Object.hasOwn(task.around ?? {}, name)) ? task.around : null;
  const base = chosen ?? examples.find((one) => (one.answers[looked]?.outcome ?? REFUSED) >= 0)?.drawn ?? null;
  const walk = base && walker(deck, variant, axes, ask, base);
  const say = (axis: number, place: number): string => {
    const one = axes[axis] as Axis;
    return drawnWords(deck, resolved, one.name, one.value(place));
  };
  return {
    variants: variants.map((one) => one.words),
    ask: looked,
    around: chosen !== null,
    tried: t.count,
    exact: space.exact,
    met: t.met,
    broken: t.broken,
    axes: shown,
    refusals: t.refusals,
    asks: t.asks,
    examples,
    picture: !sides
      ? null
      : chosen && walk
        ? around(axes, say, sides, ask, walk)
        : inShares(axes, shown, sides, ask, t),
    base,
    boundaries:
      walk && 'rules' in ask
        ? boundariesOf(
            axes,
            shown.map((one) => one.ranged),
            say,
            walk,
          )
        : [],
  };
}

/** Draws as a learner would get them, one rule after the other. */
function examplesOf(
  deck: Deck,
  { resolved, view }: Variant,
  looked: number,
  seed: number,
  axes: readonly Axis[],
): Example[] {
  const ask = resolved.asks[looked] as ResolvedAsk;
  const steers = 'rules' in ask ? ask.rules.map((r) => r.rule.id) : [null];
  const plans = steers.flatMap((steer) => planDraw(deck, resolved, ask.ask.id, steer, view) ?? []);
  const judged = judge(deck, resolved, view);
  const out: Example[] = [];
  const seen = new Set<string>();
  // A rule that is rare or never reached takes 2,000 tries each time.
  const given = new Set<number>();
  for (let k = 0; out.length < EXAMPLES && k < 4 * EXAMPLES && given.size < plans.length; k++) {
    const n = k % plans.length;
    const plan = plans[n];
    if (!plan || given.has(n)) continue;
    const found = drawScenario(plan, (seed + k * 7919) >>> 0);
    if (!found) {
      given.add(n);
      continue;
    }
    const shown = axes.map(({ name }) => drawnWords(deck, resolved, name, found.drawn[name]));
    if (seen.has(shown.join())) continue;
    seen.add(shown.join());
    const values = { ...found.drawn };
    judged(values);
    out.push({ drawn: found.drawn, shown, answers: resolved.asks.map((one) => answerOf(one, values, view)) });
  }
  return out;
}

function answerOf(ask: ResolvedAsk, values: Drawn, view: Variant['view']): Answer {
  const { outcome, number } = outcomeOf(ask, values, view);
  if ('number' in ask) return { outcome, words: number === null ? '' : numberWords(ask.ask, number) };
  const rule = ask.rules[outcome];
  return { outcome, words: rule ? rule.rule.then.map((id) => ask.ask.choose.options[id] ?? id).join(' / ') : '' };
}

type Walk = (places: readonly (readonly [number, number])[]) => readonly [number, number];

/** What comes of a draw of which some values are others. */
function walker(deck: Deck, { resolved, view }: Variant, axes: readonly Axis[], ask: ResolvedAsk, base: Drawn): Walk {
  const judged = judge(deck, resolved, view);
  return (places) => {
    const drawn: Record<string, number | string | boolean> = { ...base };
    for (const [k, place] of places) {
      const axis = axes[k] as Axis;
      drawn[axis.name] = axis.value(place);
    }
    const one = judged(drawn);
    if (one.is !== 'met') return [one.is === 'broken' ? NO_VALUE : REFUSED, Number.NaN];
    const { outcome, number } = outcomeOf(ask, drawn, view);
    return [outcome, number ?? Number.NaN];
  };
}

/** Where another rule decides, going along each drawn number; stretches that are not asked are passed over. */
function boundariesOf(
  axes: readonly Axis[],
  ranged: readonly boolean[],
  say: (axis: number, place: number) => string,
  walk: Walk,
): Boundary[] {
  return axes.flatMap((axis, k) => {
    if (!ranged[k]) return [];
    const out: Boundary[] = [];
    const along = axis.count <= MOST_STEPS ? Array.from({ length: axis.count }, (_, i) => i) : middles(axis);
    let before: { readonly place: number; readonly outcome: number } | null = null;
    for (const place of along) {
      const [outcome] = walk([[k, place]]);
      if (outcome === REFUSED || outcome === NOT_ASKED) continue;
      if (before && before.outcome !== outcome)
        out.push({ axis: k, below: say(k, before.place), above: say(k, place), from: before.outcome, to: outcome });
      before = { place, outcome };
    }
    return out;
  });
}
