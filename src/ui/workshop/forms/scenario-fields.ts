import type { Json } from '../../../lib/canonical-json.ts';
import { isList } from '../../../lib/json.ts';
import type { ChooseAsk, Draw, NumberAsk, Rule, Scenario } from '../../../model/deck.ts';
import { PictureAid } from '../bench/Beginnings.tsx';
import { objectsAt } from '../fields/choices.ts';
import { RunwayAid } from '../fields/RunwayAid.tsx';
import { type FieldsOf, only, type Shape } from '../fields/spec.ts';
import {
  ACCEPT,
  CRITICAL,
  CRITICAL_WITHIN,
  EDITION,
  FORMULA_IF,
  KEEPS,
  more,
  SHOW,
  SLIP,
  SOURCE,
  UNIT,
  WHEN,
  WHY,
} from './common-fields.ts';

type RangeDraw = Extract<Draw, { from: number }>;
type ListDraw = Extract<Draw, { oneOf: readonly number[] }>;
type EventDraw = Exclude<Draw, RangeDraw | ListDraw>;

const LABEL = { label: 'Words before it, for learners', help: 'Such as “Tower wind”.', kind: { is: 'words' } } as const;

const SHOWN = {
  ...SHOW,
  help: 'Runways and directions are drawn in degrees: 70 is shown as 07.',
} as const;

const RANGE: FieldsOf<RangeDraw> = {
  from: { label: 'From', required: true, kind: { is: 'number' } },
  to: { label: 'To', required: true, kind: { is: 'number' } },
  step: { label: 'In steps of', help: 'Nothing: 1.', kind: { is: 'number' } },
  unit: UNIT,
  label: LABEL,
  show: { ...SHOWN, aid: RunwayAid },
};

const LIST: FieldsOf<ListDraw> = {
  oneOf: {
    label: 'Numbers',
    required: true,
    kind: { is: 'list', of: { is: 'number' }, add: 'Add a number' },
    aid: RunwayAid,
  },
  unit: UNIT,
  label: LABEL,
  show: SHOWN,
};

const EVENT: FieldsOf<EventDraw> = {
  oneOf: {
    label: 'Events',
    help: 'Words that are shown, “Engine fire warning”; none where nothing happens.',
    required: true,
    kind: {
      is: 'record',
      key: 'Name in formulas of event',
      plain: 'event',
      free: true,
      each: { single: 'words', label: 'Shown' },
      one: 'Event',
      add: 'Add an event',
    },
  },
  label: LABEL,
};

const DRAW: Shape = [
  {
    label: 'A number of a range',
    fields: RANGE,
    is: ({ oneOf }) => oneOf === undefined,
    blank: { from: '', to: '' },
  },
  { label: 'One of some numbers', fields: LIST, is: ({ oneOf }) => isList(oneOf), blank: { oneOf: [''] } },
  { label: 'An event', fields: EVENT, is: () => true, blank: { oneOf: {} } },
];

const RULE: FieldsOf<Rule> = {
  if: {
    label: 'If',
    help: 'tail > 10 || cross > limit("crosswind-dry"). Nothing: it holds where no rule before it does.',
    kind: { is: 'formula' },
  },
  // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
  then: {
    label: 'Then right is',
    required: true,
    kind: { is: 'list', of: { is: 'refer', to: 'option' }, add: 'Add another right answer' },
  },
  why: WHY,
  critical: { ...CRITICAL_WITHIN, kind: { is: 'yes', inherits: 'As the question' } },
  slip: more(SLIP),
  source: more(SOURCE),
  edition: EDITION,
  id: { label: 'Name in the file', required: true, kind: { is: 'id', words: [], plain: 'rule', form: 'id' } },
};

const ASK = {
  label: 'Question',
  help: 'Such as “Crosswind component”.',
  required: true,
  kind: { is: 'words', long: true },
} as const;

const ASK_REST = {
  why: WHY,
  critical: { ...CRITICAL_WITHIN, kind: { is: 'yes', inherits: 'As the scenario' } },
  if: more(FORMULA_IF('Asked only where this holds: windSpeed > 0.')),
  source: more(SOURCE),
  edition: EDITION,
  keeps: KEEPS,
  id: {
    label: 'Name in the file',
    required: true,
    kind: { is: 'id', words: ['ask'], plain: 'question', form: 'id' },
  },
} as const;

const NUMBER_ASK: FieldsOf<NumberAsk> = {
  ask: ASK,
  number: {
    label: 'Right number',
    help: 'abs(crosswind(windDir, windSpeed, runway))',
    required: true,
    kind: { is: 'formula' },
  },
  unit: { ...UNIT, required: true },
  accept: ACCEPT,
  ...ASK_REST,
  show: more(SHOW),
  slips: more({
    label: 'Usual wrong numbers',
    kind: {
      is: 'things',
      each: only({
        number: { label: 'Wrong number', required: true, kind: { is: 'formula' } },
        note: { label: 'What to say to it', required: true, kind: { is: 'words', long: true } },
      } satisfies FieldsOf<NonNullable<NumberAsk['slips']>[number]>),
      one: 'Slip',
      add: 'Add a usual wrong number',
      blank: () => ({ number: '', note: '' }),
    },
  }),
};

/** A name that none beside it has: "rule-3". */
const numbered = (doc: Json, list: string, plain: string): string => {
  const taken = new Set(objectsAt(doc, list).map(({ id }) => id));
  for (let n = 1; ; n++) if (!taken.has(`${plain}-${n}`)) return `${plain}-${n}`;
};

const CHOOSE: FieldsOf<ChooseAsk['choose']> = {
  options: {
    label: 'Answers to choose from',
    help: 'Those that no rule gives are wrong always.',
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
  rules: {
    label: 'Rules',
    help: 'In order: the first that holds counts.',
    required: true,
    kind: {
      is: 'things',
      each: only(RULE),
      one: 'Rule',
      add: 'Add a rule',
      // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
      blank: (doc, list) => ({ id: numbered(doc, list, 'rule'), then: [''] }),
    },
  },
};

const CHOOSE_ASK: FieldsOf<ChooseAsk> = {
  ask: ASK,
  choose: {
    label: 'What is right',
    required: true,
    kind: { is: 'part', fields: CHOOSE, add: 'Add answers and rules', blank: { options: {}, rules: [] } },
  },
  ...ASK_REST,
};

const ASKS: Shape = [
  {
    label: 'A number',
    fields: NUMBER_ASK,
    is: ({ choose }) => choose === undefined,
    blank: { number: '', unit: 'kt' },
  },
  {
    label: 'A choice',
    fields: CHOOSE_ASK,
    is: () => true,
    blank: { choose: { options: {}, rules: [] } },
  },
];

export const SCENARIO: FieldsOf<Scenario> = {
  title: { label: 'Title', help: 'Such as “Crosswind on a short runway”.', kind: { is: 'words' } },
  situation: {
    label: 'Situation',
    help: '“Runway {runway}, tower wind {windDir} at {windSpeed} kt.” Names in braces are filled in.',
    required: true,
    kind: { is: 'words', long: true, filled: true },
  },
  draw: {
    label: 'Drawn values',
    help: 'New each time the scenario is asked.',
    required: true,
    kind: {
      is: 'record',
      key: 'Name in formulas',
      plain: 'value',
      name: true,
      each: DRAW,
      one: 'Value',
      add: 'Add a drawn value',
    },
  },
  let: {
    label: 'Worked out from them',
    kind: {
      is: 'record',
      key: 'Name in formulas',
      plain: 'value',
      name: true,
      each: { single: 'formula', label: 'Formula' },
      one: 'Value',
      add: 'Add a value that is worked out',
    },
  },
  require: {
    label: 'Drawn so that',
    help: 'Only draws for which this holds are asked. With tail <= 10 nobody is asked to fly with more tailwind; with cross >= 2 there is always some crosswind.',
    kind: { is: 'list', of: { is: 'formula' }, add: 'Add what must hold' },
  },
  asks: {
    label: 'Questions',
    required: true,
    kind: {
      is: 'things',
      each: ASKS,
      one: 'Question',
      add: 'Add a question',
      blank: (doc, list) => ({ id: numbered(doc, list, 'question'), ask: '', number: '', unit: 'kt' }),
    },
  },
  why: WHY,
  source: SOURCE,
  critical: CRITICAL,
  picture: {
    label: 'Picture',
    help: 'Shows the drawn values runway, windDir and windSpeed.',
    kind: { is: 'choice', of: [['runway-wind', 'Runway and wind']] },
    aid: PictureAid,
  },
  when: more(WHEN),
  nearV1: more({
    label: 'Speeds within 5 kt below V1 may be drawn with an event',
    kind: { is: 'yes' },
  }),
  edition: EDITION,
  id: {
    label: 'Name in the file',
    required: true,
    kind: { is: 'id', words: ['title', 'situation'], plain: 'scenario', form: 'id' },
  },
};
