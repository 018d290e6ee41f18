/** A paced run as the log keeps it, and what is told of it. Its own kind of answer: never put by the composer. */
import type { Id } from './deck.ts';
import type { ScenarioShown } from './form.ts';
import type { AnswerDetail, ChipFinding } from './form-told.ts';

export interface PacedShown {
  readonly form: 'paced';
  readonly title: string;
  readonly scene: readonly string[];
  readonly drawn: Readonly<Record<string, number | string | boolean>>;
  readonly seed: number;
  /** Seat of the learner; '' where the procedures name no crew: then all steps are the learner's. */
  readonly seat: Id;
  /** 1: as it is; up to 10 times as slow. 0: untimed. */
  readonly stretch: number;
  /** Procedures played, with the situation of each; `failed`: the one from an engine failure on, where it is another. */
  readonly runs: readonly { readonly procedure: Id; readonly situation: string; readonly failed?: string }[];
  /** kt at which an engine fails in this run. */
  readonly fails?: number;
  /** Wind from ahead, kt. */
  readonly headwind: number;
  /** The wind of the day, with its question. */
  readonly wind?: ScenarioShown;
  /** Buttons shown at a time: what a guess chooses from. */
  readonly buttons: number;
}

export interface PacedAct {
  /** Step id, `stranger-<procedure>-<n>`, or `stop` and `go` of the decision. */
  readonly id: Id;
  /** s of the run */
  readonly at: number;
  /** Of a step that a rule decides: the option chosen. */
  readonly choice?: Id;
  /** How was asked, and not known. */
  readonly unknown?: true;
  /** Of what was not the learner's to do: what stood on the button. */
  readonly text?: string;
  /** What the read-out said then, kt and ft. Absent in runs of old, and on the ground. */
  readonly knots?: number;
  readonly feet?: number;
}

export interface PacedGiven {
  /** What the learner did, in order of time. */
  readonly acts: readonly PacedAct[];
  /** When each cue came, s of the run: by step id. A step without one did not come up. */
  readonly cues: Readonly<Record<Id, number>>;
  /** When the others did their steps. */
  readonly played: Readonly<Record<Id, number>>;
  /** s at which an engine failed, and the airspeed in kt. */
  readonly failed?: { readonly at: number; readonly speed: number };
  /** Was stop or go asked? */
  readonly asked?: true;
  readonly decision?: 'stop' | 'go';
}

/** early, late: beyond the tolerance. missing: its cue came, and it was not done. played: by another. */
export type PacedTiming = 'in-time' | 'early' | 'late' | 'missing' | 'played';

/** The speed or height that is a step's cue. by: it is done by then. from: not before. */
export interface PacedFigure {
  readonly value: number;
  readonly unit: 'kt' | 'ft';
  readonly sense: 'at' | 'by' | 'from';
}

/** Of one step of a paced run. */
export interface PacedFinding extends ChipFinding {
  /** When its cue came, s of the run. */
  readonly cueAt: number;
  /** When it was done, s of the run; absent where it was not. */
  readonly doneAt?: number;
  /** s within which it is in time, before and after the cue. */
  readonly window: readonly [early: number, late: number];
  readonly timing: PacedTiming;
  /** Was all done before it that must be? */
  readonly inOrder: boolean;
  /** Texts of what must be done before it, and was not. */
  readonly behind: readonly string[];
  /** Is it said? */
  readonly called: boolean;
  readonly figure?: PacedFigure;
  /** What the read-out said of it when the learner did it. */
  readonly read?: number;
}

export interface PacedDetail {
  readonly form: 'paced';
  /** In the order in which they were done; what was not done stands at its cue. */
  readonly steps: readonly PacedFinding[];
  readonly extra: readonly { readonly text: string; readonly at: number }[];
  /** Texts of the learner's steps that did not come up. */
  readonly never: readonly string[];
  readonly decision?: { readonly right: 'stop' | 'go'; readonly given?: 'stop' | 'go'; readonly speed: number };
  /** What the wind asked for. */
  readonly rule?: AnswerDetail;
}
