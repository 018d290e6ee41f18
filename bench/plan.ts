import { serve } from '../scripts/serve.mjs';
import { seeded } from '../src/lib/random.ts';
import { boundOf } from '../src/memory/plan/bound.ts';
import { minutesFor } from '../src/memory/plan/minutes.ts';
import { solvePlan } from '../src/memory/plan/solve.ts';
import type { PlanInput } from '../src/memory/plan/types.ts';
import { worthOf } from '../src/memory/plan/worth.ts';
import { bandsOf } from '../src/memory/simulate/band.ts';
import { VARIED } from '../src/memory/simulate/learner.ts';
import { launch } from '../tests/helpers/browser.ts';
import { bundle } from '../tests/helpers/bundle.ts';

/** Workers tried. */
const RUNS = 7;

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string;
}

const DAY = 20_000;
/** s of a step of a run, a number, a rule. */
const SECONDS = [4, 4, 4, 12, 12, 22] as const;

/** Items as after some weeks, four of ten never met, one of five critical. */
const inputOf = (count: number, days: number): PlanInput => {
  const random = seeded(count);
  const met = Array.from({ length: count }, () => random() > 0.4);
  return {
    items: {
      s: met.map((m) => (m ? 0.3 + 30 * random() ** 2 : 0)),
      d: met.map((m) => (m ? 1 + 9 * random() : 0)),
      gap: met.map((m) => (m ? 1 + Math.floor(random() * 24) : -1)),
      critical: met.map(() => (random() < 0.2 ? 1 : 0)),
      seconds: met.map(() => SECONDS[Math.floor(random() * SECONDS.length)] as number),
    },
    day: DAY,
    checkDay: DAY + days,
    minutes: count / 40,
  };
};

/** ms: least of some runs; what the machine does besides only adds. */
const least = (runs: number, work: () => void): number => {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < runs; i++) {
    const from = performance.now();
    work();
    best = Math.min(best, performance.now() - from);
  }
  return best;
};

const worthOfAll = (count: number): number => {
  const input = inputOf(count, 30);
  const plan = solvePlan(input);
  if (plan === null) throw new Error('The plan was stopped.');
  const { items } = input;
  const list = Array.from({ length: count }, (_, i) => {
    const gap = items.gap[i] as number;
    const memory = gap < 0 ? null : { s: items.s[i] as number, d: items.d[i] as number, day: DAY - gap };
    return { memory, critical: items.critical[i] === 1, seconds: items.seconds[i] as number };
  });
  return least(9, () => void list.map((item) => worthOf(plan, item, DAY)).sort((a, b) => b - a));
};

/** Prices in Chromium, each time in a worker that was just started. */
export const benchPlanInBrowser = async (): Promise<Line[]> => {
  const server = await serve({ dir: 'dist' });
  const headers = { 'Content-Type': 'text/javascript' };
  server.served.extra.set('/plan.js', { body: await bundle('bench/plan-worker.ts'), headers });
  const html = '<!doctype html><title>bench</title>';
  server.served.extra.set('/bench.html', { body: html, headers: { 'Content-Type': 'text/html' } });
  const browser = await launch();
  try {
    await browser.page.goto(`${server.url}bench.html`);
    const timed = async (days: number): Promise<number> => {
      const times: number[] = [];
      for (let run = 0; run < RUNS; run++)
        times.push(
          await browser.page.evaluate(
            (input) =>
              new Promise<number>((told) => {
                const worker = new Worker('./plan.js');
                worker.onmessage = ({ data }: MessageEvent<number>) => {
                  worker.terminate();
                  told(data);
                };
                worker.postMessage(input);
              }),
            inputOf(600, days),
          ),
        );
      return times.sort((a, b) => a - b)[RUNS >> 1] ?? Number.NaN;
    };
    return [
      { name: 'prices, 600 items of 6 classes, 30 days, median', value: await timed(30), unit: 'ms', goal: '≤ 1000' },
      { name: 'the same, 45 days', value: await timed(45), unit: 'ms' },
    ];
  } finally {
    await browser.close();
    await server.close();
  }
};

/** Prices of a plan, what follows from them day by day, and answers to "how many minutes?". */
export const benchPlan = (): Line[] => {
  const unit = 'ms';
  const input = inputOf(600, 30);
  const plan = solvePlan(input);
  if (plan === null) throw new Error('The plan was stopped.');
  return [
    { name: 'prices, 600 items, 30 days', value: least(3, () => void solvePlan(input)), unit, goal: '≤ 1000' },
    { name: '600 items, 45 days', value: least(2, () => void solvePlan(inputOf(600, 45))), unit },
    { name: '10,000 items, 30 days', value: least(2, () => void solvePlan(inputOf(10_000, 30))), unit },
    {
      name: '600 items, from the prices of the day before',
      value: least(3, () => void solvePlan({ ...input, day: DAY + 1, from: plan })),
      unit,
    },
    { name: 'upper bound, 600 items, 30 days', value: least(2, () => void boundOf(input)), unit },
    {
      name: 'band, 20 learners',
      value: least(2, () => void bandsOf(input, plan, { variety: VARIED, learners: 20, seed: 1 })),
      unit,
    },
    { name: 'minutes for 95 %', value: least(1, () => void minutesFor({ ...input, from: plan }, 0.95)), unit },
    { name: 'worth of 1,000 items, sorted', value: worthOfAll(1_000), unit, goal: '≤ 20' },
    { name: 'worth of 10,000 items, sorted', value: worthOfAll(10_000), unit, goal: '≤ 150' },
  ];
};
