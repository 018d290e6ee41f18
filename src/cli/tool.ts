import type { Machine } from './run.ts';

/** What a command needs that also writes. */
export interface WritingMachine extends Machine {
  /** @throws where it cannot be written, or (`new`) is there already */
  write(file: string, text: string, how?: 'new'): void;
}

/**
 * A command: its arguments without its own name.
 * @returns the exit code
 * @throws Error with words for people: wrong usage, or a file that cannot be read or written
 */
export type Tool = (args: string[], machine: WritingMachine) => number | Promise<number>;
