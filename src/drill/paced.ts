import { draw as drawQuestion } from '../forms/registry.ts';
import { crewLabel } from '../forms/run/extras.ts';
import { headwind as headwindOf } from '../formula/flight.ts';
import { below, seeded } from '../lib/random.ts';
import type { Memory } from '../memory/types.ts';
import type { CrewMember, Id, Paced, PacedAeroplane, PacedFailure, Step } from '../model/deck.ts';
import { isTable } from '../model/deck.ts';
import type { Drawn, Offer, ScenarioShown } from '../model/form.ts';
import type { PacedShown } from '../model/form-paced.ts';
import { tradeForm } from '../model/trade-form.ts';
import type { Plan } from '../paced/course.ts';
import { type Button, MOST_BUTTONS, othersOf } from '../paced/hand.ts';
import { pacedIn, planOf } from '../paced/plan.ts';
import { dayWords, fillWith, placesIn } from '../subjects/fill.ts';
import { isTrue, namesIn, parseFormula } from '../subjects/formulas.ts';
import { dayValueWords } from '../subjects/limit/words.ts';
import { forceLeft, KNOT, loaded } from '../subjects/paced/force.ts';
import { drawCircumstances, situationIds } from '../subjects/procedure/situations.ts';
import { asksOrder } from '../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, Situation, View } from '../subjects/resolved.ts';
import { readKey } from './world.ts';

type Known = Pick<Memory, 'items' | 'read'>;

/** A paced run of a deck, as it can be chosen. */
export interface PacedChoice {
  readonly paced: Paced;
  /** Views in which it can be played; with one alone the label is ''. */
  readonly views: readonly { readonly id: string; readonly label: string }[];
  /** PF and PM where the procedures name them; empty where they name nobody. */
  readonly seats: readonly CrewMember[];
  /** Procedures of which not one way was read whole, in the first view. */
  readonly unread: readonly { readonly id: Id; readonly title: string }[];
}

const proceduresOf = (view: View, paced: Paced): readonly ResolvedProcedure[] | null => {
  const found = paced.procedures.map((id) => view.procedures.find(({ procedure }) => procedure.id === id));
  const all = found.filter((p) => p !== undefined && asksOrder(p.procedure));
  return all.length === found.length ? (all as ResolvedProcedure[]) : null;
};

const isRead = ({ deck }: Resolved, memory: Known, { steps }: Situation): boolean =>
  steps.every(
    ({ step, place }) => memory.read.has(readKey(deck.id, step.id)) || (place !== null && memory.items.has(place)),
  );

export const pacedChoices = (resolved: Resolved, memory: Known): readonly PacedChoice[] =>
  (resolved.deck.paced ?? []).flatMap((paced) => {
    const views = resolved.views.filter((view) => proceduresOf(view, paced) !== null);
    const [first] = views;
    if (first === undefined) return [];
    const steps = views.flatMap((view) => proceduresOf(view, paced) ?? []).flatMap(stepsOf);
    const unread = (proceduresOf(first, paced) ?? [])
      .filter(({ situations }) => !situations.some((one) => isRead(resolved, memory, one)))
      .map(({ procedure: { id, title } }) => ({ id, title }));
    const one = { paced, seats: seatsOf(resolved, steps), unread };
    return [{ ...one, views: views.map(({ id, label }) => ({ id, label: views.length < 2 ? '' : label })) }];
  });

const stepsOf = ({ situations }: ResolvedProcedure): Step[] =>
  situations.flatMap(({ steps }) => steps.map(({ step }) => step));

/** Whoever flies may monitor next time. Others than the two pilots are played by the program. */
const seatsOf = (resolved: Resolved, steps: readonly Step[]): CrewMember[] => {
  const named = new Set(steps.flatMap(({ by }) => by ?? []));
  const pilots = ['PF', 'PM', 'both', 'either'].some((id) => named.has(id));
  const ids = pilots ? ['PF', 'PM'] : [...named];
  return ids.map((id) => ({ id, label: crewLabel(resolved, id) }));
};

export interface PacedWish {
  readonly paced: Id;
  /** View id; absent: one is drawn. */
  readonly variant?: string;
  /** null: drawn. */
  readonly seat: Id | null;
  /** 1..10, 0: untimed. */
  readonly stretch: number;
  /** 32 bits. */
  readonly seed: number;
}

export interface PacedStart {
  readonly variant: string;
  readonly shown: PacedShown;
  readonly plan: Plan;
  /** What stands on buttons beside the learner's own steps. */
  readonly others: readonly Button[];
}

/** Nothing is rolled: the same wish gives the same run. @returns null where it was not read, or cannot be drawn */
export function startPaced(resolved: Resolved, memory: Known, wish: PacedWish): PacedStart | null {
  const paced = pacedIn(resolved, wish.paced);
  if (paced === undefined) return null;
  const random = seeded(wish.seed);
  const views = resolved.views
    .filter(({ id }) => wish.variant === undefined || id === wish.variant)
    .filter((one) =>
      proceduresOf(one, paced)?.every(({ situations }) => situations.some((s) => isRead(resolved, memory, s))),
    );
  const view = views[below(random, Math.max(1, views.length))];
  const procedures = view && proceduresOf(view, paced);
  if (view === undefined || procedures == null) return null;
  const seats = seatsOf(resolved, procedures.flatMap(stepsOf));
  const seat = seats.find(({ id }) => id === wish.seat) ?? seats[below(random, Math.max(1, seats.length))];
  const fails = paced.failure !== undefined && random() < paced.failure.share;

  const set = drawDay(resolved, memory, view, paced, procedures, fails, below(random, 2 ** 32));
  if (set === null) return null;
  const wind = paced.wind === undefined ? null : drawWind(resolved, view, paced, seeded(`${wish.seed} wind`));
  const v1 = set.drawn[paced.failure?.speed ?? ''];
  const common = {
    form: 'paced' as const,
    title: paced.title,
    drawn: set.drawn,
    seed: wish.seed,
    seat: seat?.id ?? '',
    stretch: wish.stretch === 0 ? 0 : Math.min(10, Math.max(1, wish.stretch)),
    runs: set.runs,
    ...(fails &&
      paced.failure !== undefined &&
      typeof v1 === 'number' && {
        fails: failureSpeed(loaded(paced.aeroplane, set.drawn), paced.failure, v1, random()),
      }),
    headwind: wind === null ? 0 : headIn(wind),
    ...(wind !== null && { wind }),
  };
  const plan = planOf(resolved, view, paced, common);
  if (plan === null) return null;
  const others = othersOf(plan, strangersOf(procedures, set.drawn, resolved));
  const scene = sceneOf(resolved, paced, procedures, set.drawn, wind);
  const buttons = Math.min(MOST_BUTTONS, plan.expected.length + others.length);
  return { variant: view.id, plan, others, shown: { ...common, scene, buttons } };
}

/** s from a failure to the first action of the pilot (from memory: AC 25-7, accelerate-stop, takes at least one). */
const RECOGNITION = 1;

/**
 * Speed at which an engine fails, kt to a tenth. None fails so close below V1 that V1 has come before anyone can act:
 * there neither stop nor go is plainly right (14 CFR 25.107(a)(2): V1 is not less than VEF plus the speed gained while the
 * pilot recognises the failure and reacts). Where the author leaves nothing else, it fails at V1.
 * @param v1 kt
 * @param share of what is left of the author's range, 0..1
 */
function failureSpeed(aeroplane: PacedAeroplane, { from, to }: PacedFailure, v1: number, share: number): number {
  const force = forceLeft(aeroplane, v1, aeroplane.engines, 'ground');
  const gained = (RECOGNITION * Math.max(0, force)) / aeroplane.mass / KNOT;
  const below = { from, to: Math.min(to, -gained) };
  const beyond = { from: Math.max(from, 0), to };
  const [early, late] = [below, beyond].map((part) => part.to - part.from) as [number, number];
  const at = share * (Math.max(0, early) + Math.max(0, late));
  // Down: what is drawn below the gap is not rounded into it.
  if (early >= 0 && (at < early || late < 0)) return Math.floor(10 * (v1 + from + at)) / 10;
  return Math.round(10 * (v1 + (late < 0 ? 0 : beyond.from + at - Math.max(0, early)))) / 10;
}

/** One draw for all procedures together; of circumstances only those that were read. */
function drawDay(
  { deck, ...resolved }: Resolved,
  memory: Known,
  view: View,
  paced: Paced,
  procedures: readonly ResolvedProcedure[],
  fails: boolean,
  seed: number,
): { readonly drawn: Drawn; readonly runs: PacedShown['runs'] } | null {
  const { failure } = paced;
  const failed = failure === undefined ? null : parseFormula(failure.condition);
  const trees = [...procedures.flatMap(({ conditions }) => conditions), ...(failed === null ? [] : [failed])];
  const c = { deck, requires: view.requires, lookups: view };
  const among = (p: ResolvedProcedure, id: string | null): Situation | undefined =>
    p.situations.find((one) => one.id === id && isRead({ deck, ...resolved }, memory, one));
  const vectors = situationIds(c, trees).filter((vector) => {
    if (failed !== null && vector.at(-1) !== '0') return false;
    let at = 0;
    return procedures.every((p) => {
      const id = vector.slice(at, at + p.conditions.length);
      at += p.conditions.length;
      return among(p, id) !== undefined;
    });
  });
  const random = seeded(seed);
  const vector = vectors[below(random, Math.max(1, vectors.length))];
  if (vector === undefined) return null;
  const drawn = drawCircumstances(c, trees, vector, namesOf(view, paced, procedures), below(random, 2 ** 32));
  if (drawn === null) return null;
  const situationIn = (p: ResolvedProcedure, values: Drawn): string | null => {
    const truths = p.conditions.map((tree) => isTrue(tree, values, view));
    return truths.includes(null) ? null : truths.map((truth) => (truth ? '1' : '0')).join('');
  };
  const out = failure === undefined || !fails ? null : { ...drawn, [failure.condition]: true };
  const runs = procedures.flatMap((p) => {
    const situation = situationIn(p, drawn);
    const other = out === null ? null : situationIn(p, out);
    if (situation === null) return [];
    const differs = other !== null && other !== situation && p.situations.some(({ id }) => id === other);
    return [{ procedure: p.procedure.id, situation, ...(differs && { failed: other }) }];
  });
  return runs.length === procedures.length ? { drawn, runs } : null;
}

/** Values of the day and conditions on which texts, cues and the numbers of cues hang. */
function namesOf(view: View, paced: Paced, procedures: readonly ResolvedProcedure[]): string[] {
  const names = new Set(placesIn([paced.starts, ...procedures.map(({ procedure }) => procedure.starts)].join(' ')));
  if (paced.aeroplane.massAt) names.add(paced.aeroplane.massAt.speed);
  if (paced.failure) names.add(paced.failure.speed).add(paced.failure.condition);
  for (const step of procedures.flatMap(stepsOf)) {
    for (const name of placesIn([step.do, step.say, step.cue?.text, step.why, step.slip].join(' '))) names.add(name);
    for (const bound of [step.cue, step.from]) {
      if (bound?.day !== undefined) names.add(bound.day);
      const limit = view.limits.find((one) => one.limit.id === bound?.limit)?.limit;
      if (limit === undefined || isTable(limit)) continue;
      for (const one of limit.cases ?? []) for (const name of Object.keys(one.given ?? {})) names.add(name);
    }
  }
  return [...names];
}

/** A wind of one of the rules that are drawn. */
function drawWind(
  resolved: Resolved,
  view: View,
  { wind = '', without = [] }: Paced,
  random: () => number,
): ScenarioShown | null {
  const [thing = '', ask = ''] = wind.split('#');
  const found = view.scenarios.find(({ scenario }) => scenario.id === thing)?.asks.find((one) => one.ask.id === ask);
  if (found === undefined || !('rules' in found)) return null;
  const rules = found.rules.filter(({ rule }) => !without.includes(rule.id));
  // A rule that never comes about in this variant: the next one.
  for (let left = [...rules]; left.length > 0; ) {
    const [one] = left.splice(below(random, left.length), 1);
    if (one === undefined) break;
    const offer: Offer = {
      form: 'scenario',
      about: { thing, case: ask, rule: one.rule.id },
      variant: view.id,
      proves: [one.key],
      g: 0,
      seconds: 0,
      ease: 0,
      confusable: [],
      needs: 'read',
    };
    const shown = drawQuestion(resolved, offer, below(random, 2 ** 32));
    if (shown?.form === 'scenario') return shown;
  }
  return null;
}

/** kt from ahead. */
const headIn = ({ picture, drawn }: ScenarioShown): number => {
  const { runway, windDir, windSpeed } = picture ?? drawn;
  const numbers = [windDir, windSpeed, runway].every((one) => typeof one === 'number');
  return numbers ? Math.round(10 * headwindOf(Number(windDir), Number(windSpeed), Number(runway))) / 10 : 0;
};

/** Of each procedure some that do not belong to it. */
const STRANGERS = 6;
const strangersOf = (procedures: readonly ResolvedProcedure[], drawn: Drawn, { deck }: Resolved) =>
  procedures.flatMap(({ procedure, strangers }) =>
    strangers.slice(0, STRANGERS).map(({ text }, i) => ({
      id: `stranger-${procedure.id}-${i}`,
      text: fillWith(text, dayWords(deck, drawn)),
    })),
  );

function sceneOf(
  { deck }: Resolved,
  paced: Paced,
  procedures: readonly ResolvedProcedure[],
  drawn: Drawn,
  wind: ScenarioShown | null,
): string[] {
  const starts = paced.starts ?? procedures[0]?.procedure.starts ?? '';
  const names = new Set(procedures.flatMap(({ conditions }) => conditions.flatMap(namesIn)));
  const conditions = (deck.conditions ?? []).flatMap((c) => {
    // What an engine does is not told beforehand.
    if (!names.has(c.id) || c.id === paced.failure?.condition || !Object.hasOwn(drawn, c.id)) return [];
    const value = drawn[c.id];
    if ('yes' in c) return [value === true ? c.yes : c.no];
    return 'options' in c
      ? [c.options[String(value)] ?? String(value)]
      : [`${c.label} ${tradeForm(Number(value), c.unit)}`];
  });
  const days = (deck.day ?? [])
    .filter(({ id, label }) => Object.hasOwn(drawn, id) && !starts.includes(`${label} {${id}}`))
    .map(({ id }) => dayValueWords(deck, id, drawn));
  return [
    fillWith(starts, dayWords(deck, drawn)),
    ...conditions,
    days.join(', '),
    ...(wind === null ? [] : [wind.situation, ...wind.scene]),
  ].filter((line) => line !== '');
}
