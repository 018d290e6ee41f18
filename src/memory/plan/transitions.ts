import type { Verdict } from '../../model/item.ts';
import type { MemoryModel, State } from '../fsrs.ts';
import { type Grid, locate } from './grid.ts';
import type { Shares } from './types.ts';

/** Nodes that an answer can lead to: missed, unsure and sound, four around each. */
export const WIDTH = 12;

/** Where an answer leads. */
export interface Transitions {
  /** Three for each row: of each four the first node (see `locate`). */
  readonly nodes: Uint16Array;
  /** `WIDTH` for each row. */
  readonly chances: Float64Array;
}

const emptyTransitions = (rows: number): Transitions => ({
  nodes: new Uint16Array(rows * 3),
  chances: new Float64Array(rows * WIDTH),
});

/** Memories that answers lead to, whatever the grid. */
export interface Answers {
  /** Seven for each row: recall chance; stability and difficulty after missed, unsure and sound. */
  readonly after: Float64Array;
  readonly rows: number;
}

const FIGURES = 7;

export const emptyAnswers = (rows: number): Answers => ({ after: new Float64Array(rows * FIGURES), rows });

/** An item in that state is asked after that many days. */
export const putAnswer = (model: MemoryModel, { after }: Answers, row: number, state: State, gap: number): void => {
  const at = row * FIGURES;
  after[at] = model.chance(state.s, gap);
  for (let v = 0; v < VERDICTS.length; v++) {
    const { s, d } = model.next(state, gap, VERDICTS[v] as Verdict);
    after[at + 1 + 2 * v] = s;
    after[at + 2 + 2 * v] = d;
  }
};

const VERDICTS: readonly Verdict[] = ['missed', 'unsure', 'sound'];

/** Where on a grid the answers lead. Of a row without an answer nowhere. */
export const transitionsOf = ({ after, rows }: Answers, grid: Grid, { right: shares }: Shares): Transitions => {
  const { nodes, chances } = emptyTransitions(rows);
  for (let row = 0; row < rows; row++) {
    const at = row * FIGURES;
    if (after[at + 1] === 0) continue;
    const right = after[at] as number;
    for (let v = 0; v < 3; v++) {
      const share = v === 0 ? 1 - right : right * (v === 1 ? shares.unsure : shares.sound);
      const [s, d] = [after[at + 1 + 2 * v] as number, after[at + 2 + 2 * v] as number];
      nodes[row * 3 + v] = locate(grid, s, d, share, chances, row * WIDTH + 4 * v);
    }
  }
  return { nodes, chances };
};

/** An item is asked for the first time. */
export const putFirst = (
  model: MemoryModel,
  grid: Grid,
  { first }: Shares,
  { nodes, chances }: Transitions,
  row: number,
): void => {
  for (const [i, verdict] of (['missed', 'unsure', 'sound'] as const).entries()) {
    const { s, d } = model.next(null, 0, verdict);
    nodes[row * 3 + i] = locate(grid, s, d, first[verdict], chances, row * WIDTH + i * 4);
  }
};

/** What is known of every node, whatever the prices. */
export interface NodeTable {
  readonly grid: Grid;
  /** Days until the last check. */
  readonly days: number;
  /** Asked after `gap` days (1 .. days − 1): row node × (days − 1) + gap − 1. */
  readonly asked: Transitions;
  /** Recall chance after `gap` days (0 .. days): node × (days + 1) + gap. */
  readonly recall: Float64Array;
}

export const nodeTable = (model: MemoryModel, grid: Grid, shares: Shares, days: number): NodeTable => {
  const { length } = grid.s;
  const answers = emptyAnswers(length * Math.max(0, days - 1));
  const recall = new Float64Array(length * (days + 1));
  for (let node = 0; node < length; node++) {
    const state = { s: grid.s[node] as number, d: grid.d[node] as number };
    for (let gap = 0; gap <= days; gap++) {
      recall[node * (days + 1) + gap] = model.chance(state.s, gap);
      if (gap >= 1 && gap < days) putAnswer(model, answers, node * (days - 1) + gap - 1, state, gap);
    }
  }
  return { grid, days, asked: transitionsOf(answers, grid, shares), recall };
};

/** Expected value after the answer of a row, where the values of the nodes begin at `base`. */
export const expected = (
  { nodes: to, chances }: Transitions,
  row: number,
  columns: number,
  value: Float64Array | Float32Array,
  base: number,
): number => {
  // Most of the time of a plan goes here, so nothing of it is a loop.
  const i = row * WIDTH;
  const a = base + (to[row * 3] as number);
  const b = base + (to[row * 3 + 1] as number);
  const c = base + (to[row * 3 + 2] as number);
  return (
    (chances[i] as number) * (value[a] as number) +
    (chances[i + 1] as number) * (value[a + 1] as number) +
    (chances[i + 2] as number) * (value[a + columns] as number) +
    (chances[i + 3] as number) * (value[a + columns + 1] as number) +
    (chances[i + 4] as number) * (value[b] as number) +
    (chances[i + 5] as number) * (value[b + 1] as number) +
    (chances[i + 6] as number) * (value[b + columns] as number) +
    (chances[i + 7] as number) * (value[b + columns + 1] as number) +
    (chances[i + 8] as number) * (value[c] as number) +
    (chances[i + 9] as number) * (value[c + 1] as number) +
    (chances[i + 10] as number) * (value[c + columns] as number) +
    (chances[i + 11] as number) * (value[c + columns + 1] as number)
  );
};
