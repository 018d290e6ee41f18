import type { Id } from '../../model/deck.ts';
import type { Offer } from '../../model/form.ts';
import type { ItemKey } from '../../model/item.ts';
import type { Resolved, ResolvedRule, ResolvedScenario } from '../../subjects/resolved.ts';
import { wants } from '../look-up.ts';
import { computedGuess } from './guess.ts';

/** s to read the situation, work it out and read the verdict: first estimates; pace is measured. */
const SECONDS = { number: 30, choice: 22, formula: 3 };

export const choiceGuess = (rule: ResolvedRule, options: number): number =>
  Math.min(1, new Set(rule.rule.then).size / Math.max(1, options));

/** One question an ask: a computed number, or one rule that the draw is steered to. */
export function* scenarioOffers(resolved: Resolved, wanted: ReadonlySet<ItemKey> | null): Generator<Offer | null> {
  const seen = new Set<ItemKey>();
  for (const view of resolved.views) {
    for (const s of view.scenarios) {
      const work = s.lets.length * SECONDS.formula;
      const common = { form: 'scenario', variant: view.id, confusable: [] as readonly Id[], needs: 'read' } as const;
      const made = (key: ItemKey, offer: Pick<Offer, 'about' | 'g' | 'seconds' | 'rows' | 'ease'>): Offer | null => {
        if (seen.has(key) || !wants(wanted, [key])) return null;
        seen.add(key);
        return { ...common, confusable: confusableWith(view.scenarios, s), proves: [key], ...offer };
      };
      for (const a of s.asks) {
        const about = { thing: s.scenario.id, case: a.ask.id };
        if ('number' in a) {
          yield made(a.key, {
            about,
            g: computedGuess(resolved.deck, view, s, a),
            seconds: SECONDS.number + work,
            rows: 1,
            ease: 0.3,
          });
          continue;
        }
        const options = Object.keys(a.ask.choose.options).length;
        for (const rule of a.rules) {
          yield made(rule.key, {
            about: { ...about, rule: rule.rule.id },
            g: choiceGuess(rule, options),
            seconds: SECONDS.choice + work,
            rows: options,
            ease: 0.5,
          });
        }
      }
    }
  }
}

/** Scenarios that compute with values of the same names: the same wind, another rule. */
function confusableWith(all: readonly ResolvedScenario[], one: ResolvedScenario): Id[] {
  const names = new Set(one.lets.map((l) => l.name));
  return all
    .filter((o) => o !== one && o.lets.some((l) => names.has(l.name)))
    .map((o) => o.scenario.id)
    .slice(0, 6);
}
