import { spawn } from 'node:child_process';
import { root } from './paths.mjs';

/**
 * Runs a command in the top folder and passes its output through.
 * @param {string} command
 * @param {readonly string[]} args
 * @param {NodeJS.ProcessEnv} [env] Added to the environment.
 * @returns {Promise<number>} Exit code; 127 when the command cannot be started, 1 when a signal ended it.
 */
export const run = (command, args, env = {}) =>
  new Promise((done) => {
    const child = spawn(command, args, { cwd: root, stdio: 'inherit', env: { ...process.env, ...env } });
    child.on('error', (error) => {
      console.error(`${command}: ${error.message}`);
      done(127);
    });
    child.on('exit', (code) => done(code ?? 1));
  });

/**
 * The same, but the output is kept, so that commands can run side by side without mixing their lines.
 * @param {string} command
 * @param {readonly string[]} args
 * @returns {Promise<{ code: number, output: string }>}
 */
export const runQuietly = (command, args) =>
  new Promise((done) => {
    const child = spawn(command, args, { cwd: root, stdio: ['ignore', 'pipe', 'pipe'] });
    let output = '';
    const keep = (/** @type {Buffer} */ chunk) => {
      output += chunk.toString('utf8');
    };
    child.stdout.on('data', keep);
    child.stderr.on('data', keep);
    child.on('error', (error) => done({ code: 127, output: `${command}: ${error.message}\n` }));
    child.on('close', (code) => done({ code: code ?? 1, output }));
  });
