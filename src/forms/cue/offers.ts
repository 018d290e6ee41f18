import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { cuesOf, otherCues, otherSteps, tellsCallout } from './cues.ts';

/** s: to read the scene and the verdict, and per row to read. First estimates; pace is measured. */
const SECONDS = { scene: 7, row: 2 };
/** Choices beside the right one, at most and at least. */
export const OTHERS = 4;
const LEAST_OTHERS = 3;

const WAYS = [
  { way: 'trigger', ease: 0.5, others: otherCues },
  { way: 'calls', ease: 0.6, others: otherSteps },
] as const;

/** Two questions for each cue: what its step waits for, and what it calls for, where it does not say so itself. */
export function* cueOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<string>();
  for (const view of resolved.views) {
    const all = cuesOf(resolved, view);
    for (const one of all) {
      const { p, step } = one;
      const { cue, place } = step;
      if (cue === null || seen.has(cue) || !wants(wanted, [cue])) continue;
      const situation = p.situations.find(({ steps }) => steps.includes(step))?.id ?? '';
      for (const { way, ease, others } of WAYS) {
        if (way === 'calls' && tellsCallout(one, one.cue)) continue;
        const count = Math.min(OTHERS, others(all, one).length);
        if (count < LEAST_OTHERS) continue;
        seen.add(cue);
        const rows = 1 + count;
        yield {
          form: 'cue',
          about: { thing: p.procedure.id, situation, part: [step.step.id], way },
          variant: view.id,
          proves: [cue],
          g: 1 / rows,
          seconds: SECONDS.scene + SECONDS.row * rows,
          rows,
          ease,
          confusable: [],
          needs: 'read',
          ...(place !== null && { behind: [place] }),
        };
      }
      yield null;
    }
  }
}
