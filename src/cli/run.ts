import { checkText } from '../deck/check.ts';
import { messageOf } from '../deck/messages.ts';
import { readDeck } from '../deck/read.ts';
import { compare } from './compare.ts';
import { placesOf } from './places.ts';
import { showDeck } from './show.ts';

/** What the tool needs of the machine. */
export interface Machine {
  /** `-` is standard input. @throws where it cannot be read */
  read(file: string): string;
  out(text: string): void;
  err(text: string): void;
  /** ISO calendar date. */
  readonly today: string;
}

const HELP = `Checks and shows decks.

  npm run deck -- check FILE… [--json]   say what is wrong with each deck
  npm run deck -- show FILE              print its procedures, limits and scenarios
  npm run deck -- format FILE [--write]  lay it out in the order of the schema; what it says stays
  npm run deck -- verify FILE…           say who signed each deck; 1 where nobody did or it does not hold
  npm run deck -- sign FILE --key KEY.jwk [--role author|checker] [--name NAME]
                                         write a signature into it; the name is madeBy or checkedBy otherwise
  npm run deck -- key OUT.jwk            make a key that signs
  npm run deck -- compare A B [--json]   say what changed from A to B, and whether the version of B says so
  npm run deck -- from-csv FILE [--procedure ID] [--title TITLE] [--into DECK] [--as list|table]
                      [--order columns|rows] [--keep]
                                         print a deck with the steps of a list or table; what was read of each row goes
                                         to standard error. Into a procedure that is there: its steps are found again

FILE may be - for standard input.
Findings are errors (the deck cannot be installed), warnings (it should be mended) and hints (look again).
Exit code: 0 nothing but hints, 1 errors or warnings, 2 wrong usage or a file that cannot be read.
compare: 0 the version of B says what changed, 1 it must rise further. It rises by SemVer: major where an answer changed
or something went, minor where something was added, patch for words.`;

/** All that the help names. */
const COMMANDS = [...HELP.matchAll(/npm run deck -- ([a-z-]+)/g)].map(([, name]) => name);
const COMMAND_WORDS = `${COMMANDS.slice(0, -1).join(', ')} or ${COMMANDS.at(-1)}`;

/** @returns the exit code */
export function run(args: readonly string[], machine: Machine): number {
  const [command, ...rest] = args;
  const flags = rest.filter((a) => a.startsWith('--'));
  const files = rest.filter((a) => !a.startsWith('--'));
  if (command === '--help' || command === 'help' || flags.includes('--help')) {
    machine.out(HELP);
    return 0;
  }
  const wrong = (what: string): number => {
    machine.err(`${what}\n\n${HELP}`);
    return 2;
  };
  if (command !== 'check' && command !== 'show' && command !== 'compare')
    return wrong(command === undefined ? `Say what to do: ${COMMAND_WORDS}.` : `There is no command “${command}”.`);
  const allowed = command === 'show' ? [] : ['--json'];
  const unknown = flags.find((f) => !allowed.includes(f));
  if (unknown !== undefined) return wrong(`There is no option “${unknown}” for ${command}.`);
  if (files.length === 0) return wrong('Name a deck file.');
  if (command === 'show' && files.length > 1) return wrong('show takes one deck.');
  if (command === 'compare' && files.length !== 2) return wrong('compare takes two decks: before and after.');
  const texts: [string, string][] = [];
  for (const file of files) {
    try {
      texts.push([file, machine.read(file)]);
    } catch (error) {
      machine.err(`${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`);
      return 2;
    }
  }
  if (command === 'compare') return compare(texts, flags.includes('--json'), machine);
  return command === 'check' ? check(texts, flags.includes('--json'), machine) : show(texts, machine);
}

function check(texts: readonly (readonly [string, string])[], json: boolean, { today, out }: Machine): number {
  let worst = 0;
  const report = texts.map(([file, text]) => {
    const { findings } = checkText(text, { today });
    if (findings.some((f) => f.severity !== 'hint')) worst = 1;
    const places = placesOf(
      text,
      findings.map((f) => f.path),
    );
    return { file, findings: findings.map((f) => ({ ...places.get(f.path), ...f, message: messageOf(f) })) };
  });
  if (json) {
    out(JSON.stringify(report, null, 2));
    return worst;
  }
  for (const { file, findings } of report) {
    for (const f of findings)
      out(`${file}:${f.line ?? 1}:${f.column ?? 1}: ${f.severity}: ${f.message} [${f.code}${f.path && ` ${f.path}`}]`);
    const count = (severity: string): number => findings.filter((f) => f.severity === severity).length;
    out(`${file}: ${count('error')} errors, ${count('warning')} warnings, ${count('hint')} hints`);
  }
  return worst;
}

function show(texts: readonly (readonly [string, string])[], machine: Machine): number {
  const [file, text] = texts[0] as readonly [string, string];
  const { deck, findings } = checkText(text, { today: machine.today });
  const shaped = deck ?? readDeck(text).deck;
  if (!shaped) {
    machine.err(`${file} cannot be shown: it has ${findings.length} errors. Run check.`);
    return 1;
  }
  machine.out(showDeck(shaped));
  return 0;
}
