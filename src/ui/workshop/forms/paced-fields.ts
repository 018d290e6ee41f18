import { idsIn } from '../../../draft/blank.ts';
import { mint } from '../../../draft/mint.ts';
import type {
  Area,
  Paced,
  PacedAeroplane,
  PacedCue,
  PacedFailure,
  PacedMassAt,
  PacedMoment,
  PacedTolerance,
} from '../../../model/deck.ts';
import { type Choices, type FieldsOf, only, type Things } from '../fields/spec.ts';
import { EDITION, hasConditions, SOURCE } from './common-fields.ts';

const number = { is: 'number' } as const;

/** What must be there. */
const blankOf = (fields: Readonly<Record<string, unknown>>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(fields).flatMap(([key, field]) => ((field as { required?: true }).required ? [[key, '']] : [])),
  );

const AREA: FieldsOf<Area> = {
  label: {
    label: 'Name of the area',
    help: 'As a step says where: “Overhead, lights”. With another name here the steps follow.',
    required: true,
    kind: { is: 'called' },
  },
  x: { label: 'From the left edge', help: 'In hundredths of the plan’s width.', required: true, kind: number },
  y: { label: 'From the upper edge', help: 'In the same hundredths.', required: true, kind: number },
  width: { label: 'How wide', required: true, kind: number },
  height: { label: 'How high', required: true, kind: number },
};

export const AREAS: Things = {
  is: 'things',
  each: only(AREA),
  one: 'Area',
  add: 'Add an area',
  blank: () => ({ label: '', x: '', y: '', width: '', height: '' }),
};

const MASS_AT: FieldsOf<PacedMassAt> = {
  speed: { label: 'The speed', required: true, kind: { is: 'refer', to: 'day' } },
  value: { label: 'Its value at that mass (kt)', required: true, kind: number },
};

const AEROPLANE: FieldsOf<PacedAeroplane> = {
  mass: { label: 'Mass (kg)', required: true, kind: number },
  massAt: {
    label: 'Mass and thrust go with a speed',
    help: 'With V2, say: drawn higher, the aeroplane is heavier by the square of it, and more thrust is planned.',
    kind: { is: 'part', fields: MASS_AT, add: 'Let them go with a speed', blank: blankOf(MASS_AT) },
  },
  thrust: { label: 'Thrust of all engines, standing (N)', required: true, kind: number },
  thrustFall: { label: 'Less thrust for each m/s of speed (N)', required: true, kind: number },
  engines: { label: 'Number of engines', required: true, kind: number },
  spoolUp: { label: 'Time until the thrust is there (s)', required: true, kind: number },
  wingArea: { label: 'Wing area (m²)', required: true, kind: number },
  dragRolling: { label: 'Drag coefficient, rolling', required: true, kind: number },
  liftRolling: { label: 'Lift coefficient, rolling', required: true, kind: number },
  friction: { label: 'Coefficient of rolling friction', required: true, kind: number },
  dragClimbing: { label: 'Drag coefficient after lift-off', required: true, kind: number },
  rotationRate: { label: 'Rate of rotation (°/s)', required: true, kind: number },
  pitchLiftOff: { label: 'Pitch at lift-off (°)', required: true, kind: number },
  pitchClimb: { label: 'Pitch held in the climb (°)', required: true, kind: number },
};

const MOMENT_CHOICES = Object.entries({
  start: 'At the start',
  'lift-off': 'At lift-off',
  climbing: 'Once it climbs',
  failure: 'When the engine fails',
} satisfies Record<PacedMoment, string>) as Choices;

const STEP = { label: 'Step', required: true, kind: { is: 'refer', to: 'played-step' } } as const;

const CUE: FieldsOf<PacedCue> = {
  step: STEP,
  speed: { label: 'At this speed (kt)', kind: number },
  height: { label: 'At this height above the runway (ft)', kind: number },
  after: { label: 'After this step', kind: { is: 'refer', to: 'played-step' } },
  seconds: { label: 'So long after it (s)', kind: number, when: ({ value }) => value.after !== undefined },
  moment: { label: 'At this moment', kind: { is: 'choice', of: MOMENT_CHOICES } },
};

const TOLERANCE: FieldsOf<PacedTolerance> = {
  early: { label: 'So much too early is in time (s)', required: true, kind: number },
  late: { label: 'So much too late is in time (s)', required: true, kind: number },
};

const FAILURE: FieldsOf<PacedFailure> = {
  condition: { label: 'Condition that is then true', required: true, kind: { is: 'refer', to: 'yes-no' } },
  speed: { label: 'The speed that is V1', required: true, kind: { is: 'refer', to: 'day' } },
  share: {
    label: 'In which share of the runs',
    help: 'From 0 to 1: 0.25 is one in four.',
    required: true,
    kind: number,
  },
  from: { label: 'From so many kt above it', help: 'Below it with a minus.', required: true, kind: number },
  to: { label: 'To so many kt above it', required: true, kind: number },
};

const PACED: FieldsOf<Paced> = {
  title: { label: 'Title', help: 'Such as “Take-off at 60 t”.', required: true, kind: { is: 'words' } },
  starts: {
    label: 'How it starts',
    help: 'Such as “Lined up and cleared for take-off. V1 {v1} kt”.',
    kind: { is: 'words', long: true, filled: true },
  },
  procedures: {
    label: 'Procedures, one after the other',
    help: 'From memory or as a flow.',
    required: true,
    kind: { is: 'list', of: { is: 'refer', to: 'played' }, add: 'Add a procedure to be played' },
  },
  aeroplane: {
    label: 'The aeroplane',
    help: 'A point mass: how fast it gathers speed and height.',
    required: true,
    kind: { is: 'part', fields: AEROPLANE, add: 'Add the aeroplane', blank: blankOf(AEROPLANE) },
  },
  cues: {
    label: 'When steps come',
    help: 'Of those whose cue is neither a speed nor a height. One of speed, height, another step, moment.',
    kind: {
      is: 'things',
      each: only(CUE),
      one: 'Cue',
      add: 'Add when a step comes',
      blank: () => ({ step: '' }),
    },
  },
  tolerance: {
    label: 'What is in time',
    required: true,
    kind: { is: 'part', fields: TOLERANCE, add: 'Add what is in time', blank: blankOf(TOLERANCE) },
  },
  tolerances: {
    label: 'What is in time for single steps',
    kind: {
      is: 'things',
      each: only({ step: STEP, ...TOLERANCE }),
      one: 'Tolerance',
      add: 'Add what is in time for a step',
      blank: () => ({ step: '', ...blankOf(TOLERANCE) }),
    },
  },
  sets: {
    label: 'Step that sets take-off thrust',
    help: 'The roll begins with it. None: it is set at the start.',
    kind: { is: 'refer', to: 'played-step' },
  },
  rotates: {
    label: 'Step that raises the nose',
    help: 'None: it stays on the ground.',
    kind: { is: 'refer', to: 'played-step' },
  },
  wind: {
    label: 'The wind, and how the stick is held',
    help: 'A question with choices, in a scenario that draws runway and wind.',
    kind: { is: 'refer', to: 'scenario-ask' },
  },
  without: {
    label: 'Rules whose wind is not drawn',
    help: 'By their names in the file: those by which nobody takes off.',
    kind: { is: 'list', of: { is: 'words' }, add: 'Add a rule' },
    when: ({ value }) => value.wind !== undefined,
  },
  failure: {
    label: 'An engine may fail',
    kind: { is: 'part', fields: FAILURE, add: 'An engine may fail', blank: blankOf(FAILURE) },
    when: hasConditions,
  },
  source: SOURCE,
  edition: EDITION,
  id: { label: 'Name in the file', required: true, kind: { is: 'id', words: ['title'], plain: 'paced', form: 'id' } },
};

export const PACED_RUNS: Things = {
  is: 'things',
  each: only(PACED),
  one: 'Paced run',
  add: 'Add a paced run',
  blank: (doc) => ({
    id: mint('', idsIn(doc), 'paced'),
    title: '',
    procedures: [],
    aeroplane: blankOf(AEROPLANE),
    tolerance: blankOf(TOLERANCE),
  }),
};
