import type { Id } from '../../model/deck.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved, ResolvedProcedure, RunStep, Situation, View } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { FIRST_WINDOW, WINDOW, windowsOf } from '../run/windows.ts';
import { dealable, isMixed } from './rows.ts';
import { seatsOf } from './seats.ts';

/** s: to read the scene and the verdict, and per row to read and tap. First estimates; pace is measured. */
const SECONDS = { scene: 7, row: 2.5 };

interface Part {
  readonly rows: readonly number[];
  readonly ease: number;
}

/** A question for each window of a procedure that deals two steps at least to two seats at least. */
export function* crewOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seats = seatsOf(resolved).length;
  const seen = new Set<string>();
  for (const view of resolved.views) {
    for (const p of view.procedures) {
      if (seats < 2 || !asksOrder(p.procedure)) continue;
      for (const situation of p.situations) {
        for (const { rows, ease } of partsOf(resolved, situation)) {
          const steps = rows.map((i) => situation.steps[i] as RunStep);
          const proves = steps.flatMap(({ crew }) => crew ?? []);
          const names = proves.map((key) => `${ease} ${key}`);
          // All of them were asked so in another view or situation.
          if (names.every((name) => seen.has(name)) || !wants(wanted, proves)) continue;
          for (const name of names) seen.add(name);
          yield offerOf(view, p, situation, steps, seats, ease);
        }
        yield null;
      }
    }
  }
}

/**
 * Small windows first: those of a first run, so that who does what comes as soon as their places are known, though
 * another one's are not.
 */
function partsOf(resolved: Resolved, situation: Situation): Part[] {
  const dealt = dealable(resolved, situation);
  const large = withAll(mixedIn(situation, dealt, WINDOW), dealt);
  const known = new Set(large.map(String));
  const small = mixedIn(situation, dealt, FIRST_WINDOW).filter((rows) => !known.has(String(rows)));
  return [...small.map((rows) => ({ rows, ease: 0.6 })), ...large.map((rows) => ({ rows, ease: 0.5 }))];
}

const mixedIn = ({ steps }: Situation, dealt: ReadonlyMap<number, Id>, most: number): number[][] =>
  windowsOf(steps, most)
    .map((window) => window.filter((i) => dealt.has(i)))
    .filter((rows) => isMixed(rows, dealt));

/** A step that its window leaves out, since all there is done by one, stands with the nearest one that another does. */
function withAll(windows: readonly number[][], dealt: ReadonlyMap<number, Id>): number[][] {
  const parts = [...windows];
  const asked = new Set(parts.flat());
  for (const i of dealt.keys()) {
    if (asked.has(i)) continue;
    const other = [...dealt.keys()]
      .filter((j) => dealt.get(j) !== dealt.get(i) && Math.abs(j - i) < WINDOW)
      .sort((a, b) => Math.abs(a - i) - Math.abs(b - i))[0];
    if (other === undefined) continue;
    const from = Math.min(i, other);
    const rows = [...dealt.keys()].filter((j) => j >= from && j < from + WINDOW);
    parts.push(rows);
    for (const j of rows) asked.add(j);
  }
  return parts;
}

const offerOf = (
  view: View,
  p: ResolvedProcedure,
  situation: Situation,
  steps: readonly RunStep[],
  seats: number,
  ease: number,
): Offer => {
  const behind = steps.flatMap(({ place }) => place ?? []);
  return {
    form: 'crew',
    about: { thing: p.procedure.id, situation: situation.id, part: steps.map(({ step }) => step.id) },
    variant: view.id,
    proves: steps.flatMap(({ crew }) => crew ?? []),
    g: 1 / seats,
    seconds: SECONDS.scene + SECONDS.row * steps.length,
    rows: steps.length,
    ease,
    confusable: [],
    needs: 'read',
    ...(behind.length > 0 && { behind }),
  };
};
