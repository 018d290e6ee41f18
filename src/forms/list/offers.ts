import { seeded } from '../../lib/random.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved, ResolvedProcedure, RunStep, View } from '../../subjects/resolved.ts';
import { tellsWords } from '../callout/context.ts';
import { SECONDS, TYPED_GUESS } from '../callout/offers.ts';
import { wants } from '../look-up.ts';
import { LEAST_MISSES, nearMisses } from '../words/near.ts';
import { saidOf } from '../words/said.ts';
import {
  callPool,
  callSeats,
  callSign,
  challengeOf,
  listsOf,
  mostOthers,
  otherLists,
  responsePool,
  responseSeats,
} from './lists.ts';

const EASE = { typed: 0.3, picked: 0.7 };

/**
 * Of each list that is read: which one it is, by when it is called for; the call and who gives it; each response to its
 * challenge. Never its order.
 */
export function* listOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<string>();
  const isNew = ({ about, proves }: Offer): boolean =>
    wants(wanted, proves) && seen.size < seen.add([about.way, ...proves].join(' ')).size;
  for (const view of resolved.views)
    for (const p of listsOf(view)) {
      yield* [...whichOffers(view, p), ...callOffers(resolved, view, p)].filter(isNew);
      yield null;
      for (const situation of p.situations)
        for (const [k, step] of situation.steps.entries()) {
          if (step.words === null || (seen.has(`response ${step.words}`) && seen.has(`response-picked ${step.words}`)))
            continue;
          const challenge = challengeOf(p, situation, k);
          if (challenge === null) continue;
          yield* responseOffers(resolved, view, p, situation.id, step).filter(isNew);
          yield null;
        }
    }
}

const situationOf = ({ situations }: ResolvedProcedure): string => situations[0]?.id ?? '';

function whichOffers(view: View, p: ResolvedProcedure): Offer[] {
  const others = otherLists(view, p);
  const key = p.calls?.cue ?? null;
  if (others === null || key === null) return [];
  const rows = 1 + Math.min(mostOthers, others.length);
  return [
    {
      form: 'list',
      about: { thing: p.procedure.id, situation: situationOf(p), way: 'which' },
      variant: view.id,
      proves: [key],
      g: 1 / rows,
      seconds: SECONDS.scene + SECONDS.row * rows,
      rows,
      ease: EASE.picked,
      confusable: [],
      needs: 'read',
    },
  ];
}

function callOffers(resolved: Resolved, view: View, p: ResolvedProcedure): Offer[] {
  const { called = '', id } = p.procedure;
  const seats = callSeats(resolved, p).length;
  const crew = seats > 0 ? (p.calls?.crew ?? null) : null;
  const about = { thing: id, situation: situationOf(p) };
  const words = p.calls?.words ?? null;
  if (words === null || callSign(view, p) === null) {
    if (crew === null) return [];
    return [
      {
        form: 'list',
        about: { ...about, way: 'caller' },
        variant: view.id,
        proves: [crew],
        g: 1 / seats,
        seconds: SECONDS.scene + SECONDS.row * seats,
        rows: seats,
        ease: EASE.picked,
        confusable: [],
        needs: 'read',
      },
    ];
  }
  const misses = nearMisses(seeded(1), called, [], callPool(view, p), taken(resolved, view)).length;
  const proves = crew === null ? [words] : [words, crew];
  return both({ about, way: 'call', variant: view.id, proves, seats, misses });
}

function responseOffers(
  resolved: Resolved,
  view: View,
  p: ResolvedProcedure,
  situation: string,
  step: RunStep,
): Offer[] {
  const { say = '', alsoSay = [], id } = step.step;
  const { title, starts = '' } = p.procedure;
  if (step.words === null || [title, starts].some((line) => tellsWords(say, line))) return [];
  const about = { thing: p.procedure.id, situation, part: [id] };
  const misses = nearMisses(seeded(1), say, alsoSay, responsePool(view, step), taken(resolved, view)).length;
  const seats = responseSeats(resolved, step).length;
  return both({ about, way: 'response', variant: view.id, proves: [step.words], seats, misses });
}

/** Picked where there is enough to choose from, and typed. */
function both(of: {
  readonly about: Offer['about'];
  readonly way: 'call' | 'response';
  readonly variant: string;
  readonly proves: readonly ItemKey[];
  readonly seats: number;
  readonly misses: number;
}): Offer[] {
  const { about, way, variant, proves, seats, misses } = of;
  const common = { form: 'list', variant, proves, confusable: [] } as const;
  const seconds = SECONDS.scene + (seats > 0 ? SECONDS.seat : 0);
  const share = 1 / Math.max(1, seats);
  const rows = 1 + misses;
  const typed: Offer = {
    ...common,
    about: { ...about, way },
    g: TYPED_GUESS * share,
    seconds: seconds + SECONDS.type,
    rows: 0,
    ease: EASE.typed,
    needs: 'right-once',
  };
  const picked: Offer = {
    ...common,
    about: { ...about, way: `${way}-picked` },
    g: share / rows,
    seconds: seconds + SECONDS.row * rows,
    rows,
    ease: EASE.picked,
    needs: 'read',
  };
  return misses < LEAST_MISSES ? [typed] : [picked, typed];
}

export const taken = (resolved: Resolved, view: View): string[] => saidOf(resolved, view).map(({ text }) => text);
