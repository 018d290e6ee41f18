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

export const emptyTransitions = (rows: number): Transitions => ({
  nodes: new Uint16Array(rows * 3),
  chances: new Float64Array(rows * WIDTH),
});

/** An item in that state is asked after that many days. */
export const putAnswer = (
  model: MemoryModel,
  grid: Grid,
  shares: Shares,
  { nodes, chances }: Transitions,
  row: number,
  state: State,
  gap: number,
): void => {
  const right = model.chance(state.s, gap);
  const missed = model.next(state, gap, 'missed');
  const unsure = model.next(state, gap, 'unsure');
  const sound = model.next(state, gap, 'sound');
  const at = row * WIDTH;
  nodes[row * 3] = locate(grid, missed.s, missed.d, 1 - right, chances, at);
  nodes[row * 3 + 1] = locate(grid, unsure.s, unsure.d, right * shares.right.unsure, chances, at + 4);
  nodes[row * 3 + 2] = locate(grid, sound.s, sound.d, right * shares.right.sound, chances, at + 8);
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
  /** Days until the check. */
  readonly days: number;
  /** Asked after `gap` days (1 .. days − 1): row (gap − 1) × nodes + node. */
  readonly asked: Transitions;
  /** Recall chance after `gap` days (0 .. days): gap × nodes + node. */
  readonly recall: Float64Array;
}

export const nodeTable = (model: MemoryModel, grid: Grid, shares: Shares, days: number): NodeTable => {
  const { length } = grid.s;
  const asked = emptyTransitions(length * Math.max(0, days - 1));
  const recall = new Float64Array(length * (days + 1));
  for (let node = 0; node < length; node++) {
    const state = { s: grid.s[node] as number, d: grid.d[node] as number };
    for (let gap = 0; gap <= days; gap++) {
      recall[gap * length + node] = model.chance(state.s, gap);
      if (gap >= 1 && gap < days) putAnswer(model, grid, shares, asked, (gap - 1) * length + node, state, gap);
    }
  }
  return { grid, days, asked, recall };
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
