import { draw, offers } from '../forms/registry.ts';
import { guessRate } from '../forms/run/guess.ts';
import { below, seeded, shuffled } from '../lib/random.ts';
import type { Memory } from '../memory/types.ts';
import { type CrewMember, DEFAULT_CREW, type Given as Holding, type Id, isTable, type Step } from '../model/deck.ts';
import type { Drawn, Offer, Shown } from '../model/form.ts';
import type { ItemKey } from '../model/item.ts';
import { asksOrder } from '../subjects/procedure/words.ts';
import type { Resolved, ResolvedLimit, ResolvedProcedure, Situation, View } from '../subjects/resolved.ts';
import { circumstances } from './walk.ts';
import { readKey } from './world.ts';

/** A question of a rehearsal, as it is put. */
export interface Put {
  readonly offer: Offer;
  readonly shown: Shown;
}

/**
 * A rehearsal: one procedure from its first step to its last, then the numbers and decisions that its steps name, and no
 * verdict before the end. JSON. It holds no answers: those are in the log under its id, so that one who was interrupted
 * goes on behind the last answer that was stored.
 */
export interface Rehearsal {
  readonly v: 1;
  /** In the log what a drill's id is. */
  readonly id: string;
  /** Deck ref. */
  readonly deck: string;
  readonly variant: string;
  readonly procedure: Id;
  readonly situation: string;
  /** Crew id of the learner's seat; null where the procedure names none. */
  readonly seat: string | null;
  /** The run first. */
  readonly questions: readonly Put[];
}

/** A procedure in one view and one situation. */
export interface Way {
  readonly variant: string;
  /** The view by name; '' where there is one alone. */
  readonly label: string;
  readonly situation: string;
  /** The circumstances in words; '' where nothing is conditional. */
  readonly words: string;
  /** Was each of its steps read or answered before? */
  readonly read: boolean;
}

export interface Rehearsable {
  /** Deck ref. */
  readonly deck: string;
  readonly procedure: Id;
  readonly title: string;
  readonly ways: readonly Way[];
  /** Whose seat it can be rehearsed in: the crew that its steps name. */
  readonly seats: readonly CrewMember[];
}

/** Procedures whose order is asked, in the order of the deck. Lists that are read are not rehearsed from memory. */
export const rehearsables = (resolved: Resolved, memory: Pick<Memory, 'items' | 'read'>): Rehearsable[] => {
  const found = new Map<Id, { readonly title: string; readonly ways: Way[]; readonly crew: Set<string> }>();
  for (const view of resolved.views)
    for (const p of view.procedures) {
      const { id, title } = p.procedure;
      if (!asksOrder(p.procedure)) continue;
      for (const situation of p.situations) {
        if (situation.steps.length < 2) continue;
        const one = found.get(id) ?? { title, ways: [], crew: new Set() };
        found.set(id, one);
        one.ways.push({
          variant: view.id,
          label: resolved.views.length < 2 ? '' : view.label,
          situation: situation.id,
          // Two branches may say the same of one situation.
          words: circumstances(resolved, view, p, situation.id).join(', '),
          read: situation.steps.every(({ step, place }) => wasMet(resolved, memory, step.id, place)),
        });
        for (const { step } of situation.steps) if (step.by !== undefined) one.crew.add(step.by);
      }
    }
  return [...found].map(([procedure, { title, ways, crew }]) => ({
    deck: resolved.ref,
    procedure,
    title,
    ways,
    seats: seatsOf(resolved, crew),
  }));
};

const wasMet = (
  { deck }: Resolved,
  memory: Pick<Memory, 'items' | 'read'>,
  thing: Id,
  ...keys: readonly (ItemKey | null)[]
): boolean => memory.read.has(readKey(deck.id, thing)) || keys.some((key) => key !== null && memory.items.has(key));

/** Both and either are no seats. Whoever flies may monitor next time: of those two one brings the other. */
const seatsOf = ({ deck }: Resolved, named: ReadonlySet<string>): CrewMember[] => {
  const pilots = ['PF', 'PM', 'both', 'either'].some((id) => named.has(id));
  return [...DEFAULT_CREW, ...(deck.crew ?? [])].filter(({ id }) =>
    id === 'PF' || id === 'PM' ? pilots : id !== 'both' && id !== 'either' && named.has(id),
  );
};

export interface Wish {
  readonly id: string;
  readonly procedure: Id;
  /** Absent: one of those read is drawn. */
  readonly variant?: string;
  readonly situation?: string;
  readonly seat: string | null;
  /** 32 bits. */
  readonly seed: number;
}

/** Tries of a question that cannot be drawn. */
const DRAWS = 3;

/**
 * Nothing is rolled: the same wish gives the same rehearsal.
 * @returns null where nothing that was read fits the wish, or nothing of it can be drawn
 */
export const rehearse = (
  resolved: Resolved,
  memory: Pick<Memory, 'items' | 'read'>,
  { id, procedure, variant, situation, seat, seed }: Wish,
): Rehearsal | null => {
  const random = seeded(seed);
  const ways = rehearsables(resolved, memory)
    .find((one) => one.procedure === procedure)
    ?.ways.filter((way) => way.read && way.variant === (variant ?? way.variant))
    .filter((way) => way.situation === (situation ?? way.situation));
  for (const way of shuffled(random, ways ?? [])) {
    const view = resolved.views.find((one) => one.id === way.variant);
    const p = view?.procedures.find((one) => one.procedure.id === procedure);
    const found = p?.situations.find((one) => one.id === way.situation);
    if (view === undefined || p === undefined || found === undefined) continue;
    const put = (offer: Offer): Put[] => {
      for (let i = 0; i < DRAWS; i++) {
        const shown = draw(resolved, offer, below(random, 2 ** 32));
        if (shown !== null) return [{ offer, shown }];
      }
      return [];
    };
    const run = put(wholeRun(view, p, found));
    const drawn = run[0]?.shown.form === 'run' ? run[0].shown.drawn : {};
    const values = valuesOf(resolved, memory, view, found, drawn).map((ones) => shuffled(random, ones));
    const questions = [...run, ...values.flatMap((ones) => firstOf(ones, put))];
    if (questions.length === 0) continue;
    return { v: 1, id, deck: resolved.ref, variant: view.id, procedure, situation: found.id, seat, questions };
  }
  return null;
};

/** All steps at once, however many there are; strangers as many as the form allows beside them. */
const wholeRun = (view: View, { procedure }: ResolvedProcedure, { id, steps, order }: Situation): Offer => ({
  form: 'run',
  about: { thing: procedure.id, situation: id },
  variant: view.id,
  proves: steps.flatMap(({ place }) => place ?? []),
  // Marking gives the rate that counts, with the strangers drawn.
  g: guessRate(order, 0),
  seconds: 0,
  ease: 0,
  confusable: [],
  needs: 'right-once',
});

/** Not every rule can come about in every variant: the first that can be drawn. */
const firstOf = (list: readonly Offer[], put: (offer: Offer) => readonly Put[]): readonly Put[] => {
  for (const offer of list) {
    const found = put(offer);
    if (found.length > 0) return found;
  }
  return [];
};

/**
 * For each limit and each rule that a step names, once, in the order of the steps, the questions of which one is asked:
 * of a limit the cases that the circumstances of the run allow, of a decision its rules. A decision that was never read
 * is left out: it is not among the words of a step, as a limit is.
 */
const valuesOf = (
  resolved: Resolved,
  memory: Pick<Memory, 'items' | 'read'>,
  view: View,
  { steps }: Situation,
  drawn: Drawn,
): Offer[][] => {
  const named = [...new Set(steps.flatMap(({ step }) => namedBy(step)))];
  const keys = named.map((name): ItemKey[] => {
    const [thing = '', ask] = name.split('#');
    const limit = view.limits.find((one) => one.limit.id === thing);
    if (ask === undefined) return limit === undefined ? [] : casesIn(limit, drawn).map(({ key }) => key);
    const found = view.scenarios.find(({ scenario }) => scenario.id === thing)?.asks.find((one) => one.ask.id === ask);
    if (found === undefined) return [];
    const all = 'number' in found ? [found.key] : found.rules.map(({ key }) => key);
    return wasMet(resolved, memory, thing, ...all) ? all : [];
  });
  const byKey = new Map(
    offers(resolved, new Set(keys.flat()), 1)
      .filter(({ form }) => form === 'limit' || form === 'scenario')
      .map((offer) => [offer.proves[0], offer] as const),
  );
  // The same item in another view asks the same: here it is asked in this one.
  return keys.map((list) =>
    list.flatMap((key) => {
      const offer = byKey.get(key);
      return offer === undefined ? [] : [{ ...offer, variant: view.id }];
    }),
  );
};

/** Limits by their id, decisions as `scenario#ask`. */
const namedBy = ({ limit, rule, cue, from, until, after }: Step): string[] =>
  [cue?.limit, from?.limit, limit, rule, until?.limit, after?.atLeast?.limit, after?.atMost?.limit].filter(
    (name) => name !== undefined,
  );

/** Cases that hold in the circumstances drawn, as far as those say; all where they say nothing. */
const casesIn = ({ limit, cases }: ResolvedLimit, drawn: Drawn): ResolvedLimit['cases'] => {
  if (isTable(limit)) return cases;
  const givenOf = (id: Id): Holding => limit.cases?.find((one) => one.id === id)?.given ?? {};
  const truths = cases.map(({ id }) => Object.entries(givenOf(id)).map(([name, wanted]) => holds(wanted, drawn[name])));
  const sure = cases.filter((_, i) => truths[i]?.length !== 0 && truths[i]?.every((truth) => truth === true));
  return sure.length > 0 ? sure : cases.filter((_, i) => !truths[i]?.includes(false));
};

/** null where it was not drawn. */
const holds = (wanted: Holding[string], value: Drawn[string] | undefined): boolean | null => {
  if (value === undefined) return null;
  if (typeof wanted !== 'object') return value === wanted;
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = wanted;
  return typeof value === 'number' && value >= from && value < to;
};
