import { seeded } from '../../lib/random.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { LEAST_MISSES, nearMisses } from '../words/near.ts';
import { saidIn, saidOf } from '../words/said.ts';
import { seatsAsked } from '../words/seats.ts';
import { signOf, tellsWords } from './context.ts';

/** s: to read the scene and the verdict, to type, per row to read, and to name a seat. First estimates; pace is measured. */
export const SECONDS = { scene: 8, type: 9, row: 2, seat: 2 };
/** Chance to type the words by guessing. */
export const TYPED_GUESS = 0.01;

/** Two questions for each callout that something tells: typed, and picked among near misses. */
export function* calloutOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<ItemKey>();
  for (const view of resolved.views)
    for (const p of view.procedures) {
      if (!asksOrder(p.procedure)) continue;
      for (const situation of p.situations) {
        for (const [k, { words }] of situation.steps.entries()) {
          if (words === null || seen.has(words) || !wants(wanted, [words])) continue;
          const found = offersAt(resolved, view, p, situation, k, words);
          if (found.length > 0) seen.add(words);
          yield* found;
          yield null;
        }
      }
    }
}

function offersAt(
  resolved: Resolved,
  view: View,
  p: ResolvedProcedure,
  situation: Situation,
  k: number,
  words: ItemKey,
): Offer[] {
  const step = situation.steps[k] as RunStep;
  const { say = '', alsoSay = [] } = step.step;
  const { title, starts = '' } = p.procedure;
  if ([title, starts].some((line) => tellsWords(say, line))) return [];
  if (signOf(resolved, view, p, situation, k) === null) return [];
  const seats = askedSeats(resolved, step).length;
  const about = { thing: p.procedure.id, situation: situation.id, part: [step.step.id] };
  const common = {
    form: 'callout',
    variant: view.id,
    proves: [words],
    confusable: [],
    ...(step.place !== null && { behind: [step.place] }),
  } as const;
  const seconds = SECONDS.scene + (seats > 0 ? SECONDS.seat : 0);
  const typed: Offer = {
    ...common,
    about: { ...about, way: 'typed' },
    g: TYPED_GUESS / Math.max(1, seats),
    seconds: seconds + SECONDS.type,
    rows: 0,
    ease: 0.2,
    needs: 'right-once',
  };
  const misses = nearMisses(seeded(1), say, alsoSay, pool(view, step), taken(resolved, view)).length;
  if (misses < LEAST_MISSES) return [typed];
  const rows = 1 + misses;
  const picked: Offer = {
    ...common,
    about: { ...about, way: 'picked' },
    g: 1 / rows / Math.max(1, seats),
    seconds: seconds + SECONDS.row * rows,
    rows,
    ease: 0.7,
    needs: 'read',
  };
  return [picked, typed];
}

/** Where who does it is left out by the learner, it is not asked with the words either. */
export const askedSeats = ({ deck }: Resolved, { crew, step }: RunStep) =>
  crew === null ? [] : seatsAsked(deck, step.by);

/** Other callouts of a view, before values are filled in. */
export const pool = (view: View, { step: { id } }: RunStep) =>
  saidIn(view).flatMap((one) => (one.step === undefined || one.id === id ? [] : [{ id: one.id, text: one.text }]));

export const taken = (resolved: Resolved, view: View): string[] => saidOf(resolved, view).map(({ text }) => text);
