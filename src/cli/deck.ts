import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { runAny } from './commands.ts';

const { argv, env } = process;
// npm starts scripts in the folder of the package; files are named from where the command was typed.
const base = env.INIT_CWD ?? process.cwd();

process.exitCode = await runAny(argv.slice(2), {
  read: (file) => readFileSync(file === '-' ? 0 : resolve(base, file), 'utf8'),
  // What is written is a deck, or a key: for the eyes of its owner alone.
  write: (file, text, how) => {
    writeFileSync(resolve(base, file), text, how === 'new' ? { flag: 'wx', mode: 0o600 } : {});
  },
  out: (text) => {
    process.stdout.write(`${text}\n`);
  },
  err: (text) => {
    process.stderr.write(`${text}\n`);
  },
  // The day at the author's own desk.
  today: new Date(Date.now() - new Date().getTimezoneOffset() * 60_000).toISOString().slice(0, 10),
});
