import { seeded } from '../src/lib/random.ts';
import { calibrationIndex } from '../src/memory/calibration/loess.ts';
import { fitWeights } from '../src/memory/fit/fit-weights.ts';
import { DEFAULT_WEIGHTS } from '../src/memory/fsrs.ts';
import { before, excessLoss, learnerWeights, practise, predictions, timeOf } from './learner.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string;
}

const SIZES = [
  { answers: 100, items: 30, learners: 60, goal: '≤ 0.0047 where the defaults are 0.0102 off' },
  { answers: 1000, items: 150, learners: 30, goal: '≤ 0.0026' },
  { answers: 10_000, items: 600, learners: 8, goal: '≤ 0.0012' },
] as const;

/** Between these two are the learners of whom the defaults are as far off as the goal says, 0.0102. */
const SPREADS = [0.6, 0.8] as const;

/** Log loss over the truth, on the 1,000 answers that follow; mean over learners. */
export const benchFit = (): Line[] => {
  const lines: Line[] = [];
  for (const spread of SPREADS)
    for (const { answers, items, learners, goal } of SIZES) {
      let byDefault = 0;
      let byFit = 0;
      let accepted = 0;
      let slowest = 0;
      for (let seed = 1; seed <= learners; seed++) {
        const random = seeded(`fit ${spread} ${answers} ${seed}`);
        const all = practise(random, learnerWeights(random, spread), { items, scored: answers + 1000 });
        const time = timeOf(all, answers);
        const early = before(all, time);
        const from = performance.now();
        const fit = fitWeights(early);
        slowest = Math.max(slowest, performance.now() - from);
        byDefault += excessLoss(all, time, DEFAULT_WEIGHTS) / learners;
        byFit += excessLoss(all, time, fit.weights) / learners;
        accepted += fit.accepted ? 1 / learners : 0;
      }
      const about = `${answers} answers, learners ${spread} apart:`;
      lines.push(
        { name: `${about} defaults`, value: byDefault, unit: 'nats' },
        { name: `${about} fit, where accepted`, value: byFit, unit: 'nats', goal },
        { name: `${about} accepted`, value: 100 * accepted, unit: '%' },
      );
      if (answers === 10_000) lines.push({ name: `${about} slowest fit`, value: slowest, unit: 'ms', goal: '≤ 1000' });
    }
  return lines;
};

/**
 * How far predictions are from what comes, after 300 answers: on the 1,000 answers that follow, of learners with
 * weights of their own and with good and bad days; pooled over learners, so that it is not the luck of one of them.
 */
export const benchCalibration = (): Line[] => {
  const learners = 40;
  const byDefault: { p: number; right: boolean }[] = [];
  const byFit: typeof byDefault = [];
  const each: number[] = [];
  for (let seed = 1; seed <= learners; seed++) {
    const random = seeded(`calibration ${seed}`);
    const all = practise(random, learnerWeights(random, 0.7), { items: 100, scored: 1300, moods: 0.3 });
    const time = timeOf(all, 300);
    const { weights } = fitWeights(before(all, time));
    const said = (w: readonly number[]) => predictions(all, time, w).map(({ said, right }) => ({ p: said, right }));
    byDefault.push(...said(DEFAULT_WEIGHTS));
    const own = said(weights);
    byFit.push(...own);
    each.push(calibrationIndex(own) as number);
  }
  return [
    { name: 'ICI after 300 answers, defaults', value: calibrationIndex(byDefault) as number, unit: '' },
    { name: 'ICI after 300 answers, own weights', value: calibrationIndex(byFit) as number, unit: '', goal: '< 0.05' },
    {
      name: 'the same learner by learner, mean',
      value: each.reduce((sum, one) => sum + one, 0) / learners,
      unit: '',
      goal: '< 0.05',
    },
  ];
};
