import { mint } from '../../../draft/mint.ts';
import { mintName, namesIn } from '../../../draft/mint-name.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import type {
  ChoiceCondition,
  CrewMember,
  DayValue,
  Deck,
  NumberCondition,
  Source,
  VariantAxis,
  YesNoCondition,
} from '../../../model/deck.ts';
import { objectsAt } from '../fields/choices.ts';
import { PolarityAid } from '../fields/PolarityAid.tsx';
import { type FieldsOf, only, type Shape, type Things } from '../fields/spec.ts';
import { more, SHOW, UNIT } from './common-fields.ts';
import { BASIS_CHOICES, NATURE_CHOICES } from './words.ts';

const ELSEWHERE = { is: 'elsewhere' } as const;

/** A name that none beside it has. */
const free = (doc: Json, list: string, plain: string): string =>
  mint('', new Set(objectsAt(doc, list).map(({ id }) => String(id ?? ''))), plain);

const SOURCE: FieldsOf<Source> = {
  title: {
    label: 'Title',
    help: 'Such as “Merrow 240 crew manual (invented)”.',
    required: true,
    kind: { is: 'words' },
  },
  edition: { label: 'Edition', help: 'Such as “Revision 7”.', kind: { is: 'words' } },
  issued: { label: 'Issued on', kind: { is: 'date' } },
  basis: { label: 'What it is', required: true, kind: { is: 'choice', of: BASIS_CHOICES } },
  url: { label: 'Address', help: 'https://…, where it can be read.', kind: { is: 'words' } },
  id: { label: 'Name in the file', required: true, kind: { is: 'id', words: ['title'], plain: 'source', form: 'id' } },
};

export const SOURCES: Things = {
  is: 'things',
  each: only(SOURCE),
  one: 'Source',
  add: 'Add a source',
  blank: (doc, list) => ({ id: free(doc, list, 'source'), title: '', basis: 'operator' }),
};

const AXIS: FieldsOf<VariantAxis> = {
  label: { label: 'What differs', help: 'Such as “Engine”.', required: true, kind: { is: 'words' } },
  options: {
    label: 'What there is of it',
    help: 'Two at least.',
    required: true,
    kind: {
      is: 'record',
      key: 'Name in the file of variant',
      plain: 'option',
      each: { single: 'words', label: 'Variant' },
      one: 'Variant',
      add: 'Add a variant',
    },
  },
  id: { label: 'Name in the file', required: true, kind: { is: 'id', words: ['label'], plain: 'axis', form: 'id' } },
};

export const VARIANTS: Things = {
  is: 'things',
  each: only(AXIS),
  one: 'Difference',
  add: 'Add what differs',
  blank: (doc, list) => ({ id: free(doc, list, 'axis'), label: '', options: {} }),
};

const MEMBER: FieldsOf<CrewMember> = {
  label: { label: 'Who', help: 'Such as “Cabin crew”.', required: true, kind: { is: 'words' } },
  id: { label: 'Name in the file', required: true, kind: { is: 'id', words: ['label'], plain: 'crew', form: 'crew' } },
};

export const CREW: Things = {
  is: 'things',
  each: only(MEMBER),
  one: 'Member',
  add: 'Add a member of the crew',
  blank: (doc, list) => ({ id: free(doc, list, 'crew'), label: '' }),
};

const STEP = { label: 'In steps of', help: 'Nothing: 1.', kind: { is: 'number' } } as const;

const DAY_VALUE: FieldsOf<DayValue> = {
  label: { label: 'What it is', help: 'Such as “V1”.', required: true, kind: { is: 'words' } },
  unit: { ...UNIT, required: true },
  from: { label: 'From', required: true, kind: { is: 'number' } },
  to: { label: 'To', required: true, kind: { is: 'number' } },
  step: STEP,
  show: more(SHOW),
  require: {
    label: 'Drawn so that',
    help: 'v1 <= vr',
    kind: { is: 'list', of: { is: 'formula' }, add: 'Add what must hold' },
  },
  id: {
    label: 'Name in formulas and texts',
    required: true,
    kind: { is: 'id', words: ['label'], plain: 'value', form: 'name' },
  },
};

export const DAY: Things = {
  is: 'things',
  each: only(DAY_VALUE),
  one: 'Value',
  add: 'Add a value of the day',
  blank: (doc) => ({ id: mintName('', namesIn(doc), 'value'), label: '', unit: 'kt', from: '', to: '' }),
};

const CONDITION_LABEL = {
  label: 'What it is about',
  help: 'Such as “Packs for take-off”.',
  required: true,
  kind: { is: 'words' },
} as const;
const CONDITION_ID = {
  label: 'Name in formulas and texts',
  required: true,
  kind: { is: 'id', words: ['label'], plain: 'condition', form: 'name' },
} as const;

const YES_NO: FieldsOf<YesNoCondition> = {
  // The name in formulas is made of it: it reads true where the condition is so.
  label: { ...CONDITION_LABEL, help: 'What is true when it is so: “Packs off for take-off”.' },
  yes: { label: 'Shown when it is so', help: 'Such as “Packs off”.', required: true, kind: { is: 'words' } },
  no: {
    label: 'Shown when it is not',
    help: 'Such as “Packs on”.',
    required: true,
    kind: { is: 'words' },
    aid: PolarityAid,
  },
  id: CONDITION_ID,
};

const CHOICE: FieldsOf<ChoiceCondition> = {
  label: CONDITION_LABEL,
  options: {
    label: 'What it can be',
    required: true,
    kind: {
      is: 'record',
      key: 'Name in formulas of choice',
      plain: 'option',
      free: true,
      each: { single: 'words', label: 'Shown' },
      one: 'Choice',
      add: 'Add a choice',
    },
  },
  id: CONDITION_ID,
};

const NUMBER: FieldsOf<NumberCondition> = {
  label: CONDITION_LABEL,
  unit: { ...UNIT, required: true },
  from: { label: 'From', required: true, kind: { is: 'number' } },
  to: { label: 'To', required: true, kind: { is: 'number' } },
  step: STEP,
  id: CONDITION_ID,
};

const CONDITION: Shape = [
  {
    label: 'Yes or no',
    fields: YES_NO,
    is: (value) => !('options' in value || 'unit' in value || 'from' in value || 'to' in value),
    blank: { yes: '', no: '' },
  },
  { label: 'A choice', fields: CHOICE, is: (value) => 'options' in value, blank: { options: {} } },
  { label: 'A number', fields: NUMBER, is: () => true, blank: { unit: 'kt', from: '', to: '' } },
];

export const CONDITIONS: Things = {
  is: 'things',
  each: CONDITION,
  one: 'Condition',
  add: 'Add a condition',
  blank: (doc) => ({ id: mintName('', namesIn(doc), 'condition'), label: '', yes: '', no: '' }),
};

/** The head of a deck; what has a page of its own is elsewhere. */
export const DECK: FieldsOf<Deck> = {
  title: {
    label: 'Title',
    help: 'Such as “Merrow 240: take-off and initial climb”.',
    required: true,
    kind: { is: 'words' },
  },
  id: {
    label: 'Name of the deck',
    help: 'Publisher and deck in small letters, calder/take-off. What learners remember hangs on it: never change it once the deck was handed over.',
    required: true,
    kind: { is: 'words' },
  },
  about: { label: 'About', help: 'What it is for, in two sentences.', kind: { is: 'words', long: true } },
  nature: {
    label: 'Nature',
    help: 'An invented deck carries a visible mark everywhere.',
    required: true,
    kind: { is: 'choice', of: NATURE_CHOICES },
  },
  madeBy: { label: 'Made by', kind: { is: 'words' } },
  checkedBy: { label: 'Checked by', help: 'A second person, where there was one.', kind: { is: 'words' } },
  effective: { label: 'Effective from', kind: { is: 'date' } },
  reviewBy: { label: 'To be reviewed by', help: 'After that day every question says so.', kind: { is: 'date' } },
  version: {
    label: 'Version',
    help: 'Three numbers: an answer changed, something added, wording. Comparing with an older one proposes it.',
    required: true,
    kind: { is: 'words' },
  },
  amendment: {
    label: 'What changed',
    help: 'For learners: what is other than before, and why.',
    kind: { is: 'words', long: true },
  },
  until: {
    label: 'Last day of a bulletin',
    help: 'After that day what was asked before is asked again.',
    kind: { is: 'date' },
  },
  language: { label: 'Language', help: 'en, en-GB, de …', required: true, kind: { is: 'words' } },
  format: { label: 'Format', required: true, kind: ELSEWHERE },
  sources: { label: 'Sources', required: true, kind: ELSEWHERE },
  variants: { label: 'Variants', kind: ELSEWHERE },
  crew: { label: 'Crew', kind: ELSEWHERE },
  day: { label: 'Values of the day', kind: ELSEWHERE },
  conditions: { label: 'Conditions', kind: ELSEWHERE },
  procedures: { label: 'Procedures', kind: ELSEWHERE },
  limits: { label: 'Limits', kind: ELSEWHERE },
  scenarios: { label: 'Scenarios', kind: ELSEWHERE },
  paced: { label: 'Paced runs', kind: ELSEWHERE },
  areas: { label: 'Plan of the flight deck', kind: ELSEWHERE },
  signatures: { label: 'Signatures', kind: ELSEWHERE },
};
