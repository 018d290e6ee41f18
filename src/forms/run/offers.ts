import { foldText } from '../../lib/fold-text.ts';
import type { Id } from '../../model/deck.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { restrict } from '../../subjects/procedure/order.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { guessRate } from './guess.ts';
import { fitting } from './strangers.ts';
import { FIRST_WINDOW, MOST_ROWS, WINDOW, windowsOf } from './windows.ts';

/** Strangers among the steps at the first meeting. */
export const FIRST_STRANGERS = 2;

/** s: to read the scene and the verdict, and per row to read, choose and tap. First estimates; pace is measured. */
const SECONDS = { scene: 7, row: 3.2 };

/** How many strangers a run shows: as many as fit, few at the first meeting. */
export const strangerCount = (steps: number, available: number, needs: Offer['needs']): number =>
  Math.min(available, Math.max(0, MOST_ROWS - steps), needs === 'read' ? FIRST_STRANGERS : MOST_ROWS);

export function* runOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<string>();
  // The same question in another view adds nothing.
  const isNew = ({ about, needs, proves }: Offer): boolean =>
    seen.size < seen.add(JSON.stringify([about.thing, about.part, needs, proves])).size;
  for (const view of resolved.views) {
    const alike = alikeIn(view);
    for (const p of view.procedures) {
      if (!asksOrder(p.procedure)) continue;
      for (const situation of p.situations) {
        for (const part of partsOf(situation)) {
          const offer = offerOf(view, p, situation, part, alike);
          yield offer && wants(wanted, offer.proves) && isNew(offer) ? offer : null;
        }
      }
    }
  }
}

interface Part {
  readonly steps: readonly number[];
  readonly whole: boolean;
  readonly needs: Offer['needs'];
  readonly ease: number;
}

/**
 * New steps in windows of at most five; a whole run, or windows of seven of a long one, once each of its steps
 * was right once. The small windows serve for single weak steps too.
 */
function partsOf({ steps }: Situation): Part[] {
  const n = steps.length;
  if (n < 2) return [];
  const small = windowsOf(steps, FIRST_WINDOW).map((w): Part => ({ steps: w, whole: false, needs: 'read', ease: 0.7 }));
  if (n <= MOST_ROWS) {
    return [
      ...small,
      { steps: [...steps.keys()], whole: true, needs: 'right-once', ease: n <= FIRST_WINDOW ? 0.5 : 0.2 },
    ];
  }
  return [
    ...small,
    ...windowsOf(steps, WINDOW).map((w): Part => ({ steps: w, whole: false, needs: 'right-once', ease: 0.4 })),
  ];
}

function offerOf(
  view: View,
  p: ResolvedProcedure,
  situation: Situation,
  part: Part,
  alike: ReadonlyMap<Id, readonly Id[]>,
): Offer | null {
  const steps = part.steps.map((i) => situation.steps[i] as RunStep);
  const proves = steps.flatMap((s) => s.place ?? []);
  if (proves.length === 0) return null;
  const order = part.whole ? situation.order : restrict(situation.order, part.steps);
  const strangers = strangerCount(steps.length, fitting(p, situation).length, part.needs);
  // Nothing to put in order and nothing to leave out: no question.
  if (order.pairs === 0 && strangers === 0) return null;
  return {
    form: 'run',
    about: {
      thing: p.procedure.id,
      situation: situation.id,
      ...(!part.whole && { part: steps.map((s) => s.step.id) }),
    },
    variant: view.id,
    proves,
    g: guessRate(order, strangers),
    seconds: SECONDS.scene + SECONDS.row * (steps.length + strangers),
    rows: steps.length + strangers,
    ease: part.ease,
    confusable: alike.get(p.procedure.id) ?? [],
    needs: part.needs,
  };
}

/** Procedures that share two steps or more, by their words. */
export function alikeIn(view: View): Map<Id, Id[]> {
  const holders = new Map<string, Set<Id>>();
  for (const p of view.procedures) {
    for (const s of p.situations.flatMap((x) => x.steps)) {
      const key = foldText(s.text);
      const set = holders.get(key) ?? new Set();
      holders.set(key, set.add(p.procedure.id));
    }
  }
  const shared = new Map<string, number>();
  for (const set of holders.values()) {
    for (const a of set) for (const b of set) if (a !== b) shared.set(`${a} ${b}`, (shared.get(`${a} ${b}`) ?? 0) + 1);
  }
  const out = new Map<Id, Id[]>();
  for (const [pair, count] of shared) {
    const [a = '', b = ''] = pair.split(' ');
    if (count >= 2) out.set(a, [...(out.get(a) ?? []), b]);
  }
  return out;
}
