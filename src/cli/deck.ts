import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { run } from './run.ts';

const { argv, env } = process;
// npm starts scripts in the folder of the package; files are named from where the command was typed.
const base = env.INIT_CWD ?? process.cwd();

process.exitCode = run(argv.slice(2), {
  read: (file) => readFileSync(file === '-' ? 0 : resolve(base, file), 'utf8'),
  out: (text) => {
    process.stdout.write(`${text}\n`);
  },
  err: (text) => {
    process.stderr.write(`${text}\n`);
  },
  // The day at the author's own desk.
  today: new Date(Date.now() - new Date().getTimezoneOffset() * 60_000).toISOString().slice(0, 10),
});
