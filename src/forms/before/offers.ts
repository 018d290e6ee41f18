import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import { asksOrder } from '../../subjects/procedure/words.ts';
import type { Resolved } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { alikeIn } from '../run/offers.ts';
import { othersOf } from './others.ts';

/** s: to read the scene and the verdict, and per row to read. First estimates; pace is measured. */
const SECONDS = { scene: 7, row: 2 };

/** One question for each step that something must be done before: in the first view and situation that can ask it. */
export function* beforeOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<string>();
  for (const view of resolved.views) {
    const alike = alikeIn(view);
    for (const p of view.procedures) {
      if (!asksOrder(p.procedure)) continue;
      const thing = p.procedure.id;
      for (const situation of p.situations) {
        for (const [k, { step, place }] of situation.steps.entries()) {
          if (place === null || seen.has(`${thing} ${place}`) || !wants(wanted, [place])) continue;
          const others = othersOf(view, p, situation, k);
          if (others === null) continue;
          seen.add(`${thing} ${place}`);
          const rows = 1 + others.count;
          yield {
            form: 'before',
            about: { thing, situation: situation.id, part: [step.id] },
            variant: view.id,
            proves: [place],
            g: 1 / rows,
            seconds: SECONDS.scene + SECONDS.row * rows,
            rows,
            ease: 0.6,
            confusable: alike.get(thing) ?? [],
            needs: 'right-once',
          };
        }
        yield null;
      }
    }
  }
}
