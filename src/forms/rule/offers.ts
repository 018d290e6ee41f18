import { isNumberAsk } from '../../model/deck.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved, ResolvedAsk } from '../../subjects/resolved.ts';
import { aboutHolder, type Holder, holdersOf, saysWords } from '../in-step/holder.ts';
import { scenarioIn, viewOf } from '../look-up.ts';
import { scenarioOffers } from '../scenario/offers.ts';
import { branchOffers } from './branch.ts';

/** s more than the scenario alone: to read where in the procedure one is. */
const SCENE_SECONDS = 4;

/**
 * The rule of a scenario asked inside the step that it decides, the wind or whatever else drawn; and of a procedure
 * that goes two ways the step that is done in the circumstances drawn.
 */
export function* ruleOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  for (const offer of scenarioOffers(resolved, wanted)) {
    const holder = offer === null ? undefined : holderOf(resolved, offer);
    yield offer === null || holder === undefined ? null : offerOf(offer, holder);
  }
  yield* branchOffers(resolved, wanted);
}

/** A step that is there whatever the circumstances: theirs are not those that the scenario draws. */
function holderOf(resolved: Resolved, { variant, about: { thing, case: asked = '' } }: Offer): Holder | undefined {
  const view = viewOf(resolved, variant);
  const ask = view && scenarioIn(view, thing)?.asks.find((one) => one.ask.id === asked);
  if (view === undefined || ask === undefined) return undefined;
  return [...holdersOf(view, (step) => step.rule === `${thing}#${asked}`, true)].find(
    ({ step }) => !saysWords(resolved.deck, step.text, optionsOf(ask)),
  );
}

const optionsOf = ({ ask }: ResolvedAsk): string[] => (isNumberAsk(ask) ? [] : Object.values(ask.choose.options));

const offerOf = (offer: Offer, holder: Holder): Offer => ({
  ...offer,
  form: 'rule',
  about: { ...offer.about, ...aboutHolder(holder) },
  seconds: offer.seconds + SCENE_SECONDS,
  ease: 0.25,
  needs: 'right-once',
  ...(holder.step.place !== null && { behind: [holder.step.place] }),
});
