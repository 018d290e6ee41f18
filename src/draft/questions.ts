import type { Json } from '../lib/canonical-json.ts';
import { withoutReason } from '../subjects/procedure/check-order.ts';
import { asksOrder, stepText } from '../subjects/procedure/words.ts';
import { type Flown, runsOf } from './flown.ts';
import { stepPath } from './nodes.ts';
import type { Neighbours } from './order.ts';

/** Two steps of which nothing says whether the one must wait for the other. */
export interface OrderQuestion extends Neighbours {
  /** Pointer of the later step. */
  readonly path: string;
  readonly texts: readonly [string, string];
}

/**
 * What the author is asked, in the order of the text, one question for each later step. Steps that stand in another
 * procedure are asked about there.
 * @param procedure pointer
 */
export const orderQuestions = (doc: Json, procedure: string, flown: Flown): OrderQuestion[] => {
  if (!asksOrder(flown.procedure)) return [];
  const found = new Map<string, OrderQuestion>();
  for (const { steps, order } of runsOf(flown))
    for (const [first, second] of withoutReason(
      steps.map(({ step }) => step),
      order,
    )) {
      const path = stepPath(doc, procedure, second.id);
      if (path === null || found.has(second.id)) continue;
      found.set(second.id, { first: first.id, second: second.id, path, texts: [stepText(first), stepText(second)] });
    }
  return [...found.values()];
};
