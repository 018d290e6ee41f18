import type { Id, Node, Step } from '../../model/deck.ts';
import { mint } from '../mint.ts';
import { newStep, taught } from './fields.ts';
import { matched } from './match.ts';
import { arranged, movers, type Order, placed, stayed, type Taken, without } from './place.ts';
import { nodesOf, type Slot, slotsOf, stepsIn } from './tree.ts';
import type { Fields, Known, Reading } from './types.ts';

/** What the author chose in the report. */
export interface Choices {
  /** A table with a column for each pilot: in order within each column alone, or row by row. */
  readonly order: Order;
  /** Blocks and lanes of the procedure stay, or the list's take their place. */
  readonly shape: 'procedure' | 'list';
  /** Rows, by their index, that are a new step whatever they look like. */
  readonly apart: ReadonlySet<number>;
  /** Steps that stay although the list does not have them. */
  readonly keep: ReadonlySet<Id>;
}

/** What becomes of a row. */
export interface Line {
  readonly reading: Reading;
  /** null: it is not taken. */
  readonly fate: 'same' | 'reworded' | 'new' | null;
  readonly moved: boolean;
  /** The step of before; null: a new one, or none. */
  readonly before: Step | null;
  /** 0..1 */
  readonly likeness: number;
  /** Which fields the row changes, in words. */
  readonly changed: readonly string[];
}

/** A step of before that the list does not have. */
export interface Gone {
  readonly step: Step;
  /** Ids of steps that stay and name it: as what they answer, wait for or need. */
  readonly namedBy: readonly Id[];
}

export interface Proposal {
  /** One for each reading. */
  readonly lines: readonly Line[];
  readonly gone: readonly Gone[];
  /** The steps of the procedure as they would be. */
  readonly nodes: readonly Node[];
  /** Nothing would be changed. */
  readonly isSame: boolean;
}

/**
 * What a procedure becomes when the rows are taken over. Steps that are matched keep their id and all that the rows do not
 * speak of, and their place where the order of the rows allows it; the others are put behind the row before them.
 * @param nodes of the procedure as it is, perhaps not yet right; of a new one none
 * @param taken all ids of the deck
 */
export const propose = (
  readings: readonly Reading[],
  nodes: readonly Node[],
  taken: ReadonlySet<Id>,
  known: Known,
  choices: Choices,
): Proposal => {
  const root = slotsOf(nodes);
  const old = stepsIn(root);
  const isTaken = ({ skip, fields }: Reading) => skip === null && (fields.do !== undefined || fields.say !== undefined);
  const matches = matched(
    readings.map((reading, i) => (isTaken(reading) && !choices.apart.has(i) ? reading.fields : null)),
    old,
  );
  const byId = new Map(old.map((step) => [step.id, step]));
  const ids = new Set(taken);
  const made: (Taken | null)[] = [];
  const lines = readings.map((reading, i): Line => {
    if (!isTaken(reading)) {
      made.push(null);
      return { reading, fate: null, moved: false, before: null, likeness: 0, changed: [] };
    }
    const match = matches[i] ?? null;
    const before = match === null ? null : (byId.get(match.id) as Step);
    const fields = answering(reading, before, made);
    const taken = (step: Step): Taken => ({ step, lane: reading.lane, row: reading.row });
    if (before === null || match === null) {
      const id = idFor(fields, ids);
      ids.add(id);
      made.push(taken(newStep(id, fields, known)));
      return { reading, fate: 'new', moved: false, before, likeness: 0, changed: [] };
    }
    const { step, changed } = taught(before, fields, known);
    made.push(taken(step));
    const fate = changed.length === 0 ? 'same' : 'reworded';
    return { reading, fate, moved: false, before, likeness: match.likeness, changed };
  });
  const rows = made.filter((one) => one !== null);
  const here = new Set(rows.map(({ step }) => step.id));
  const lost = old.filter(({ id }) => !here.has(id));
  const moving = movers(root, rows, choices.order);
  const going = new Set(lost.filter(({ id }) => !choices.keep.has(id)).map(({ id }) => id));
  const slots =
    choices.shape === 'list'
      ? listShaped(rows, old, new Set(lost.filter(({ id }) => choices.keep.has(id)).map(({ id }) => id)), choices.order)
      : procedureShaped(root, rows, byId, moving, going, choices.order);
  const next = nodesOf(slots);
  const staying = stepsIn(slots);
  return {
    lines: lines.map((one, i) => ({ ...one, moved: one.before !== null && moving.has(made[i]?.step.id ?? '') })),
    gone: lost.map((step) => ({ step, namedBy: staying.filter((one) => names(one, step.id)).map(({ id }) => id) })),
    nodes: next,
    isSame: JSON.stringify(next) === JSON.stringify(nodes),
  };
};

const listShaped = (rows: readonly Taken[], old: readonly Step[], keeping: ReadonlySet<Id>, order: Order): Slot[] => {
  const slots = arranged(rows, order);
  const later = old.map((step) =>
    keeping.has(step.id) ? step : (rows.find((one) => one.step.id === step.id)?.step ?? step),
  );
  stayed(slots, later, keeping);
  return slots;
};

const procedureShaped = (
  root: Slot[],
  rows: readonly Taken[],
  byId: ReadonlyMap<Id, Step>,
  moving: ReadonlySet<Id>,
  going: ReadonlySet<Id>,
  order: Order,
): Slot[] => {
  if (root.length === 0) return arranged(rows, order);
  without(root, new Set([...moving, ...going]));
  const stays = ({ step }: Taken) => byId.has(step.id) && !moving.has(step.id);
  renew(root, new Map(rows.map(({ step }) => [step.id, step])));
  const next: (Id | null)[] = [];
  let following: Id | null = null;
  for (const [i, row] of [...rows.entries()].reverse()) {
    next[i] = following;
    if (stays(row)) following = row.step.id;
  }
  const before: Id[] = [];
  for (const [i, row] of rows.entries()) {
    if (!stays(row)) {
      placed(root, row, before, next[i] ?? null);
    }
    before.push(row.step.id);
  }
  return root;
};

const renew = (slots: readonly Slot[], steps: ReadonlyMap<Id, Step>): void => {
  for (const slot of slots) {
    if (slot.kind === 'step') slot.step = steps.get(slot.step.id) ?? slot.step;
    else if (slot.kind === 'block') for (const list of slot.lists) renew(list, steps);
  }
};

/** Where the row says that it responds, it answers the callout before it, unless the step says already what it answers. */
const answering = ({ fields, responds }: Reading, before: Step | null, made: readonly (Taken | null)[]): Fields => {
  if (responds === undefined || fields.answers !== undefined || before?.answers !== undefined) return fields;
  const call = made.filter((one) => one?.step.say !== undefined).at(-1)?.step;
  return call === undefined || call.by === fields.by ? fields : { ...fields, answers: call.id };
};

/** The id that a row brings along, where it is one (no mere number) and free; else one from the words. */
const idFor = ({ id, do: action, say }: Fields, ids: ReadonlySet<Id>): Id =>
  id !== undefined && /^(?=.*[a-z])[a-z0-9][a-z0-9-]*$/.test(id) && !ids.has(id)
    ? id
    : mint(action ?? say ?? '', ids, 'step');

const names = (step: Step, id: Id): boolean =>
  step.answers === id || step.after?.step === id || (Array.isArray(step.needs) && step.needs.includes(id));

/** What is chosen until the author chooses: a table's lanes only where the procedure has no blocks of its own. */
export const choicesFor = (readings: readonly Reading[], nodes: readonly Node[]): Choices => ({
  order: 'columns',
  shape: !hasShape(nodes) && readings.some(({ skip, lane }) => skip === null && lane !== null) ? 'list' : 'procedure',
  apart: new Set(),
  keep: new Set(),
});

/** Has the procedure blocks, lanes or anything else than steps in order? */
export const hasShape = (nodes: readonly Node[]): boolean => slotsOf(nodes).some(({ kind }) => kind !== 'step');
