import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { runSimulation } from './simulate-run.ts';

const { argv, env } = process;
// npm starts scripts in the folder of the package; files are named from where the command was typed.
const base = env.INIT_CWD ?? process.cwd();
const isTerminal = process.stderr.isTTY;

process.exitCode = runSimulation(argv.slice(2), {
  read: (file) => readFileSync(file === '-' ? 0 : resolve(base, file), 'utf8'),
  out: (text) => {
    process.stdout.write(`${text}\n`);
  },
  err: (text) => {
    process.stderr.write(`${text}\n`);
  },
  // On a terminal one line that changes; in a file a line for each.
  progress: (text) => {
    process.stderr.write(isTerminal ? `\r${text}\u001b[K${text === '' ? '' : ' '}` : text === '' ? '' : `${text}\n`);
  },
  today: new Date(Date.now() - new Date().getTimezoneOffset() * 60_000).toISOString().slice(0, 10),
});
