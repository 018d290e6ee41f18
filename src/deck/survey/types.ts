import type { Drawn } from '../../model/form.ts';

/** What an author wants to see of the draws of one scenario. */
export interface SurveyTask {
  /** Place in the deck's list. */
  readonly scenario: number;
  /** Place of the question that is looked at. */
  readonly ask: number;
  /** Which of the variants that differ here, from 0. */
  readonly variant: number;
  /** Other examples for another one. */
  readonly seed: number;
  /** Names drawn along the picture; null: those that decide most. */
  readonly x: string | null;
  /** '': a bar instead of a map. */
  readonly y: string | null;
  /** All else as in this draw; null: all else as it comes, in shares. */
  readonly around: Drawn | null;
}

/** What comes of a draw for one question: the place of the rule that decides, from 0 (of a number: 0), or one of these. */
export const NO_RULE = -1;
/** A formula has no value: a division by zero, a table read outside its rows. */
export const NO_VALUE = -2;
export const NOT_ASKED = -3;
/** By `require`, by the day, or as an event just below V1. */
export const REFUSED = -4;

export interface SurveyAxis {
  readonly name: string;
  readonly label: string;
  /** Drawn from an interval: one value is next to another. */
  readonly ranged: boolean;
  /** How many values are drawn. */
  readonly count: number;
  /** Of the bins of the picture, in order: "070°", "12–15 kt". */
  readonly bins: readonly string[];
}

export interface RuleSurvey {
  readonly id: string;
  /** JSON Pointer. */
  readonly path: string;
  /** "crosswind is above 20 kt"; '' for a rule without condition. */
  readonly words: string;
  /** Words of the options that are right. */
  readonly gives: readonly string[];
  /** Draws that it decides. */
  readonly count: number;
}

export interface AskSurvey {
  readonly path: string;
  readonly id: string;
  readonly words: string;
  /** Draws in which it is asked and has an answer. */
  readonly answered: number;
  readonly noRule: number;
  readonly noValue: number;
  readonly notAsked: number;
  /** null for a number. */
  readonly rules: readonly RuleSurvey[] | null;
  /** Least and greatest answer in trade form; null for a choice, or where there is none. */
  readonly range: readonly [string, string] | null;
}

export interface Refusal {
  readonly path: string;
  /** What is required: "crosswind is at least 2 kt". */
  readonly words: string;
  /** Draws for which it was the first that did not hold. */
  readonly count: number;
}

export interface Answer {
  /** As in `SurveyTask.ask`. */
  readonly outcome: number;
  /** The number in trade form, or the words of the options; '' where there is no answer. */
  readonly words: string;
}

export interface Example {
  readonly drawn: Drawn;
  /** In trade form, as the axes stand. */
  readonly shown: readonly string[];
  /** As the asks stand. */
  readonly answers: readonly Answer[];
}

export interface Cell {
  /** Draws of it by rule; of a number ask those with a value. */
  readonly rules: readonly number[];
  readonly noRule: number;
  readonly noValue: number;
  /** Refused or not asked. */
  readonly out: number;
  /** Of a number ask: least and greatest answer in trade form, and as numbers. */
  readonly range: readonly [string, string] | null;
  readonly values: readonly [number, number] | null;
}

/** How the outcome lies over one or two of the drawn values. */
export interface Picture {
  /** Places of axes. */
  readonly x: number;
  readonly y: number | null;
  readonly xBins: readonly string[];
  readonly yBins: readonly string[];
  /** Row by row: `y * xBins.length + x`. */
  readonly cells: readonly Cell[];
}

/** Going along one drawn value from an example, the outcome changes here. */
export interface Boundary {
  /** Place of the axis. */
  readonly axis: number;
  readonly below: string;
  readonly above: string;
  /** Outcomes on either side. */
  readonly from: number;
  readonly to: number;
}

export interface Survey {
  /** Those that differ in what is drawn here; one '' where none do. */
  readonly variants: readonly string[];
  /** Place of the question that is looked at. */
  readonly ask: number;
  /** Is the picture drawn with all else as in one draw? */
  readonly around: boolean;
  readonly tried: number;
  /** Was every combination tried, or a sample? */
  readonly exact: boolean;
  /** Draws that meet all that is required. */
  readonly met: number;
  /** Draws without a value in `let` or `require`. */
  readonly broken: number;
  readonly axes: readonly SurveyAxis[];
  readonly refusals: readonly Refusal[];
  readonly asks: readonly AskSurvey[];
  readonly examples: readonly Example[];
  readonly picture: Picture | null;
  /** The draw that boundaries are looked for from. */
  readonly base: Drawn | null;
  readonly boundaries: readonly Boundary[];
}

/**
 * Why there is no survey: the deck's shape, errors in what the scenario says, or no variant that holds it.
 * `at`: JSON Pointer of the first that stands in the way; '' where that is the deck as a whole.
 */
export type NoSurvey = { readonly problem: 'shape' | 'errors'; readonly at: string } | { readonly problem: 'nowhere' };
