import { signal } from '@preact/signals';
import { describe, expect, test, vi } from 'vitest';
import type { Session } from '../../../src/drill/types.ts';
import { toLine } from '../../../src/log/line.ts';
import { toCheckpoint } from '../../../src/memory/checkpoint.ts';
import type { Fit } from '../../../src/memory/fit/fit-weights.ts';
import { DEFAULT_WEIGHTS } from '../../../src/memory/fsrs.ts';
import { OWN_MEMORY, type OwnWeights } from '../../../src/memory/own-weights.ts';
import type { Entry } from '../../../src/model/entry.ts';
import type { Device } from '../../../src/ui/device.ts';
import type { Learner } from '../../../src/ui/models/learner.ts';
import { fittedInUse, fitWhenDue, ownMemoryWords } from '../../../src/ui/models/own-memory.ts';
import { fitLines } from '../../../src/workers/fit.ts';
import { foldLines } from '../../../src/workers/fold.ts';
import { AT, answered, type Bench, benchOf, DAY, LIMITS } from './learners.ts';

const THINGS = ['one', 'two', 'three', 'four'];
const DONE = { now: { kind: 'done', why: 'time' } } as Session;
const ASKING = { now: { kind: 'ask' } } as Session;

const linesOf = async (bench: Bench): Promise<string[]> => (await bench.entries()).map(toLine);

/** A learner who has answered all four limits on so many days, forgetting more than others do. */
const practised = async (days: number, fit: Device['fit']) => {
  const bench = await benchOf(LIMITS, { fit });
  const lines = Array.from({ length: days }, (_, day) =>
    THINGS.map((thing, i): string => {
      const said = answered(bench.learner, thing, (day + i) % 3 === 0 ? 'right' : 'wrong', false);
      const at = AT + 60_000 + day * DAY + i * 30_000;
      return toLine({ ...said, v: 1, id: `old.${day * 4 + i + 1}`, app: 'test', at, off: 0 } as Entry);
    }),
  ).flat();
  await bench.store.log.merge(lines);
  bench.at = AT + (days - 1) * DAY + 3_600_000;
  await bench.learner.reload();
  bench.refolds = 0;
  return { bench, ...bench };
};

/** The fit as the worker does it. */
const really =
  (bench: () => Bench): Device['fit'] =>
  async (_, facts) =>
    fitLines({ ...facts, lines: await linesOf(bench()) });

const weightsOf = (learner: Learner) => learner.memory.value.model.weights;

/** Live memory against the fold of all that is in the log. */
const expectFold = async (bench: Bench, learner: Learner, weights?: readonly number[]) => {
  const lines = await linesOf(bench);
  const { value } = foldLines({ ...learner.facts(), lines, ...(weights !== undefined && { weights }) });
  const live = learner.memory.value;
  expect(toCheckpoint(live)).toEqual(value);
};

describe('after a drill', () => {
  test('before 200 predicted answers nothing is worked out', async () => {
    const fit = vi.fn<Device['fit']>();
    const { learner } = await practised(50, fit);
    expect(learner.memory.value.predicted).toBe(196);
    await fitWhenDue(learner, signal(DONE));
    expect(fit).not.toHaveBeenCalled();
  });

  test('own weights are kept, folded with, live too, and taken up after a reload without a fold; and back', async () => {
    let bench: Bench | undefined;
    const made = await practised(
      60,
      really(() => bench as Bench),
    );
    bench = made.bench;
    const { learner, store } = made;
    await fitWhenDue(learner, signal(DONE));
    const { fit, upTo } = (await store.device.get('weights')) as OwnWeights;
    expect(fit).toMatchObject({ accepted: true, why: 'better', answers: 236 });
    expect(upTo).toBe(learner.memory.value.upTo?.[0]);
    expect(weightsOf(learner)).toEqual(fit.weights);
    expect(fit.weights).not.toEqual(DEFAULT_WEIGHTS);
    expect(await fittedInUse(learner)).toEqual({ weights: fit.weights, upTo });
    expect(bench.refolds).toBe(1);
    bench.at += DAY;
    const { outcome } = await learner.append(answered(learner, 'one', 'right'));
    expect(Object.values(outcome?.predicted ?? {})).toHaveLength(1);
    await expectFold(bench, learner, fit.weights);

    // Nothing new was answered: no second fit, no second fold.
    await fitWhenDue(learner, signal(DONE));
    const again = await bench.again();
    expect(weightsOf(again)).toEqual(fit.weights);
    expect(bench.refolds).toBe(1);

    await again.set(OWN_MEMORY, false);
    expect(weightsOf(again)).toEqual(DEFAULT_WEIGHTS);
    await expectFold(bench, again, fit.weights);
    await expectFold(bench, again);
    expect(await fittedInUse(again)).toBeNull();
    const usual = await bench.again();
    expect(weightsOf(usual)).toEqual(DEFAULT_WEIGHTS);
    expect(bench.refolds).toBe(2);
    await usual.set(OWN_MEMORY, true);
    await expectFold(bench, usual, fit.weights);
    expect(weightsOf(usual)).toEqual(fit.weights);
  });

  test('weights that were refused are remembered as tried, and nothing is folded anew', async () => {
    const refused: Fit = {
      weights: DEFAULT_WEIGHTS,
      accepted: false,
      why: 'worse',
      answers: 236,
      used: 236,
      heldOut: 94,
      logLoss: { default: 0.4, fitted: 0.41 },
    };
    const fit = vi.fn<Device['fit']>(async () => refused);
    const { bench, learner, store } = await practised(60, fit);
    await fitWhenDue(learner, signal(DONE));
    await fitWhenDue(learner, signal(DONE));
    expect(fit).toHaveBeenCalledTimes(1);
    expect(await store.device.get('weights')).toMatchObject({ fit: refused });
    expect(weightsOf(learner)).toEqual(DEFAULT_WEIGHTS);
    expect(bench.refolds).toBe(0);
  });

  test('a drill that begins stops it; the end of that drill tries again', async () => {
    const session = signal<Session | null>(DONE);
    let stopped = 0;
    const { learner, store } = await practised(60, (_, __, stop) => {
      const given = new Promise<Fit>((_done, failed) =>
        stop.addEventListener('abort', () => {
          stopped += 1;
          failed(stop.reason);
        }),
      );
      // The next drill begins while it is at work.
      session.value = ASKING;
      return given;
    });
    await fitWhenDue(learner, session);
    session.value = DONE;
    await fitWhenDue(learner, session);
    expect(stopped).toBe(2);
    expect(await store.device.get('weights')).toBeUndefined();
    expect(weightsOf(learner)).toEqual(DEFAULT_WEIGHTS);
  });

  test('whatever fails, the usual weights stay, and nobody is troubled', async () => {
    const { learner, store } = await practised(60, async () => {
      throw new Error('The worker was killed.');
    });
    await fitWhenDue(learner, signal(DONE));
    expect(weightsOf(learner)).toEqual(DEFAULT_WEIGHTS);
    expect(learner.problem.value).toBeNull();
    expect(await store.device.get('weights')).toBeUndefined();
  });

  test('not wanted: not worked out', async () => {
    const fit = vi.fn<Device['fit']>();
    const { learner } = await practised(60, fit);
    await learner.set(OWN_MEMORY, false);
    await fitWhenDue(learner, signal(DONE));
    expect(fit).not.toHaveBeenCalled();
  });

  test.each([
    ['nothing', undefined],
    ['another thing', 7],
    ['weights of another count', { fit: { accepted: true, weights: [1, 2, 3] } }],
    ['no numbers', { fit: { accepted: true, weights: DEFAULT_WEIGHTS.map(() => Number.NaN) } }],
  ])('a record that is of no use (%s) is as none', async (_, kept) => {
    const bench = await benchOf(LIMITS);
    await bench.store.device.put('weights', kept);
    expect(weightsOf(await bench.again())).toEqual(DEFAULT_WEIGHTS);
  });
});

describe('in words', () => {
  const fit: Fit = {
    weights: DEFAULT_WEIGHTS,
    accepted: true,
    why: 'better',
    answers: 431,
    used: 431,
    heldOut: 172,
    logLoss: { default: 0.441, fitted: 0.4071 },
  };
  // 23:30 UTC on the second is half past one on the third, two hours east.
  const at = Date.parse('2026-12-02T23:30:00Z');
  const first = (last: OwnWeights | null, predicted: number, wanted = true) =>
    ownMemoryWords(last, predicted, wanted, 2026, 120)[0];

  test('too few answers so far, enough for the next drill, or not wanted', () => {
    expect(first(null, 120)).toBe('The usual values: 120 of 200 answers so far.');
    expect(first(null, 240)).toBe('The usual values: your own are worked out after the next drill, from 240 answers.');
    expect(first(null, 120, false)).toBe('The usual values, as you chose.');
  });

  test('own values in use, and not in use', () => {
    expect(first({ fit, at, upTo: at }, 450)).toBe(
      'Your own values, fitted to 431 answers on Thursday 3 December: they predicted later answers better (log loss 0.41 against 0.44, less is better).',
    );
    expect(first({ fit, at, upTo: at }, 450, false)).toBe(
      'The usual values, as you chose. Your own, fitted to 431 answers on Thursday 3 December, predicted later answers better (log loss 0.41 against 0.44, less is better).',
    );
  });

  test('tried and refused', () => {
    const refused = { ...fit, accepted: false, why: 'worse' } as const;
    expect(first({ fit: refused, at, upTo: at }, 450)).toBe(
      'The usual values. Your own were tried with 431 answers on Thursday 3 December and predicted later answers no better, so the usual ones stay.',
    );
    expect(first({ fit: refused, at, upTo: at }, 450, false)).toBe('The usual values, as you chose.');
  });
});
