import type { Json } from '../lib/canonical-json.ts';
import { apply, type Change, undone } from './change.ts';

/** What the author did in one go, and can take back in one go. */
export interface Step {
  /** For people: "Step moved". */
  readonly label: string;
  readonly changes: readonly Change[];
  /** Typed letter by letter, UTC ms of the last one: what goes on at the same place soon after is no step of its own. */
  readonly typing?: number;
  /** Follows from the step before, such as a name from words: taken back with it. */
  readonly along?: true;
  /** What beside the deck went with it, such as a revision sheet that was applied. */
  readonly side?: SideChange;
}

/** Of what goes with a draft and not into its deck. Undefined: not there. */
export interface SideChange {
  readonly key: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** After a pause this long, ms, typing at the same place is another step. */
const PAUSE = 5000;

export interface History {
  readonly past: readonly Step[];
  readonly future: readonly Step[];
}

export const NO_HISTORY: History = { past: [], future: [] };

/** Steps beyond this many are forgotten, the oldest first. */
const MOST_STEPS = 1000;

interface Done {
  readonly value: Json;
  readonly history: History;
}

/** @throws RangeError where the changes do not fit */
export const doStep = ({ value, history }: Done, step: Step): Done => {
  const next = apply(value, step.changes);
  const last = history.past.at(-1);
  const one = last === undefined || history.future.length > 0 ? null : joined(last, step);
  const past = one === null ? [...history.past, step] : [...history.past.slice(0, -1), one];
  return { value: next, history: { past: past.slice(-MOST_STEPS), future: [] } };
};

const joined = (last: Step, step: Step): Step | null => {
  if (step.along === true) return { label: last.label, changes: [...last.changes, ...step.changes] };
  const [a, b] = [last.changes[0], step.changes[0]];
  if (last.typing === undefined || step.typing === undefined || last.label !== step.label) return null;
  if (last.changes.length + step.changes.length !== 2 || Math.abs(step.typing - last.typing) > PAUSE) return null;
  if (a === undefined || b === undefined || a.path !== b.path) return null;
  // Emptying a field is a step of its own: its place among its neighbours must stay known.
  if (b.before === undefined || b.after === undefined || b.before !== a.after) return null;
  return { ...last, typing: step.typing, changes: [{ ...a, after: b.after }] };
};

/** @returns null where there is nothing to take back */
export const undo = ({ value, history }: Done): Done | null => {
  const step = history.past.at(-1);
  if (step === undefined) return null;
  return {
    value: apply(value, undone(step.changes)),
    history: { past: history.past.slice(0, -1), future: [...history.future, step] },
  };
};

/** @returns null where nothing was taken back */
export const redo = ({ value, history }: Done): Done | null => {
  const step = history.future.at(-1);
  if (step === undefined) return null;
  return {
    value: apply(value, step.changes),
    history: { past: [...history.past, step], future: history.future.slice(0, -1) },
  };
};
