import { keysOf, valueAt } from '../../draft/change.ts';
import type { Json } from '../../lib/canonical-json.ts';

/** What a draft's page is called where it has words of its own. */
const SECTIONS: Readonly<Record<string, string>> = {
  head: 'The deck itself',
  sources: 'Sources',
  variants: 'Variants',
  crew: 'Crew',
  day: 'Values of the day',
  conditions: 'Conditions',
  areas: 'Plan of the flight deck',
  paced: 'Paced runs',
  limits: 'Limits',
  paste: 'From a list',
  try: 'Try it',
  compare: 'Compare versions',
  revision: 'Revision sheet',
  'hand-over': 'Hand over',
  print: 'Print',
};

const text = (value: Json | undefined): string => (typeof value === 'string' ? value.trim() : '');

/** Words by which an author knows a procedure, limit or scenario of a draft. */
export const thingTitle = (thing: Json | undefined): string =>
  ['title', 'ask', 'situation', 'id'].map((key) => text(valueAt(thing, `/${key}`))).find((one) => one !== '') ??
  'Without a name';

export const draftTitle = (value: Json): string => text(valueAt(value, '/title')) || 'Deck without a title';

export const pageTitle = (value: Json, page: string): string => {
  const [section = '', index] = keysOf(`/${page}`);
  if (index !== undefined && ['procedures', 'limits', 'scenarios'].includes(section))
    return thingTitle(valueAt(value, `/${section}/${index}`));
  return SECTIONS[section] ?? draftTitle(value);
};
