import { keysOf } from '../../draft/change.ts';
import { go } from '../route.ts';
import { focusField } from './findings/focus.ts';

/** The page of a draft on which a JSON Pointer's field stands. */
const pageOfPath = (path: string): string => {
  const [section = '', index] = keysOf(path);
  if (['procedures', 'limits', 'scenarios'].includes(section)) return index === undefined ? '' : `${section}/${index}`;
  return ['sources', 'variants', 'crew', 'day', 'conditions', 'areas', 'paced'].includes(section) ? section : 'head';
};

/** Opens that page with the cursor in the field. @param turns see `focusField` */
export const openField = (draft: string, path: string, turns?: number): void => {
  go({ at: 'workshop', draft, page: pageOfPath(path) });
  focusField(path, turns);
};
