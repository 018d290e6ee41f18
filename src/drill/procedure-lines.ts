import { crewLabel } from '../forms/run/extras.ts';
import { targetOf } from '../memory/day-order.ts';
import { recallChance } from '../memory/fsrs.ts';
import type { Memory } from '../memory/types.ts';
import type { Id } from '../model/deck.ts';
import type { ItemKey } from '../model/item.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation } from '../subjects/resolved.ts';
import type { Answered } from './types.ts';
import { wordsIn } from './walk-line.ts';

export interface LineStep {
  readonly id: Id;
  /** Item of its place; null where the procedure is not asked by order. */
  readonly place: ItemKey | null;
  readonly text: string;
  /** Who does it, as the crew is called. */
  readonly by?: string;
  readonly critical: boolean;
  /** The worst that became of it in this drill; null where it was not asked. */
  readonly now: 'missed' | 'unsure' | 'right' | null;
  /** Recall chance on the day that counts, 0..1; null before a forecast is possible, or where it was never met. */
  readonly chance: number | null;
  /** One of those to be named. */
  readonly weak: boolean;
}

/** A procedure of which something was asked, its steps in order. */
export interface ProcedureLine {
  readonly deck: string;
  readonly procedure: Id;
  readonly title: string;
  readonly steps: readonly LineStep[];
  /** The step that is least likely to be there on the day; null before a forecast is possible. */
  readonly weakest: LineStep | null;
}

/** Of one procedure so many are named: more would be the whole of it. */
const MOST_WEAK = 4;

/**
 * Every procedure of which places of steps were asked, each in the situation that was asked most; the one with the
 * weakest step first. Before a forecast is possible only those where something was missed or not sure.
 * @param answered of the drill; voided ones do not count
 * @param on study day that counts, null before a forecast is possible
 */
export const procedureLines = (
  answered: readonly Answered[],
  decks: readonly Resolved[],
  memory: Pick<Memory, 'items' | 'model'>,
  on: number | null,
): ProcedureLine[] => {
  const worst = worstOf(answered);
  const lines = decks.flatMap((resolved) =>
    proceduresAsked(resolved, worst).map((found) => lineOf(resolved, found, worst, memory, on)),
  );
  const told = on === null ? lines.filter(({ steps }) => steps.some(({ weak }) => weak)) : lines;
  const rank = ({ weakest, steps }: ProcedureLine) =>
    weakest?.chance ?? -steps.filter(({ now }) => now === 'missed').length;
  return told.sort((a, b) => rank(a) - rank(b));
};

type Worst = ReadonlyMap<ItemKey, NonNullable<LineStep['now']>>;

const worstOf = (answered: readonly Answered[]): Worst => {
  const worst = new Map<ItemKey, NonNullable<LineStep['now']>>();
  for (const { verdicts, voided } of answered) {
    if (voided !== undefined) continue;
    for (const [key, verdict] of Object.entries(verdicts)) {
      const before = worst.get(key);
      if (verdict === 'missed' || before === 'missed') worst.set(key, 'missed');
      else if (verdict === 'unsure' || before === 'unsure') worst.set(key, 'unsure');
      else worst.set(key, 'right');
    }
  }
  return worst;
};

interface Asked {
  readonly procedure: ResolvedProcedure;
  readonly situation: Situation;
  readonly count: number;
}

/** A step that several procedures share belongs to the one of which most was asked. */
const proceduresAsked = ({ views }: Resolved, worst: Worst): Asked[] => {
  const best = new Map<Id, Asked>();
  for (const { procedures } of views)
    for (const procedure of procedures)
      for (const situation of procedure.situations) {
        const count = situation.steps.filter(({ place }) => place !== null && worst.has(place)).length;
        const { id } = procedure.procedure;
        if (count > (best.get(id)?.count ?? 0)) best.set(id, { procedure, situation, count });
      }
  const told = new Set<ItemKey>();
  return [...best.values()]
    .sort((a, b) => b.count - a.count)
    .filter(({ situation }) => {
      const own = situation.steps.flatMap(({ place }) => (place !== null && worst.has(place) ? [place] : []));
      const adds = own.some((key) => !told.has(key));
      for (const key of own) told.add(key);
      return adds;
    });
};

const lineOf = (
  resolved: Resolved,
  { procedure, situation }: Asked,
  worst: Worst,
  memory: Pick<Memory, 'items' | 'model'>,
  on: number | null,
): ProcedureLine => {
  const chanceOf = ({ place }: RunStep): number | null => {
    const known = place === null ? undefined : memory.items.get(place);
    return known === undefined || on === null ? null : recallChance(known, on, memory.model);
  };
  const plain = situation.steps.map((step) => ({
    step,
    now: step.place === null ? null : (worst.get(step.place) ?? null),
    chance: chanceOf(step),
  }));
  const named = new Set(
    on === null
      ? plain.filter(({ now }) => now === 'missed' || now === 'unsure')
      : [
          ...plain.filter(({ now }) => now === 'missed'),
          ...plain
            .filter(({ chance }) => chance !== null)
            .sort((a, b) => (a.chance as number) - (b.chance as number))
            // The weakest is named always, of the others those that will not do.
            .filter(({ step, chance }, i) => i === 0 || (i < MOST_WEAK && (chance as number) < targetOf(step))),
        ],
  );
  const steps = plain.map((one): LineStep => {
    const { step, now, chance } = one;
    return {
      id: step.step.id,
      place: step.place,
      text: wordsIn(resolved, step.text),
      ...(step.step.by !== undefined && { by: crewLabel(resolved, step.step.by) }),
      critical: step.critical,
      now,
      chance,
      weak: named.has(one),
    };
  });
  const weakest = steps.reduce<LineStep | null>(
    (least, one) => (one.chance !== null && one.chance < (least?.chance ?? 2) ? one : least),
    null,
  );
  const { id, title } = procedure.procedure;
  return { deck: resolved.deck.id, procedure: id, title, steps, weakest };
};
