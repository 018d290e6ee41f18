import { parseArgs } from 'node:util';
import { verifyDeck } from '../exchange/signature.ts';
import type { Tool } from './tool.ts';

/** `verify FILE…`: who signed each deck. Exit code 1 where one is not signed, or a signature does not hold. */
export const verify: Tool = async (args, machine) => {
  const { positionals } = parseArgs({ args, allowPositionals: true, options: {} });
  if (positionals.length === 0) throw new RangeError('Name a deck file.');
  let worst = 0;
  for (const file of positionals) {
    const text = machine.read(file);
    try {
      const found = await verifyDeck(text);
      for (const { role, name, date, fingerprint, valid } of found)
        machine.out(
          `${file}: ${valid === true ? 'signed' : 'BROKEN signature'} by ${name} as ${role}, ${date}, ${fingerprint.letters}`,
        );
      if (found.length === 0) machine.out(`${file}: not signed`);
      if (found.length === 0 || found.some(({ valid }) => valid !== true)) worst = 1;
    } catch (error) {
      machine.out(`${file}: ${error instanceof Error ? error.message : String(error)}`);
      worst = 1;
    }
  }
  return worst;
};
