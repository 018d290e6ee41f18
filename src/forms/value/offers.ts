import type { Deck } from '../../model/deck.ts';
import { isFact } from '../../model/deck.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved, ResolvedCase, ResolvedLimit } from '../../subjects/resolved.ts';
import { aboutHolder, type Holder, holdersOf, saysNumber, saysWords } from '../in-step/holder.ts';
import { limitOffers } from '../limit/offers.ts';
import { caseIn, limitIn, viewOf } from '../look-up.ts';

/** s more than the limit alone: to read where in the procedure one is. */
const SCENE_SECONDS = 4;

/**
 * The limit asked inside the step that it belongs to: one question for each limit of which the view knows one value
 * alone, since a case that hangs on circumstances is not told by a step.
 */
export function* valueOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  for (const offer of limitOffers(resolved, wanted)) {
    const view = offer === null ? undefined : viewOf(resolved, offer.variant);
    const limit = view && offer !== null ? limitIn(view, offer.about.thing) : undefined;
    const one = limit && caseIn(limit, offer?.about.case);
    if (offer === null || view === undefined || limit === undefined || one === undefined || !isAlone(limit, one)) {
      yield null;
      continue;
    }
    const holder = [...holdersOf(view, (step) => step.limit === limit.limit.id, false)].find(
      ({ step }) => !tells(resolved.deck, step.text, limit, one),
    );
    yield holder === undefined ? null : offerOf(offer, holder);
  }
}

const offerOf = (offer: Offer, holder: Holder): Offer => ({
  ...offer,
  form: 'value',
  about: { ...offer.about, ...aboutHolder(holder) },
  seconds: offer.seconds + SCENE_SECONDS,
  ease: 0.25,
  needs: 'right-once',
  ...(holder.step.place !== null && { behind: [holder.step.place] }),
});

const isAlone = ({ cases }: ResolvedLimit, one: ResolvedCase): boolean => cases.length === 1 && one.given === '';

/** Does a text give the answer away? */
export const tells = (deck: Deck, text: string, { limit }: ResolvedLimit, { value }: ResolvedCase): boolean =>
  typeof value === 'string'
    ? isFact(limit) && saysWords(deck, text, [limit.options[value] ?? ''])
    : saysNumber(deck, text, value);
