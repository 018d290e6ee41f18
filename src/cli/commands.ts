import { format } from './format.ts';
import { fromCsv } from './from-csv.ts';
import { run } from './run.ts';
import { key, sign } from './sign.ts';
import type { Tool, WritingMachine } from './tool.ts';
import { verify } from './verify.ts';

/** Commands that write files or work with keys; `run` has the others. */
const TOOLS: Readonly<Record<string, Tool>> = { format, 'from-csv': fromCsv, sign, verify, key };

/** @returns the exit code */
export const runAny = async (args: readonly string[], machine: WritingMachine): Promise<number> => {
  const [command = '', ...rest] = args;
  const tool = Object.hasOwn(TOOLS, command) ? TOOLS[command] : undefined;
  if (tool === undefined || rest.includes('--help')) return run(tool === undefined ? args : ['--help'], machine);
  try {
    return await tool(rest, machine);
  } catch (error) {
    machine.err(error instanceof Error ? error.message : String(error));
    return 2;
  }
};
