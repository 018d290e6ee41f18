import { UNNAMED } from '../deck/unnamed.ts';
import type { Json } from '../lib/canonical-json.ts';
import { valueAt } from './change.ts';
import { mint } from './mint.ts';
import type { LimitLine } from './paste/limit-line.ts';

/** Every `id` of the draft, and the names of blocks: what a new thing must not be called. */
export const idsIn = (doc: Json | undefined): Set<string> => {
  const ids = new Set<string>();
  const visit = (value: Json | undefined): void => {
    if (typeof value !== 'object' || value === null) return;
    for (const [key, one] of Object.entries(value)) {
      if (key === 'id' && typeof one === 'string') ids.add(one);
      visit(one as Json);
    }
  };
  visit(doc);
  return ids;
};

/** Where something new most likely stands: where the last of its list does, or in the only source; without a place. */
const likelySource = (doc: Json, list: string): { readonly source?: string } => {
  const sources = valueAt(doc, '/sources');
  const before = valueAt(doc, `${list}/${lengthAt(doc, list) - 1}/source`);
  const sole = Array.isArray(sources) && sources.length === 1 ? valueAt(doc, '/sources/0/id') : undefined;
  const id = typeof before === 'string' ? before.split('#', 1)[0] : sole;
  return typeof id === 'string' && id !== '' ? { source: id } : {};
};

/** A deck that nothing was written in yet. */
export const blankDeck = (today: string): Json => ({
  format: 1,
  id: UNNAMED,
  version: '0.1.0',
  title: '',
  language: 'en',
  nature: 'operator',
  effective: today,
  sources: [],
  procedures: [],
  limits: [],
  scenarios: [],
});

export const blankProcedure = (doc: Json, title = ''): Json => ({
  id: mint(title, idsIn(doc), 'procedure'),
  title,
  done: 'memory',
  steps: [],
  ...likelySource(doc, '/procedures'),
});

/**
 * @param read what is known of it already
 * @param taken ids that it must not have: those of the draft
 */
export const blankLimit = (
  doc: Json,
  read: Partial<LimitLine> = {},
  taken: ReadonlySet<string> = idsIn(doc),
): Json => ({
  id: mint(read.ask ?? '', taken, 'limit'),
  ask: '',
  unit: 'kt',
  sense: 'at least',
  ...read,
  ...likelySource(doc, '/limits'),
});

export const blankScenario = (doc: Json, title = ''): Json => ({
  id: mint(title, idsIn(doc), 'scenario'),
  // An empty one would be wrong; none at all is right.
  ...(title !== '' && { title }),
  situation: '',
  draw: {},
  asks: [],
  ...likelySource(doc, '/scenarios'),
});

/** Length of a list of the draft; 0 where there is none. */
export const lengthAt = (doc: Json, path: string): number => {
  const list = valueAt(doc, path);
  return Array.isArray(list) ? list.length : 0;
};
