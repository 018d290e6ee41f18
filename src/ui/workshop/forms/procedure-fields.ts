import type { Amount, Block, Bound, Cue, Procedure, Step, Use, Wait } from '../../../model/deck.ts';
import type { FieldsOf } from '../fields/spec.ts';
import {
  CRITICAL,
  CRITICAL_WITHIN,
  EDITION,
  FORMULA_IF,
  hasDay,
  KEEPS,
  more,
  SLIP,
  SOURCE,
  UNIT,
  WHEN,
  WHY,
} from './common-fields.ts';
import { DONE_CHOICES } from './words.ts';

const CUE: FieldsOf<Cue> = {
  text: {
    label: 'Cue in words',
    help: 'What is seen or heard: “Engines stable”.',
    kind: { is: 'words', filled: true },
  },
  limit: {
    label: 'A limit is reached',
    help: 'Its number is then written once for the whole deck.',
    kind: { is: 'refer', to: 'limit' },
  },
  day: { label: 'A value of the day is reached', kind: { is: 'refer', to: 'day' }, when: hasDay },
  event: { label: 'A condition comes true', kind: { is: 'refer', to: 'yes-no' } },
};

const BOUND: FieldsOf<Bound> = {
  text: { label: 'In words', help: 'Such as “Speed alive”.', kind: { is: 'words' } },
  limit: { label: 'At a limit', kind: { is: 'refer', to: 'limit' } },
  day: { label: 'At a value of the day', kind: { is: 'refer', to: 'day' }, when: hasDay },
};

const AMOUNT: FieldsOf<Amount> = {
  limit: { label: 'As long as this limit says', kind: { is: 'refer', to: 'number-limit' } },
  value: { label: 'Or this long', kind: { is: 'number' } },
  unit: { ...UNIT },
};

const WAIT: FieldsOf<Wait> = {
  step: { label: 'After this step', required: true, kind: { is: 'refer', to: 'step' } },
  atLeast: {
    label: 'At least',
    kind: { is: 'part', fields: AMOUNT, add: 'At least so long', blank: {} },
  },
  atMost: { label: 'At most', kind: { is: 'part', fields: AMOUNT, add: 'At most so long', blank: {} } },
};

export const STEP: FieldsOf<Step> = {
  do: { label: 'What is done', help: 'Such as “Landing lights ON”.', kind: { is: 'words', long: true, filled: true } },
  say: {
    label: 'What is said',
    help: 'The callout, word by word: “Positive climb”.',
    kind: { is: 'words', filled: true },
  },
  by: { label: 'By whom', kind: { is: 'refer', to: 'crew' } },
  cue: { label: 'Cue', kind: { is: 'part', fields: CUE, add: 'Add a cue', blank: {} } },
  why: WHY,
  critical: { ...CRITICAL_WITHIN, kind: { is: 'yes', inherits: 'As the procedure' } },
  source: { ...SOURCE, help: 'Where it stands, where that is not where the procedure stands.' },
  slip: more(SLIP),
  where: {
    label: 'Where',
    help: 'Panel area: “Overhead, lights”. Where the deck has a plan, an area of it.',
    kind: { is: 'refer', to: 'area', free: true },
    more: true,
  },
  limit: {
    label: 'The number in it',
    help: 'The limit that this step sets or observes.',
    kind: { is: 'refer', to: 'limit' },
    more: true,
  },
  rule: {
    label: 'The rule that gives how much',
    help: 'A question of a scenario.',
    kind: { is: 'refer', to: 'scenario-ask' },
    more: true,
  },
  answers: { label: 'Answers the step', kind: { is: 'refer', to: 'step' }, more: true },
  ifNoAnswer: {
    label: 'If no answer comes',
    help: 'Such as “Incapacitation is assumed after the second call”.',
    kind: { is: 'words', long: true },
    more: true,
  },
  from: {
    label: 'Held or eased from',
    kind: { is: 'part', fields: BOUND, add: 'It begins at …', blank: {} },
    more: true,
  },
  until: { label: 'Held until', kind: { is: 'part', fields: BOUND, add: 'It is held until …', blank: {} }, more: true },
  after: {
    label: 'Wait after another step',
    kind: { is: 'part', fields: WAIT, add: 'A wait after another step', blank: { step: '' } },
    more: true,
  },
  needs: {
    label: 'First must be done',
    help: 'Steps without which this one would be wrong. They come earlier.',
    kind: { is: 'list', of: { is: 'refer', to: 'step-or-block' }, add: 'Add what must be done first' },
    more: true,
  },
  alsoDo: {
    label: 'Done, in other words',
    kind: { is: 'list', of: { is: 'words' }, add: 'Other words for what is done' },
    more: true,
  },
  alsoSay: {
    label: 'Also accepted as said',
    kind: { is: 'list', of: { is: 'words' }, add: 'Another accepted callout' },
    more: true,
  },
  when: more(WHEN),
  if: more(FORMULA_IF('In which situation: engineOut && flapLever == "one".')),
  edition: EDITION,
  keeps: KEEPS,
  id: {
    label: 'Name in the file',
    required: true,
    kind: { is: 'id', words: ['do', 'say'], plain: 'step', form: 'id' },
  },
};

export const BLOCK: FieldsOf<Block> = {
  if: FORMULA_IF('In which situation: engineOut. Another block with !engineOut is the other branch.'),
  when: WHEN,
  together: {
    label: 'Done at once',
    help: 'Any order is right, and the verdict says so.',
    kind: { is: 'yes' },
  },
  id: {
    label: 'Name of the block',
    help: 'Only where another procedure takes this block, or a step needs it.',
    kind: { is: 'id', words: [], plain: 'block', form: 'id' },
  },
  steps: { label: 'Steps', kind: { is: 'elsewhere' } },
  lanes: { label: 'Lanes', kind: { is: 'elsewhere' } },
};

export const USE: FieldsOf<Use> = {
  use: {
    label: 'Takes the block',
    help: 'Of another procedure, together with what is remembered of it.',
    required: true,
    kind: { is: 'refer', to: 'block' },
  },
  if: FORMULA_IF('In which situation: engineOut.'),
  when: WHEN,
};

export const PROCEDURE: FieldsOf<Procedure> = {
  title: { label: 'Title', help: 'Such as “Line-up”.', required: true, kind: { is: 'words' } },
  done: { label: 'How it is done', required: true, kind: { is: 'choice', of: DONE_CHOICES } },
  starts: {
    label: 'Starts when',
    help: 'Such as “Lined up, take-off clearance received”.',
    kind: { is: 'words', long: true },
  },
  calledBy: { label: 'Called for by', kind: { is: 'refer', to: 'crew' }, more: true },
  called: { label: 'Called for with', help: 'Such as “After take-off checklist”.', kind: { is: 'words' }, more: true },
  source: SOURCE,
  why: more(WHY),
  critical: more(CRITICAL),
  when: more(WHEN),
  edition: EDITION,
  strangers: { label: 'Steps that do not belong', kind: { is: 'elsewhere' } },
  steps: { label: 'Steps', required: true, kind: { is: 'elsewhere' } },
  id: {
    label: 'Name in the file',
    required: true,
    kind: { is: 'id', words: ['title'], plain: 'procedure', form: 'id' },
  },
};
