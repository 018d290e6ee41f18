import type { Deck } from '../../model/deck.ts';
import { plural } from '../words.ts';

/**
 * "11 procedures, 44 limits, 9 scenarios, in all variants together": who flies one variant finds fewer on the deck's
 * page, where some are of another one.
 */
export const contentWords = ({ procedures = [], limits = [], scenarios = [] }: Deck): string => {
  const isVaried = [...procedures, ...limits, ...scenarios].some(({ when }) => when !== undefined);
  return [
    plural(procedures.length, 'procedure'),
    plural(limits.length, 'limit'),
    plural(scenarios.length, 'scenario'),
    ...(isVaried ? ['in all variants together'] : []),
  ].join(', ');
};
