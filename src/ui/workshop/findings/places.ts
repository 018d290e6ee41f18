import type { Finding } from '../../../deck/findings.ts';
import { parted } from '../../../draft/change.ts';
import { below } from '../fields/editing.ts';

/** Lists whose members are told on one page. */
const TOGETHER: ReadonlySet<string> = new Set(['sources', 'variants', 'crew', 'day', 'conditions', 'areas', 'paced']);
/** Lists whose members have a page each. */
const APART: ReadonlySet<string> = new Set(['procedures', 'limits', 'scenarios']);

/**
 * The page of a draft that shows a place, as it stands in the address: `/procedures/0/steps/3/cue/text` →
 * `procedures/0`. '' is the draft's first page.
 */
export const pageOf = (pointer: string): string => {
  const [, section = '', index] = pointer.split('/');
  if (section === '') return '';
  if (TOGETHER.has(section)) return section;
  if (APART.has(section)) return index === undefined ? '' : `${section}/${index}`;
  return section === 'signatures' ? 'hand-over' : 'head';
};

/** What is asked of a thing as a whole, by the member that answers it. */
const ANSWERED_BY: Partial<Record<Finding['code'], string>> = {
  'source-missing': 'source',
  'step-silent': 'do',
  'table-unused': 'asked',
};

/**
 * The field that a finding is about: where something is missing, the field it would be in.
 * @returns a JSON Pointer; '' is the whole draft
 */
export const fieldOf = ({ code, path, args }: Pick<Finding, 'code' | 'path' | 'args'>): string => {
  if (code === 'missing-key') return below(path, String(args.key));
  if (code === 'limit-empty') return below(path, args.wanted === 'from and to' ? 'from' : String(args.wanted));
  const member = ANSWERED_BY[code];
  return member === undefined ? path : below(path, member);
};

/** A pointer and all that it lies in, from within: `/a/0`, `/a`, ``. */
export const outwards = (pointer: string): string[] =>
  pointer === '' ? [''] : [pointer, ...outwards(parted(pointer).parent)];
