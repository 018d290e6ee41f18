import { signal } from '@preact/signals';
import { createContext } from 'preact';
import type { Finding } from '../../../deck/findings.ts';
import { parted, valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type { DraftModel } from '../model/draft.ts';
import { fieldOf, pageOf } from './places.ts';

const ALWAYS: ReadonlySet<Finding['code']> = new Set([
  'missing-key',
  'too-few',
  'limit-empty',
  'step-silent',
  'options-few',
  'cue-empty',
  'amount-empty',
  'source-missing',
]);
const WHERE_EMPTY: ReadonlySet<Finding['code']> = new Set([
  'wrong-type',
  'wrong-form',
  'not-a-choice',
  'unknown-reference',
  'formula-syntax',
]);

/** Does it say no more than that something is not filled in? */
const isEmptiness = ({ code, path }: Finding, doc: Json): boolean =>
  ALWAYS.has(code) || (WHERE_EMPTY.has(code) && valueAt(doc, path) === '');

/** Which findings are not shown yet: nobody is told that a box is empty before having come to it. */
export interface Quiet {
  /** A page of the draft comes up; '' is the first page. */
  visit(page: string): void;
  /** The cursor was in the field of a place and is there no more. */
  left(path: string): void;
  /** From now on a page says all. */
  wake(page: string): void;
  /** Reading it follows what changes. */
  is(finding: Finding): boolean;
}

/** Of the draft whose findings are shown below; null: all is said. */
export const QuietContext = createContext<Quiet | null>(null);

const isUntouched = (doc: Json): boolean =>
  valueAt(doc, '/title') === '' &&
  ['/procedures', '/limits', '/scenarios'].every((list) => JSON.stringify(valueAt(doc, list) ?? []) === '[]');

/** Of one sitting over a draft. What was there before is told at once, what comes to be once its field was left. */
export const createQuiet = (draft: Pick<DraftModel, 'value'>): Quiet => {
  const first = draft.value.peek();
  const begun = isUntouched(first) ? undefined : first;
  const seen = new Set<string>();
  /** The draft as it was before the things whose empty boxes are passed over. */
  const since = signal<Json | undefined>(begun);
  const left = signal<ReadonlySet<string>>(new Set());
  let here = '';
  return {
    visit: (page) => {
      if (page === here) return;
      here = page;
      since.value = seen.has(page) ? draft.value.peek() : begun;
      seen.add(page);
    },
    left: (path) => {
      if (!left.peek().has(path)) left.value = new Set([...left.peek(), path]);
    },
    wake: (page) => {
      seen.add(page);
      if (page === here) since.value = draft.value.peek();
    },
    is: (finding) => {
      const field = fieldOf(finding);
      if (field === '' || left.value.has(field) || !isEmptiness(finding, draft.value.peek())) return false;
      return pageOf(field) === here && valueAt(since.value, parted(field).parent) === undefined;
    },
  };
};
