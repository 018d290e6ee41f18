import { fnv1a } from '../../lib/hash.ts';
import type { Id } from '../../model/deck.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { alikeIn } from '../run/offers.ts';
import { guessOf } from './judge.ts';
import { canStandBeside, choosePlans, isInserted, type Plan, wayOf, windowIn } from './plans.ts';
import { partsOf, type Window } from './window.ts';

/** s: to read the scene and the verdict, and per row to read and to weigh. First estimates; pace is measured. */
const SECONDS = { scene: 10, row: 2.6 };
/** Fewer rows, or more of them where a fault is found, so that a guess would do better: no question. */
const MOST_GUESS = 1 / 3;

/**
 * For each item at most two: its fault alone, and with another one, so that nobody can count on one. In the first view
 * and situation that can ask it.
 */
export function* slipOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<ItemKey>();
  for (const view of resolved.views) {
    const alike = alikeIn(view);
    for (const p of view.procedures) {
      if (!asksOrder(p.procedure)) continue;
      const confusable = alike.get(p.procedure.id) ?? [];
      for (const situation of p.situations) {
        for (const part of partsOf(situation)) {
          const window = windowIn(resolved, { view, p, situation, part });
          const isNew = ({ item }: Plan): boolean => !seen.has(item);
          const alone = choosePlans(window, '1').filter(isNew);
          const pairs = inPairs(choosePlans(window, '2').filter(isNew));
          for (const plans of [...alone.map((plan) => [plan]), ...pairs]) {
            const offer = offerOf(window, plans, confusable);
            if (offer === null) continue;
            for (const { item } of plans) seen.add(item);
            if (wants(wanted, offer.proves)) yield offer;
          }
          yield null;
        }
      }
    }
  }
}

/** Each fault with at most one other. */
function inPairs(plans: readonly Plan[]): Plan[][] {
  const left = [...plans].sort((a, b) => fnv1a(a.item) - fnv1a(b.item));
  const pairs: Plan[][] = [];
  while (left.length > 0) {
    const one = left.shift() as Plan;
    // Of two kinds rather than of one.
    const fits = left.filter((other) => canStandBeside(one, other));
    const other = fits.find(({ kind }) => kind !== one.kind) ?? fits[0];
    if (other === undefined) continue;
    left.splice(left.indexOf(other), 1);
    pairs.push([one, other]);
  }
  return pairs;
}

function offerOf(window: Window, plans: readonly Plan[], confusable: readonly Id[]): Offer | null {
  const { asked, steps } = window;
  const { view, p, situation, part } = asked;
  const rows = rowsWith(steps.length, plans);
  // Which lines they are does not matter to a blind guess, only how many.
  let next = 0;
  const lines = plans.map((plan) => Array.from({ length: linesOf(plan) }, () => next++));
  const g = guessOf(rows, lines, plans.length).share;
  if (g > MOST_GUESS) return null;
  const proves = plans.map(({ item }) => item);
  return {
    form: 'slip',
    about: {
      thing: p.procedure.id,
      situation: situation.id,
      ...(part.length < situation.steps.length && { part: steps.map(({ step }) => step.id) }),
      way: wayOf(plans),
    },
    variant: view.id,
    proves,
    g,
    seconds: SECONDS.scene + SECONDS.row * rows,
    rows,
    ease: 0.15,
    confusable,
    needs: 'two-days',
    // Whoever does not know the other lines would only guess at them.
    behind: steps.flatMap(({ place }) => (place === null || proves.includes(place) ? [] : [place])),
  };
}

/** Lines of which any one finds it. */
const linesOf = ({ kind, waiting }: Plan): number => (kind === 'swapped' ? 2 : (waiting?.length ?? 1));

/** How many rows are shown. */
const rowsWith = (steps: number, plans: readonly Plan[]): number =>
  plans.reduce((rows, plan) => rows + (plan.kind === 'missing' ? -1 : isInserted(plan) ? 1 : 0), steps);
