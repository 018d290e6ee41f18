import type { Extras } from '../forms/run/extras.ts';
import { withLabels } from '../subjects/fill.ts';
import type { Resolved } from '../subjects/resolved.ts';

export interface WalkAnswer {
  readonly given: string;
  readonly answer: string;
  /** Of a rule its own reason and usual slip. */
  readonly why?: string;
  readonly slip?: string;
  /** Angles of the nose against the horizon, °, where it is drawn so. */
  readonly pitch?: readonly number[];
}

/** One line to read, with its answer: of a procedure a step, else a limit or a scenario. */
export interface WalkLine extends Extras {
  readonly id: string;
  readonly text: string;
  readonly critical: boolean;
  /** Answers in trade form: a limit's cases, a scenario's rules, one each. */
  readonly answers: readonly WalkAnswer[];
  /** May be done in any order with the line before: side by side. */
  readonly beside: boolean;
  readonly together: boolean;
  /** Panel area in which it is done. */
  readonly where?: string;
}

/** Values of the day and conditions by their labels: nothing is drawn where a thing is read. */
export const wordsIn = ({ deck }: Resolved, text: string): string => withLabels(deck, text);

export const labelled = (resolved: Resolved, extras: { [K in keyof Extras]: Extras[K] | undefined }): Extras =>
  Object.fromEntries(
    Object.entries(extras).flatMap(([name, text]) => (text === undefined ? [] : [[name, wordsIn(resolved, text)]])),
  );
