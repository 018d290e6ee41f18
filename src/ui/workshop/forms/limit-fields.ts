import { type Change, put, valueAt } from '../../../draft/change.ts';
import type { Json } from '../../../lib/canonical-json.ts';
import { isList, type Members } from '../../../lib/json.ts';
import type { FactCase, FactLimit, LimitCase, LimitSlip, NumberLimit, TableLimit } from '../../../model/deck.ts';
import { TABLE_SENSES } from '../../../model/deck.ts';
import { objectsAt } from '../fields/choices.ts';
import { type Fields, type FieldsOf, only, type Place, type Shape, type Things } from '../fields/spec.ts';
import { caseWords } from './case-words.ts';
import {
  ACCEPT,
  CRITICAL,
  CRITICAL_WITHIN,
  EDITION,
  hasConditions,
  hasVariants,
  KEEPS,
  more,
  SHOW,
  SLIP,
  SOURCE,
  UNIT,
  WHEN,
  WHY,
} from './common-fields.ts';
import { METHOD_CHOICES, SENSE_CHOICES } from './words.ts';

const cased = ({ value }: Place): boolean => isList(value.cases) && value.cases.length > 0;
const ranged = ({ value }: Place): boolean => value.sense === 'from-to';
/** Of a case: the limit around it says in which sense. */
const rangedAround = ({ doc, path }: Place): boolean =>
  valueAt(doc, `/${path.split('/').slice(1, 3).join('/')}/sense`) === 'from-to';

const GIVEN = {
  label: 'Under these conditions',
  kind: { is: 'given' },
  when: hasConditions,
} as const;

const CASE_BASE = {
  when: { ...WHEN, when: hasVariants },
  given: GIVEN,
  critical: more({ ...CRITICAL_WITHIN, kind: { is: 'yes', inherits: 'As the limit' } as const }),
  note: more({ label: 'Note', help: 'Told with the verdict.', kind: { is: 'words', long: true } } as const),
  source: more({ ...SOURCE, help: 'Where it is not the source of the limit.' }),
  edition: EDITION,
} as const;

const CASE_ID = {
  label: 'Name in the file',
  required: true,
  kind: { is: 'id', words: [], plain: 'case', form: 'id' },
} as const;

const NUMBER_CASE: FieldsOf<LimitCase> = {
  value: { label: 'Value', kind: { is: 'number' }, when: (place) => !rangedAround(place) },
  from: { label: 'From', kind: { is: 'number' }, when: rangedAround },
  to: { label: 'To', kind: { is: 'number' }, when: rangedAround },
  ...CASE_BASE,
  id: CASE_ID,
};

const FACT_CASE: FieldsOf<FactCase> = {
  is: { label: 'Right answer', required: true, kind: { is: 'refer', to: 'option' } },
  ...CASE_BASE,
  id: CASE_ID,
};

/** A name for a case that no other case of the limit has. */
const caseId = (doc: Json, list: string): string => {
  const taken = new Set(objectsAt(doc, list).map(({ id }) => id));
  for (let n = 1; ; n++) if (!taken.has(`case-${n}`)) return `case-${n}`;
};

/** What is said of the limit alone becomes its first case, named as it was until then. */
const firstCase =
  (...moved: readonly string[]) =>
  ({ doc, path, value }: Place): Change[] | null => {
    const values = moved.filter((key) => value[key] !== undefined);
    if (values.length === 0) return null;
    const one = { id: 'standard', ...Object.fromEntries(values.map((key) => [key, value[key]])) } as Json;
    return [...values.map((key) => put(doc, `${path}/${key}`, undefined)), put(doc, `${path}/cases`, [one])];
  };

const cases = (each: Shape, ...moved: readonly string[]): Things => ({
  is: 'things',
  each,
  one: 'Case',
  title: caseWords,
  add: 'Add a case',
  blank: (doc, list) => ({ ...(each[0].blank as object), id: caseId(doc, list) }),
  first: firstCase(...moved),
});

const CASES = {
  label: 'Cases',
  help: 'Where the value differs by variant or condition. A case with neither holds where no other does.',
} as const;

const BASE = {
  why: WHY,
  source: SOURCE,
  critical: CRITICAL,
  slip: more(SLIP),
  when: more(WHEN),
  edition: EDITION,
  keeps: KEEPS,
  id: {
    label: 'Name in the file',
    required: true,
    kind: { is: 'id', words: ['ask'], plain: 'limit', form: 'id' },
  },
} as const;

const ASK = {
  label: 'Question',
  help: 'Such as “Lowest height to engage the autopilot after take-off”.',
  required: true,
  kind: { is: 'words', long: true },
} as const;

const REFERENCE = { label: 'Reference', help: 'Datum or qualifier: AAL, IAS, MSL.', kind: { is: 'words' } } as const;

const NUMBER_SLIP: FieldsOf<LimitSlip> = {
  value: { label: 'Wrong value', required: true, kind: { is: 'number' } },
  note: {
    label: 'What to say to it',
    help: '“That is the acceleration height.”',
    required: true,
    kind: { is: 'words', long: true },
  },
};

const FACT_SLIP: FieldsOf<NonNullable<FactLimit['slips']>[number]> = {
  is: { label: 'Wrong answer', required: true, kind: { is: 'refer', to: 'option' } },
  note: NUMBER_SLIP.note,
};

const slips = (fields: Fields, blank: Members): Things => ({
  is: 'things',
  each: [{ label: '', fields, is: () => true, blank }],
  one: 'Slip',
  add: 'Add a usual wrong answer',
  blank: () => blank as Json,
});

const NUMBER: FieldsOf<NumberLimit> = {
  ask: ASK,
  sense: { label: 'Sense', required: true, kind: { is: 'choice', of: SENSE_CHOICES } },
  value: { label: 'Value', kind: { is: 'number' }, when: (place) => !cased(place) && !ranged(place) },
  from: { label: 'From', kind: { is: 'number' }, when: (place) => !cased(place) && ranged(place) },
  to: { label: 'To', kind: { is: 'number' }, when: (place) => !cased(place) && ranged(place) },
  unit: { ...UNIT, required: true },
  strict: {
    label: '“Below” and “above” instead of “at most” and “at least”',
    kind: { is: 'yes' },
    when: ({ value }) => value.sense === 'at most' || value.sense === 'at least',
  },
  reference: REFERENCE,
  cases: { ...CASES, kind: cases(only(NUMBER_CASE), 'value', 'from', 'to') },
  ...BASE,
  accept: more(ACCEPT),
  show: more(SHOW),
  picture: more({
    label: 'Picture',
    help: 'Shown with the verdict, for degrees of pitch.',
    kind: { is: 'choice', of: [['pitch', 'Nose against the horizon']] },
    when: ({ value }) => value.unit === '°',
  }),
  slips: more({ label: 'Usual wrong answers', kind: slips(NUMBER_SLIP, { value: '', note: '' }) }),
};

const FACT: FieldsOf<FactLimit> = {
  ask: { ...ASK, help: 'Such as “Flap setting for a go-around on one engine”.' },
  options: {
    label: 'Answers to choose from',
    required: true,
    kind: {
      is: 'record',
      key: 'Name in the file of answer',
      plain: 'option',
      each: { single: 'words', label: 'Answer' },
      one: 'Answer',
      add: 'Add an answer',
    },
  },
  is: { label: 'Right answer', kind: { is: 'refer', to: 'option' }, when: (place) => !cased(place) },
  cases: {
    ...CASES,
    kind: cases([{ label: '', fields: FACT_CASE, is: () => true, blank: { is: '' } }], 'is'),
  },
  ...BASE,
  slips: more({ label: 'Usual wrong answers', kind: slips(FACT_SLIP, { is: '', note: '' }) }),
};

const INPUT: FieldsOf<TableLimit['table']['input']> = {
  label: { label: 'Read with', help: 'Such as “Runway width”.', required: true, kind: { is: 'words' } },
  unit: { ...UNIT, required: true },
};

const TABLE_PART: FieldsOf<TableLimit['table']> = {
  input: {
    label: 'What it is read with',
    required: true,
    kind: { is: 'part', fields: INPUT, add: 'Add what it is read with', blank: { label: '', unit: 'ft' } },
  },
  method: { label: 'Which value', required: true, kind: { is: 'choice', of: METHOD_CHOICES } },
  rows: {
    label: 'Rows',
    help: 'What it is read with, rising, and the value.',
    required: true,
    kind: { is: 'rows' },
  },
};

export const TABLE: FieldsOf<TableLimit> = {
  ask: { ...ASK, help: 'Such as “Crosswind limit for the runway width”.' },
  unit: { ...UNIT, label: 'Unit of the value', required: true },
  sense: {
    label: 'Sense of every value',
    help: 'A verdict then says on which side of the limit an answer lies. Nothing: exactly.',
    kind: { is: 'choice', of: SENSE_CHOICES.filter(([sense]) => (TABLE_SENSES as readonly string[]).includes(sense)) },
  },
  reference: REFERENCE,
  table: {
    label: 'Table',
    required: true,
    kind: {
      is: 'part',
      fields: TABLE_PART,
      add: 'Add the table',
      blank: { input: { label: '', unit: 'ft' }, method: 'step', rows: [] },
    },
  },
  asked: { label: 'Asked row by row', help: 'Otherwise it serves formulas alone.', kind: { is: 'yes' } },
  ...BASE,
  accept: more(ACCEPT),
};

export const LIMIT: Shape = [
  {
    label: 'A number',
    fields: NUMBER,
    is: (value) => value.options === undefined && value.table === undefined,
    blank: { unit: 'kt', sense: 'at least' },
  },
  { label: 'One of some answers', fields: FACT, is: (value) => value.options !== undefined, blank: { options: {} } },
  {
    label: 'A table',
    fields: TABLE,
    is: () => true,
    blank: { unit: 'kt', table: { input: { label: '', unit: 'ft' }, method: 'step', rows: [] }, asked: true },
  },
];
