import { seeded, shuffled } from '../../lib/random.ts';
import type { Deck } from '../../model/deck.ts';
import { isNumberAsk } from '../../model/deck.ts';
import type { About, Drawn, NumberField, Offer, ScenarioShown } from '../../model/form.ts';
import { tradeForm } from '../../model/trade-form.ts';
import { fillWith, placesIn } from '../../subjects/fill.ts';
import { callsIn, type Lookups, numberIn } from '../../subjects/formulas.ts';
import { dayValueWords } from '../../subjects/limit/words.ts';
import type { Resolved, ResolvedAsk, ResolvedScenario, View } from '../../subjects/resolved.ts';
import { type DrawPlan, drawScenario, namesAsked, planDraw } from '../../subjects/scenario/draw.ts';
import { withLets } from '../../subjects/scenario/values.ts';
import { compact, scenarioIn, viewLine, viewOf } from '../look-up.ts';
import { asOfLine } from '../other-answers.ts';
import { isSigned, type NumberAsk } from './guess.ts';

export interface AskedScenario {
  readonly view: View;
  readonly scenario: ResolvedScenario;
  readonly ask: ResolvedAsk;
}

export function askedScenario(resolved: Resolved, variant: string, about: About): AskedScenario | null {
  const view = viewOf(resolved, variant);
  const scenario = view && scenarioIn(view, about.thing);
  const ask = scenario?.asks.find((a) => a.ask.id === about.case);
  return view && scenario && ask ? { view, scenario, ask } : null;
}

const plans = new WeakMap<ResolvedScenario, Map<string, DrawPlan | null>>();

function planFor(deck: Deck, asked: AskedScenario, about: About): DrawPlan | null {
  const known = plans.get(asked.scenario) ?? new Map<string, DrawPlan | null>();
  plans.set(asked.scenario, known);
  const name = `${about.case} ${about.rule ?? ''}`;
  const before = known.get(name);
  if (before !== undefined) return before;
  const plan = planDraw(deck, asked.scenario, asked.ask.ask.id, about.rule ?? null, asked.view);
  known.set(name, plan);
  return plan;
}

/** @returns null where 2,000 tries give no draw: the scenario cannot be asked now */
export function drawScenarioQuestion(resolved: Resolved, offer: Offer, seed: number): ScenarioShown | null {
  const asked = askedScenario(resolved, offer.variant, offer.about);
  if (!asked) return null;
  const { deck } = resolved;
  const plan = planFor(deck, asked, offer.about);
  const found = plan && drawScenario(plan, seed);
  if (!found) return null;
  const { scenario } = asked.scenario;
  const { ask } = asked.ask;
  const fill = (text: string): string => situationFilled(deck, asked.scenario, found.drawn, text);
  return {
    form: 'scenario',
    seed,
    drawn: found.drawn,
    situation: fill(scenario.situation),
    scene: [
      ...viewLine(resolved, asked.view, offer.proves),
      ...unsaid(deck, asked.scenario, ask.ask, found.drawn),
      ...asOfLine(resolved, offer.proves),
    ],
    ask: fill(ask.ask),
    fields: 'number' in asked.ask ? [fieldOf(deck, asked.view, asked.scenario, asked.ask)] : [],
    choices: isNumberAsk(ask)
      ? []
      : shuffled(
          seeded(seed),
          Object.entries(ask.choose.options).map(([id, text]) => ({ id, text: fill(text) })),
        ),
    picture: scenario.picture === 'runway-wind' ? pictureOf(asked.scenario, found.drawn, asked.view) : null,
  };
}

const fieldOf = (deck: Deck, view: View, scenario: ResolvedScenario, asked: NumberAsk): NumberField =>
  compact({
    label: 'Value',
    unit: asked.ask.unit,
    show: asked.ask.show,
    signed: isSigned(deck, view, scenario, asked) ? (true as const) : undefined,
  }) as NumberField;

/** A text with what was drawn put in; where an event has no words no gap is left. */
export const situationFilled = (deck: Deck, scenario: ResolvedScenario, drawn: Drawn, text: string): string =>
  fillWith(text, wordsOf(deck, scenario, drawn))
    .replace(/ {2,}/g, ' ')
    .replace(/ +([.,;:])/g, '$1')
    .trim();

/** A drawn value as a text says it: numbers in trade form without unit, events in their words. */
export function wordsOf(deck: Deck, resolved: ResolvedScenario, drawn: Drawn): (name: string) => string | undefined {
  return (name) => {
    const value = Object.hasOwn(drawn, name) ? drawn[name] : undefined;
    if (value === undefined) return undefined;
    const draw = resolved.scenario.draw[name];
    if (draw) {
      if (typeof value === 'number') return tradeForm(value, null, 'show' in draw ? draw.show : undefined);
      return 'oneOf' in draw && !Array.isArray(draw.oneOf)
        ? ((draw.oneOf as Record<string, string>)[String(value)] ?? String(value))
        : String(value);
    }
    const day = deck.day?.find((d) => d.id === name);
    if (day && typeof value === 'number') return tradeForm(value, null, day.show);
    const condition = deck.conditions?.find((c) => c.id === name);
    if (condition && 'yes' in condition) return value === true ? condition.yes : condition.no;
    if (condition && 'options' in condition) return condition.options[String(value)] ?? String(value);
    return typeof value === 'number' ? tradeForm(value, null) : String(value);
  };
}

/** What is drawn and used but in no text: it must be seen all the same. */
function unsaid(deck: Deck, resolved: ResolvedScenario, ask: string, drawn: Drawn): string[] {
  const { scenario } = resolved;
  const said = new Set([scenario.situation, ask].flatMap(placesIn));
  const used = new Set(namesAsked(resolved));
  const out: string[] = [];
  for (const name of Object.keys(drawn)) {
    if (said.has(name) || !used.has(name)) continue;
    const value = drawn[name];
    const draw = scenario.draw[name];
    const day = draw ? undefined : deck.day?.find((d) => d.id === name);
    const condition = draw ? undefined : deck.conditions?.find((c) => c.id === name);
    if (day) out.push(dayValueWords(deck, name, drawn));
    else if (condition && 'unit' in condition)
      out.push(`${condition.label} ${tradeForm(Number(value), condition.unit)}`);
    else if (draw && typeof value === 'number') {
      const unit = 'unit' in draw ? draw.unit : undefined;
      out.push(`${draw.label ?? name} ${tradeForm(value, unit ?? null, 'show' in draw ? draw.show : undefined)}`);
    } else {
      const words = wordsOf(deck, resolved, drawn)(name) ?? '';
      if (words !== '') out.push(draw?.label === undefined ? words : `${draw.label}: ${words}`);
    }
  }
  return out;
}

/** Runway and wind: values named runway, windDir and windSpeed, else what the wind functions are called with. */
function pictureOf(resolved: ResolvedScenario, drawn: Drawn, lookups: Lookups): ScenarioShown['picture'] {
  const { runway, windDir, windSpeed } = drawn;
  const values = withLets(resolved, drawn, lookups);
  const trees = [
    ...resolved.lets.map((l) => l.tree),
    ...resolved.require,
    ...resolved.asks.flatMap((a) => ('number' in a ? [a.number] : a.rules.flatMap((r) => r.if ?? []))),
  ];
  const winds = (values === null ? [] : trees.flatMap(callsIn)).flatMap((call) => {
    if (values === null || (call.name !== 'headwind' && call.name !== 'crosswind')) return [];
    const [dir, speed, course] = call.args.map((a) => numberIn(a, values, lookups));
    return typeof dir === 'number' && typeof speed === 'number' && typeof course === 'number'
      ? [{ runway: course, windDir: dir, windSpeed: speed }]
      : [];
  });
  if (typeof runway === 'number' && typeof windDir === 'number' && typeof windSpeed === 'number') {
    const gusty = winds.some((wind) => wind.windSpeed !== windSpeed);
    const most = Math.max(windSpeed, ...winds.filter((wind) => wind.windDir === windDir).map((wind) => wind.windSpeed));
    return { runway, windDir, windSpeed, ...(gusty && { gusty }), ...(most > windSpeed && { gust: most }) };
  }
  return winds[0] ?? null;
}
