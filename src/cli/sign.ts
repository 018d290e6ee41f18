import { parseArgs } from 'node:util';
import { checkText } from '../deck/check.ts';
import { layOut } from '../deck/layout.ts';
import { fingerprintOf, thumbprint } from '../exchange/fingerprint.ts';
import { makeKey } from '../exchange/keys.ts';
import { signing } from '../exchange/signing.ts';
import type { Json } from '../lib/canonical-json.ts';
import type { Tool } from './tool.ts';

/** `sign FILE --key KEY.jwk [--role author|checker] [--name NAME]`: writes the signature into the file. */
export const sign: Tool = async (args, machine) => {
  const { values, positionals } = parseArgs({
    args,
    allowPositionals: true,
    options: { key: { type: 'string' }, role: { type: 'string', default: 'author' }, name: { type: 'string' } },
  });
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new RangeError('sign takes one deck file.');
  const { key, role } = values;
  if (key === undefined)
    throw new RangeError('Say which key signs: --key KEY.jwk. “npm run deck -- key KEY.jwk” makes one.');
  if (role !== 'author' && role !== 'checker') throw new RangeError(`--role is author or checker, not “${role}”.`);
  const text = machine.read(file);
  const { deck, findings } = checkText(text, { today: machine.today });
  if (deck === undefined) {
    const errors = findings.filter(({ severity }) => severity === 'error').length;
    machine.err(`${file} is not signed: it has ${errors} errors. Run check.`);
    return 1;
  }
  const name = values.name ?? (role === 'author' ? deck.madeBy : deck.checkedBy);
  if (name === undefined) throw new RangeError('Say who signs: --name NAME.');
  const own = await signing.takeKey(machine.read(key), '');
  const signed = await signing.sign(deck, own, { role, name, date: machine.today });
  machine.write(file, layOut(signed as unknown as Json));
  machine.out(`${file}: signed by ${name} as ${role}, ${own.fingerprint.letters}`);
  return 0;
};

/** `key OUT.jwk`: a new key that signs decks, as a JWK (RFC 8037), readable by its owner alone. */
export const key: Tool = async (args, machine) => {
  const { positionals } = parseArgs({ args, allowPositionals: true, options: {} });
  const [file, ...more] = positionals;
  if (file === undefined || more.length > 0) throw new RangeError('Name one file for the key.');
  const made = await makeKey();
  machine.write(file, `${JSON.stringify(made, null, 2)}\n`, 'new');
  const { letters, spelled } = fingerprintOf(await thumbprint(made.x));
  machine.out(`${file}: ${letters}\n${spelled}\nWhoever has this file can sign in your name: keep it to yourself.`);
  return 0;
};
