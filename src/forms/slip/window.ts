import { foldText } from '../../lib/fold-text.ts';
import type { PartialOrder, Resolved, RunStep, Situation } from '../../subjects/resolved.ts';
import type { Asked } from '../run/draw.ts';
import { windowsOf } from '../run/windows.ts';

/** Steps of a run that is shown whole; of a longer one windows are shown. Two more rows may come among them. */
const WHOLE = 10;
const WINDOW = 7;
/** Steps given before a part, so that it is clear where it begins. */
const CONTEXT = 2;

/** The run of which a fault is shown: rows are numbered by their place in it. */
export interface Window {
  readonly resolved: Resolved;
  readonly asked: Asked;
  /** In authored order, which is a right one. */
  readonly steps: readonly RunStep[];
  /** Among them. */
  readonly order: PartialOrder;
  /** Shown above as done already. */
  readonly before: readonly RunStep[];
  /** Does a row read like no other step of the situation? */
  readonly alone: (row: number) => boolean;
}

export const partsOf = ({ steps }: Situation): number[][] =>
  steps.length <= WHOLE ? [[...steps.keys()]] : windowsOf(steps, WINDOW);

export function windowOf(resolved: Resolved, asked: Asked, order: PartialOrder): Window {
  const { situation, part } = asked;
  const from = part[0] as number;
  const counts = new Map<string, number>();
  for (const step of situation.steps)
    for (const one of new Set(wordings(step))) counts.set(one, (counts.get(one) ?? 0) + 1);
  const steps = part.map((i) => situation.steps[i] as RunStep);
  return {
    resolved,
    asked,
    steps,
    order,
    before: situation.steps.slice(Math.max(0, from - CONTEXT), from),
    alone: (row) => wordings(steps[row] as RunStep).every((one) => counts.get(one) === 1),
  };
}

const wordings = ({ text, step }: RunStep): string[] =>
  [text, ...(step.alsoDo ?? []), ...(step.alsoSay ?? [])].map(foldText);
