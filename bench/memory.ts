import { default_w, FSRSAlgorithm } from 'ts-fsrs';
import { gapDays, studyDay } from '../src/log/study-day.ts';
import { toCheckpoint } from '../src/memory/checkpoint.ts';
import { fold } from '../src/memory/fold.ts';
import { createKeeper } from '../src/memory/keeper.ts';
import type { Facts } from '../src/memory/types.ts';
import type { AnswerEntry } from '../src/model/entry.ts';

interface Line {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly goal?: string;
}

const FACTS: Facts = { of: () => ({ critical: false, decision: false }), today: (key) => key };
const START = Date.UTC(2026, 0, 1, 18);
const DAY = 86_400_000;

/** Answers of five items each, some hundred a day, as whole runs give them. */
const entries = (answers: number, items: number): AnswerEntry[] =>
  Array.from({ length: answers }, (_, n): AnswerEntry => {
    const first = (n * 5) % items;
    const keys = [0, 1, 2, 3, 4].map((i) => `bench/deck#step-${first + i}.place~x`);
    return {
      v: 1,
      id: `bench.${n + 1}`,
      at: START + Math.floor(n / 40) * DAY + (n % 40) * 30_000,
      off: 0,
      app: 'bench',
      k: 'answer',
      deck: 'bench/deck@0123456789abcdef',
      form: 'run',
      about: { thing: 'p' },
      variant: '',
      shown: { form: 'run', chips: keys.map((id) => ({ id, text: id })) },
      given: { order: [] },
      sure: n % 7 !== 0,
      ms: 9000 + (n % 11) * 400,
      marks: Object.fromEntries(keys.map((key, i) => [key, (n + i) % 9 === 0 ? 'wrong' : 'right'])),
      g: 0.01,
      mv: 1,
    };
  });

/** Least of some runs, ms, turn about: what the machine does besides only adds. */
const least = (runs: number, ...works: (() => void)[]): number[] => {
  const best = works.map(() => Number.POSITIVE_INFINITY);
  for (let i = 0; i < runs; i++)
    works.forEach((work, k) => {
      const from = performance.now();
      work();
      best[k] = Math.min(best[k] ?? 0, performance.now() - from);
    });
  return best;
};

/** 100,000 item updates through the fold, against the bare model with a map and study days. */
export const benchFold = (): Line[] => {
  const log = entries(20_000, 600);
  const model = new FSRSAlgorithm({ w: default_w });
  const loop = () => {
    const states = new Map<string, { stability: number; difficulty: number; day: number; at: number }>();
    for (const { at, off, marks, sure } of log) {
      const day = studyDay(at, off);
      for (const key of Object.keys(marks)) {
        const before = states.get(key);
        const grade = marks[key] === 'wrong' ? 1 : sure ? 3 : 2;
        const gap = before === undefined ? 0 : gapDays(before, { day, at });
        const after = model.next_state(before ?? null, gap, grade);
        states.set(key, { stability: after.stability, difficulty: after.difficulty, day, at });
      }
    }
  };
  const [bare = 0, whole = 0] = least(15, loop, () => void fold(log, FACTS));
  return [
    { name: 'bare loop with map and study day, 100,000 updates', value: bare, unit: 'ms' },
    { name: 'fold of the same log', value: whole, unit: 'ms' },
    { name: 'ratio', value: whole / bare, unit: '×', goal: '≤ 1.5' },
  ];
};

/** What a start computes: 600 items from a checkpoint, and a tail of 20 answers. */
export const benchCheckpoint = (): Line[] => {
  const log = entries(20_000, 600);
  const value = structuredClone(toCheckpoint(fold(log.slice(0, -20), FACTS)));
  const [ms = 0] = least(20, () => {
    const keeper = createKeeper({ checkpoint: value, entries: log.length - 20, tail: log.slice(-20), facts: FACTS });
    if (keeper?.entries !== log.length) throw new Error('the checkpoint was not taken up');
  });
  return [{ name: 'checkpoint of 600 items and 20 answers', value: ms, unit: 'ms', goal: 'with its reading ≤ 20' }];
};
