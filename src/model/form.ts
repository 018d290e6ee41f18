import type { Id, Show, Unit } from './deck.ts';
import type { ItemKey, Marks } from './item.ts';

/** Ways to ask. A new one: a folder in src/forms, one in src/ui/forms, a line in each registry. */
export const FORM_IDS = ['run', 'next', 'limit', 'scenario'] as const;
export type FormId = (typeof FORM_IDS)[number];

/** What a question is about; goes into the log. */
export interface About {
  /** Procedure, limit or scenario id. */
  readonly thing: Id;
  /** run, next: situation of the procedure ('' where nothing is conditional). */
  readonly situation?: string;
  /** run: ids of the steps of the part asked, in authored order; absent = the whole. next: id of the one step. */
  readonly part?: readonly Id[];
  /** limit: case. scenario: ask. */
  readonly case?: Id;
  /** scenario: the rule that the draw is steered to. */
  readonly rule?: Id;
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
  /** Chips, choices or fields shown: answers of one form and as many rows take about as long. Absent: never timed. */
  readonly rows?: number;
  /** 0 hard .. 1 easy, among the ways to ask the same item. */
  readonly ease: number;
  /** Ids of things that are easily taken for one another. */
  readonly confusable: readonly Id[];
  /** What must be true of every item in `proves` first: it was read; it was right once; right on two days. */
  readonly needs: 'read' | 'right-once' | 'two-days';
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
  /** Degrees, degrees, kt: what the runway picture needs. */
  readonly picture: { readonly runway: number; readonly windDir: number; readonly windSpeed: number } | null;
}
export type ScenarioGiven = NumberGiven | ChoiceGiven;

export type Shown = RunShown | NextShown | LimitShown | ScenarioShown;
export type Given = RunGiven | ChoiceGiven | LimitGiven | ScenarioGiven;

/** Verdict on one chip of a run, for the margin. */
export interface ChipFinding {
  readonly id: string;
  readonly text: string;
  readonly state: 'right' | 'moved' | 'misplaced' | 'omitted' | 'stranger' | 'left-out';
  /** 1-based number the learner gave, if any. */
  readonly given?: number;
  /** Texts of steps it must come after / before (direct neighbours in the order only). */
  readonly after: readonly string[];
  readonly before: readonly string[];
  /** Authored extras now shown: who, cue, wait, number, reason, usual slip, source line. */
  readonly by?: string;
  readonly cue?: string;
  readonly wait?: string;
  readonly value?: string;
  readonly together?: boolean;
  readonly why?: string;
  readonly slip?: string;
  readonly source?: string;
  readonly note?: string;
}
export interface RunDetail {
  readonly form: 'run';
  /** In a right order, strangers last. */
  readonly chips: readonly ChipFinding[];
  readonly violated: number;
  readonly pairs: number;
  /** 0..1, (1 + Kendall's tau) / 2 on a chain. */
  readonly score: number;
  readonly moves: number;
  /** A named slip that was made: the order that was right once. */
  readonly slip?: string;
}
/** Of a step that comes next. */
export interface NextDetail {
  readonly form: 'next';
  /** The step that comes next, with all that was hidden. */
  readonly right: ChipFinding;
  /** What was chosen instead; absent where the answer is right, or Don't know. */
  readonly wrong?: ChipFinding;
}
/** Of a number or a choice. */
export interface AnswerDetail {
  readonly form: 'limit' | 'scenario';
  /** Right answer in trade form, with unit: "at least 250 ft AAL". */
  readonly right: string;
  /** What was given, in trade form; '' for Don't know. */
  readonly given: string;
  /** "1 kt above the limit, on the unsafe side" … */
  readonly off?: string;
  /** A named slip that was made. */
  readonly slip?: string;
  /** How it is worked out: computed values and the rule that holds, one line each. */
  readonly working: readonly string[];
  readonly why?: string;
  readonly usualSlip?: string;
  readonly source?: string;
  /** What holds at another time, a line each: "From 1 December 2026: at least 300 ft". */
  readonly dated?: readonly string[];
}
export type Detail = RunDetail | NextDetail | AnswerDetail;

export interface Marked {
  readonly marks: Marks;
  /** Chance that a guess does as well, 0..1: of a faultless run the whole, else a step's share. */
  readonly g: number;
  readonly flawed: boolean;
  readonly detail: Detail;
}
