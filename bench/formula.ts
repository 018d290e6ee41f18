import { compile, treeOf } from '../src/formula/evaluate.ts';
import { parse } from '../src/formula/parse.ts';
import type { Environment } from '../src/formula/tree.ts';

/** Invented, of the length that decks have. */
const FORMULAS = [
  'abs(crosswind(windDir, windSpeed, runway))',
  'max(0, -headwind(windDir, windSpeed, runway))',
  'tail > 0 || cross > 18',
  'cross >= 2 && tail <= limit("tail-limit")',
  'sum > 360 ? sum - 360 : (sum <= 0 ? sum + 360 : sum)',
  'altitude + 120 * (oat - isaTemperature(altitude))',
];
const ENVIRONMENT: Environment = {
  names: { windDir: 210, windSpeed: 17, runway: 250, tail: 0, cross: 11, sum: 370, altitude: 4000, oat: 22 },
  limit: () => 10,
  lookup: () => Number.NaN,
};

/** Times a second that `work` is done for one formula; runs for half a second after a warm-up. */
function rate(work: () => void): number {
  for (let i = 0; i < 2_000; i++) work();
  const start = performance.now();
  let rounds = 0;
  let spent = 0;
  while (spent < 500) {
    for (let i = 0; i < 500; i++) work();
    rounds += 500;
    spent = performance.now() - start;
  }
  return (1000 * rounds * FORMULAS.length) / spent;
}

/** Formulas a second: read, made ready, evaluated. */
export function benchFormula(): { readonly name: string; readonly value: number; readonly unit: string }[] {
  const trees = FORMULAS.map((text) => treeOf(parse(text)));
  const runs = trees.map((tree) => compile(tree));
  const unit = 'formulas/s';
  return [
    { name: 'read from text', value: rate(() => FORMULAS.forEach((text) => void parse(text))), unit },
    { name: 'made ready', value: rate(() => trees.forEach((tree) => void compile(tree))), unit },
    { name: 'evaluated', value: rate(() => runs.forEach((run) => void run(ENVIRONMENT))), unit },
  ];
}
