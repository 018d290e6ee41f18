import { checkText } from '../deck/check.ts';
import { resolve } from '../deck/resolve.ts';
import { offers } from '../forms/registry.ts';
import { itemSeconds } from '../memory/plan/input.ts';
import { FARTHEST } from '../memory/plan/solve.ts';
import { compare, type Report } from '../memory/simulate/compare.ts';
import { SAME, VARIED } from '../memory/simulate/learner.ts';
import type { Course } from '../memory/simulate/policies.ts';
import { LATER } from '../memory/simulate/run.ts';
import type { Resolved } from '../subjects/resolved.ts';
import { composed } from './composed.ts';
import type { Machine } from './run.ts';

export interface SimulationMachine extends Machine {
  /** A line that tells how far it is; '' when it is done. */
  progress(text: string): void;
}

const HELP = `Tries ways to practise on simulated learners, and prints what they would recall on the check day.

  npm run simulate -- [--deck FILE] [--days 30] [--minutes 10] [--learners varied] [--seeds 20] [--seed 1]
                      [--composed] [--json]

  --deck FILE   items of this deck, each asked alone at its share of its quickest question's time;
                without it 200 numbers of 12 seconds, none critical
  --days N      days to practise, 1 to ${FARTHEST}; the check is on the day after
  --minutes N   minutes on each day
  --learners    varied: memories that differ from what the scheduler assumes; same: memories as it assumes
  --seeds N     learners
  --seed N      number of the first; the same number gives the same learners and the same luck
  --every N     days after which the plan finds its prices anew
  --composed    drills of the deck as the app composes them, runs of a procedure among them, read before they are
                asked: by due date alone, with the check day but no plan, and by the plan
  --json        the figures as JSON

Exit code: 0 done, 2 wrong usage, a file that cannot be read, or a deck with errors.`;

const NUMBERS = {
  days: { usual: 30, least: 1, most: FARTHEST },
  minutes: { usual: 10, least: 0, most: 600 },
  seeds: { usual: 20, least: 1, most: 1000 },
  seed: { usual: 1, least: 0, most: 2 ** 31 },
  every: { usual: 5, least: 1, most: FARTHEST },
} as const;
type NumberName = keyof typeof NUMBERS;

interface Wish {
  readonly numbers: Readonly<Record<NumberName, number>>;
  readonly learners: 'varied' | 'same';
  readonly deck: string | null;
  readonly json: boolean;
  readonly composed: boolean;
}

/** @returns the exit code */
export function runSimulation(args: readonly string[], machine: SimulationMachine): number {
  if (args.includes('--help') || args[0] === 'help') {
    machine.out(HELP);
    return 0;
  }
  const wish = wishOf(args);
  if (typeof wish === 'string') {
    machine.err(`${wish}\n\n${HELP}`);
    return 2;
  }
  const { days, minutes, seeds, seed, every } = wish.numbers;
  if (wish.composed && wish.deck === null) {
    machine.err('--composed needs a --deck: its questions are those of the deck.');
    return 2;
  }
  const asked = wish.deck === null ? PLAIN : askedOf(wish.deck, machine);
  if (typeof asked === 'string') {
    machine.err(asked);
    return 2;
  }
  const course: Course = { days, minutes, seconds: asked.seconds, critical: asked.critical };
  const options = { variety: wish.learners === 'same' ? SAME : VARIED, learners: seeds, seed, every };
  const isComposed = wish.composed && asked.deck !== undefined;
  const run = isComposed ? composed([asked.deck], days, minutes, options) : compare(course, options);
  let told = 0;
  let step = run.next();
  for (; !step.done; step = run.next()) {
    const done = Math.floor(step.value * 20) * 5;
    if (done > told) machine.progress(`${done} %`);
    told = done;
  }
  machine.progress('');
  machine.out(
    wish.json ? JSON.stringify({ ...wish.numbers, ...step.value }, null, 2) : table(course, wish, step.value),
  );
  return 0;
}

function wishOf(args: readonly string[]): Wish | string {
  const numbers: Record<NumberName, number> = { days: 30, minutes: 10, seeds: 20, seed: 1, every: 5 };
  let learners: Wish['learners'] = 'varied';
  let deck: string | null = null;
  let json = false;
  let isComposed = false;
  for (let i = 0; i < args.length; i++) {
    const name = (args[i] as string).replace(/^--/, '');
    if (args[i] === '--json') {
      json = true;
      continue;
    }
    if (args[i] === '--composed') {
      isComposed = true;
      continue;
    }
    const value = args[i + 1];
    if (!(args[i] as string).startsWith('--') || !(name in NUMBERS || name === 'deck' || name === 'learners'))
      return `There is no option “${args[i]}”.`;
    if (value === undefined) return `--${name} needs a value.`;
    i += 1;
    if (name === 'deck') deck = value;
    else if (name === 'learners') {
      if (value !== 'varied' && value !== 'same') return `--learners is varied or same, not “${value}”.`;
      learners = value;
    } else {
      const { least, most } = NUMBERS[name as NumberName];
      const number = Number(value);
      const isFine = name === 'minutes' ? Number.isFinite(number) : Number.isInteger(number);
      if (value.trim() === '' || !isFine || number < least || number > most)
        return `--${name} is a number from ${least} to ${most}, not “${value}”.`;
      numbers[name as NumberName] = number;
    }
  }
  return { numbers, learners, deck, json, composed: isComposed };
}

type Asked = Pick<Course, 'seconds' | 'critical'> & { readonly deck?: Resolved };

const PLAIN: Asked = {
  seconds: Array.from({ length: 200 }, () => 12),
  critical: Array.from({ length: 200 }, () => false),
};

/** Items of a deck with their times, or what is wrong with it. */
function askedOf(file: string, machine: Machine): Asked | string {
  let text: string;
  try {
    text = machine.read(file);
  } catch (error) {
    return `${file} cannot be read: ${error instanceof Error ? error.message : String(error)}`;
  }
  const { deck, findings } = checkText(text, { today: machine.today });
  if (deck === undefined || deck === null)
    return `${file} has ${findings.filter((f) => f.severity === 'error').length} errors. Run: npm run deck -- check ${file}`;
  const resolved = resolve(deck, '0'.repeat(64), {});
  const least = itemSeconds(offers(resolved, null, 1));
  const items = [...resolved.items.values()].filter(({ key }) => least.has(key));
  if (items.length === 0) return `${file} has nothing that is asked.`;
  return {
    seconds: items.map(({ key }) => least.get(key) as number),
    critical: items.map(({ critical }) => critical),
    deck: resolved,
  };
}

const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;

function table({ seconds, critical, days, minutes }: Course, { numbers, learners }: Wish, report: Report): string {
  const { standings, bound, forecast } = report;
  const hasCritical = critical.some((c) => c);
  const rows = [
    ['', 'mean', 'worst tenth', ...(hasCritical ? ['critical'] : []), `${LATER} days on`, 'never met', 'questions'],
    ...standings.map((s) => [
      s.name,
      percent(s.recall),
      percent(s.worst),
      ...(hasCritical ? [s.critical === null ? '' : percent(s.critical)] : []),
      percent(s.later),
      s.unmet.toFixed(1),
      s.asked.toFixed(0),
    ]),
    ...(bound === null ? [] : [['upper bound', percent(bound)]]),
  ];
  const widths = (rows[0] as string[]).map((_, c) => Math.max(...rows.map((row) => (row[c] ?? '').length)));
  const line = (row: readonly string[]) =>
    row.map((cell, c) => (c === 0 ? cell.padEnd(widths[c] as number) : cell.padStart(widths[c] as number))).join('  ');
  return [
    `Recall on the check day: ${seconds.length} items, ${days} days × ${minutes} min, ${numbers.seeds} learners (${learners}), seed ${numbers.seed}`,
    '',
    ...rows.map(line),
    '',
    ...(forecast === null ? [] : [`The plan forecasts ${percent(forecast)} on the first day.`]),
    ...(bound === null
      ? []
      : ['Cramming spends the minutes of all days on the last two, so the bound does not hold for it.']),
    ...(hasCritical && bound !== null
      ? ['The plan gives critical items more weight; the bound is that of the mean over all items.']
      : []),
  ].join('\n');
}
