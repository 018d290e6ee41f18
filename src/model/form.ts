import type { Id, Show, Unit } from './deck.ts';
import type {
  CalloutShown,
  CrewGiven,
  CrewShown,
  DifferenceGiven,
  DifferenceShown,
  ListShown,
  RuleShown,
  SlipGiven,
  SlipShown,
  ValueShown,
  WordsGiven,
} from './form-asked.ts';
import type { PacedGiven, PacedShown } from './form-paced.ts';
import type { ItemKey } from './item.ts';

/** Ways to ask. A new one: a folder in src/forms, one in src/ui/forms, a line in each registry. */
export const FORM_IDS = [
  'run',
  'next',
  'limit',
  'scenario',
  'before',
  'slip',
  'cue',
  'callout',
  'list',
  'crew',
  'value',
  'rule',
  'difference',
  'paced',
] as const;
export type FormId = (typeof FORM_IDS)[number];

/** What a question is about; goes into the log. */
export interface About {
  /** Procedure, limit or scenario id. */
  readonly thing: Id;
  /** Of what happens in a procedure: its situation ('' where nothing is conditional). */
  readonly situation?: string;
  /** run: ids of the steps of the part asked, in authored order; absent = the whole. Others: the one step. */
  readonly part?: readonly Id[];
  /** limit: case. scenario: ask. */
  readonly case?: Id;
  /** scenario: the rule that the draw is steered to. */
  readonly rule?: Id;
  /** value, rule: the procedure whose step, `part`, holds the limit or is decided by the rule. */
  readonly procedure?: Id;
  /** The way in which a form asks, where it has several: each form's own words. */
  readonly way?: string;
}

/** A question that could be put. */
export interface Offer {
  readonly form: FormId;
  readonly about: About;
  /** View id. */
  readonly variant: string;
  /** Items it exercises. */
  readonly proves: readonly ItemKey[];
  /** Chance to be right by guessing, 0..1. */
  readonly g: number;
  /** Expected time to answer and to read the verdict, s: as first estimated, or of this learner (memory/timed.ts). */
  readonly seconds: number;
  /** Chips, choices or fields shown, 0 where words are typed: answers of one form and as many rows take about as long. Absent: never timed. */
  readonly rows?: number;
  /** 0 hard .. 1 easy, among the ways to ask the same item. */
  readonly ease: number;
  /** Ids of things that are easily taken for one another. */
  readonly confusable: readonly Id[];
  /** What must be true of every item in `proves` first: it was read; it was right once; right on two days. */
  readonly needs: 'read' | 'right-once' | 'two-days';
  /** Items that must have been right once before, though they are not asked: a cue means nothing before its step is known. */
  readonly behind?: readonly ItemKey[];
}

/** Values drawn for one question, by name. */
export type Drawn = Readonly<Record<string, number | string | boolean>>;

export interface Chip {
  /** Step id, or `stranger-<n>`. */
  readonly id: string;
  readonly text: string;
}

export interface RunShown {
  readonly form: 'run';
  readonly title: string;
  /** Lines that set the scene: starts, situation, variant, values of the day. */
  readonly scene: readonly string[];
  readonly drawn: Drawn;
  /** In the order shown; strangers among them. */
  readonly chips: readonly Chip[];
  /** Texts of steps that come just before the part asked, given as context. */
  readonly before: readonly string[];
}
export interface RunGiven {
  /** Chip ids in the order they were numbered. */
  readonly order: readonly string[];
}

export interface Choice {
  readonly id: Id;
  readonly text: string;
}
/** Which step comes next: one of the choices, after the steps that were done just before. */
export interface NextShown {
  readonly form: 'next';
  readonly title: string;
  readonly scene: readonly string[];
  readonly drawn: Drawn;
  /** Texts of the last steps done, in order; none where the procedure begins. */
  readonly before: readonly string[];
  readonly ask: string;
  /** In the order shown: step ids and `stranger-<n>`; but one may come next. */
  readonly choices: readonly Choice[];
}

export interface NumberGiven {
  /** As typed, one per field. */
  readonly typed: readonly string[];
  /** As read, one per field. */
  readonly value: readonly number[];
}
export interface ChoiceGiven {
  readonly choice: Id;
}

export interface LimitShown {
  readonly form: 'limit';
  readonly ask: string;
  /** Circumstances of the case: variant named where it matters, given conditions. */
  readonly scene: readonly string[];
  readonly drawn: Drawn;
  /** Number: one field, or two for from-to. */
  readonly fields: readonly NumberField[];
  /** Fact: choices in the order shown; empty for a number. */
  readonly choices: readonly Choice[];
}
export interface NumberField {
  readonly label: string;
  readonly unit: Unit;
  readonly reference?: string;
  readonly show?: Show;
  /** "at most", "below", …: said beside the field. */
  readonly sense?: string;
  /** Values of its kind may be negative: said of the kind, never of the answer. */
  readonly signed?: true;
}
export type LimitGiven = NumberGiven | ChoiceGiven;

export interface ScenarioShown {
  readonly form: 'scenario';
  readonly seed: number;
  readonly drawn: Drawn;
  readonly situation: string;
  readonly scene: readonly string[];
  readonly ask: string;
  readonly fields: readonly NumberField[];
  readonly choices: readonly Choice[];
  /**
   * Degrees, degrees, kt: what the runway picture needs. gusty: some formula reckons with another wind than the one drawn;
   * gust, kt: where that is a stronger one from there.
   */
  readonly picture: {
    readonly runway: number;
    readonly windDir: number;
    readonly windSpeed: number;
    readonly gusty?: true;
    readonly gust?: number;
  } | null;
}
export type ScenarioGiven = NumberGiven | ChoiceGiven;

/** What every question that stands in a procedure shows first. */
export interface InProcedure {
  readonly title: string;
  readonly scene: readonly string[];
  readonly drawn: Drawn;
}

/** Which of these must be done before the step named. */
export interface BeforeShown extends InProcedure {
  readonly form: 'before';
  /** Text of the step. */
  readonly step: string;
  readonly ask: string;
  readonly choices: readonly Choice[];
}

/** trigger: what a step waits for. calls: what a cue calls for. */
export interface CueShown extends InProcedure {
  readonly form: 'cue';
  readonly way: 'trigger' | 'calls';
  readonly ask: string;
  /** Text of the step (trigger), of the cue (calls). */
  readonly about: string;
  readonly choices: readonly Choice[];
}

export type Shown =
  | RunShown
  | NextShown
  | LimitShown
  | ScenarioShown
  | BeforeShown
  | SlipShown
  | CueShown
  | CalloutShown
  | ListShown
  | CrewShown
  | ValueShown
  | RuleShown
  | DifferenceShown
  | PacedShown;
export type Given =
  | RunGiven
  | ChoiceGiven
  | LimitGiven
  | ScenarioGiven
  | WordsGiven
  | CrewGiven
  | SlipGiven
  | DifferenceGiven
  | PacedGiven;

/** What is asked, in a line: for a page's title. */
export const titleOf = (shown: Shown): string =>
  'ask' in shown ? shown.ask : shown.form === 'crew' ? `Who does what? ${shown.title}` : shown.title;

export type * from './form-asked.ts';
export type * from './form-paced.ts';
export type * from './form-told.ts';
