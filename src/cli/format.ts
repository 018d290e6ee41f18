import { parseArgs } from 'node:util';
import { layOut } from '../deck/layout.ts';
import { readDeck } from '../deck/read.ts';
import type { Json } from '../lib/canonical-json.ts';
import type { Tool } from './tool.ts';

/** `format FILE… [--write]`: the file in the one layout; content and signatures stay. */
export const format: Tool = (args, machine) => {
  const { values, positionals } = parseArgs({ args, allowPositionals: true, options: { write: { type: 'boolean' } } });
  if (positionals.length === 0) throw new RangeError('Name a deck file.');
  if (values.write !== true && positionals.length > 1)
    throw new RangeError('Without --write, format takes one deck: its text goes to standard output.');
  for (const file of positionals) {
    const text = machine.read(file);
    // What is not even in the shape of a deck is no deck to lay out.
    const { deck, findings } = readDeck(text);
    if (deck === undefined) {
      machine.err(`${file} cannot be laid out: it has ${findings.length} errors. Run check.`);
      return 1;
    }
    const laid = layOut(JSON.parse(text.replace(/^\uFEFF/, '')) as Json);
    if (values.write !== true) machine.out(laid.trimEnd());
    else if (laid === text) machine.out(`${file}: as it was`);
    else {
      machine.write(file, laid);
      machine.out(`${file}: written`);
    }
  }
  return 0;
};
