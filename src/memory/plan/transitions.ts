import type { MemoryModel, State } from '../fsrs.ts';
import { type Grid, locate } from './grid.ts';
import type { Shares } from './types.ts';

/** Nodes that an answer can lead to: missed, unsure and sound, four around each. */
export const WIDTH = 12;

/** Where an answer leads: `WIDTH` nodes and chances for each row. */
export interface Transitions {
  readonly nodes: Uint16Array;
  readonly chances: Float64Array;
}

export const emptyTransitions = (rows: number): Transitions => ({
  nodes: new Uint16Array(rows * WIDTH),
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
  locate(grid, missed.s, missed.d, 1 - right, nodes, chances, at);
  locate(grid, unsure.s, unsure.d, right * shares.right.unsure, nodes, chances, at + 4);
  locate(grid, sound.s, sound.d, right * shares.right.sound, nodes, chances, at + 8);
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
    locate(grid, s, d, first[verdict], nodes, chances, row * WIDTH + i * 4);
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
