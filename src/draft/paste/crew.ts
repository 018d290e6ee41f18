import { foldText } from '../../lib/fold-text.ts';
import type { Named } from './types.ts';

/** What the trade writes for a member of the crew (common practice, no source); left side as `foldText` gives it. */
const ALSO: Readonly<Record<string, readonly string[]>> = {
  pf: ['pilot flying', 'handling pilot'],
  pm: ['pilot monitoring', 'pnf', 'pilot not flying', 'non handling pilot'],
  both: ['both pilots', 'pf and pm', 'pm and pf', 'all', 'crew', 'flight crew', 'all crew'],
  either: ['either pilot', 'pf or pm', 'pm or pf', 'any pilot'],
  captain: ['capt', 'cpt', 'cm1', 'commander'],
  'first officer': ['fo', 'f or o', 'copilot', 'co pilot', 'cm2'],
  'cabin crew': ['cabin', 'cc', 'ccm', 'cabin attendant'],
  atc: ['tower', 'air traffic control'],
  ground: ['ground crew', 'ground staff'],
};

export type CrewOf = (name: string) => string | null;

/** @returns what finds the id of a member of the crew by a name that lists use; null where the deck has none such */
export const crewFinder = (crew: readonly Named[]): CrewOf => {
  const ids = new Map<string, string>();
  const add = (name: string, id: string) => {
    const folded = foldText(name);
    if (folded !== '' && !ids.has(folded)) ids.set(folded, id);
  };
  for (const { id, names } of crew) for (const name of [id, ...names]) add(name, id);
  for (const [name, also] of Object.entries(ALSO)) {
    const id = [name, ...also].map((one) => ids.get(one)).find((one) => one !== undefined);
    if (id !== undefined) for (const one of [name, ...also]) add(one, id);
  }
  return (name) => ids.get(foldText(name.replaceAll('/', ' or ').replaceAll(/[&+]/g, ' and '))) ?? null;
};
