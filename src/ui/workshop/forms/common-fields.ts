import { valueAt } from '../../../draft/change.ts';
import { isList } from '../../../lib/json.ts';
import type { Place, Spec } from '../fields/spec.ts';
import { SHOW_CHOICES, UNIT_CHOICES } from './words.ts';

/** Under "More". */
export const more = <S extends Spec>(spec: S): S & { readonly more: true } => ({ ...spec, more: true });

const filled = (list: string) => (place: Place) => {
  const there = valueAt(place.doc, list);
  return isList(there) && there.length > 0;
};

export const hasVariants = filled('/variants');
export const hasConditions = filled('/conditions');
export const hasDay = filled('/day');

export const SOURCE = {
  label: 'Source',
  help: 'Where it stands, with the place.',
  kind: { is: 'source' },
} as const satisfies Spec;

export const EDITION = more({
  label: 'Checked against edition',
  help: 'Only where that is not the edition of the source itself.',
  kind: { is: 'words' },
  when: ({ value }) => value.source !== undefined,
} as const satisfies Spec);

export const WHY = {
  label: 'Why',
  help: 'The reason. It is told with the verdict, and keeps the thing in mind.',
  kind: { is: 'words', long: true },
} as const satisfies Spec;

export const SLIP = {
  label: 'Usual slip',
  help: 'The wrong habit to expect, perhaps brought from another type.',
  kind: { is: 'words', long: true },
} as const satisfies Spec;

export const WHEN = {
  label: 'Only for these variants',
  help: 'Nothing ticked: for all.',
  kind: { is: 'when' },
  when: hasVariants,
} as const satisfies Spec;

export const CRITICAL = {
  label: 'Critical: must never be wrong',
  help: 'Practised to a higher target.',
  kind: { is: 'yes' },
} as const satisfies Spec;

export const CRITICAL_WITHIN = {
  label: 'Critical: must never be wrong',
  kind: { is: 'yes', inherits: 'As what it belongs to' },
} as const satisfies Spec;

/** Old stamps whose memory goes on: written when versions are compared, seldom by hand. */
export const KEEPS = more({
  label: 'The answer stayed as it was',
  help: 'What learners remember of an older wording goes on. Written when versions are compared: value.standard~1abc2d.',
  kind: { is: 'list', of: { is: 'words' }, add: 'What is remembered of an older wording goes on' },
} as const satisfies Spec);

export const UNIT = { label: 'Unit', kind: { is: 'choice', of: UNIT_CHOICES } } as const satisfies Spec;

export const SHOW = {
  label: 'Written as',
  help: 'Where the trade has a form of its own.',
  kind: { is: 'choice', of: SHOW_CHOICES },
} as const satisfies Spec;

export const ACCEPT = {
  label: 'Still right when off by',
  help: 'Nothing: exactly this number.',
  kind: { is: 'band' },
} as const satisfies Spec;

export const FORMULA_IF = (help: string): Spec & { readonly required?: never } => ({
  label: 'Only if',
  help,
  kind: { is: 'formula' },
});
