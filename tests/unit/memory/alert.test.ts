import { describe, expect, test } from 'vitest';
import { fold } from '../../../src/memory/fold.ts';
import { DEFAULT_WEIGHTS, memoryModel } from '../../../src/memory/fsrs.ts';
import { emptyMemory } from '../../../src/memory/step.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';

const KEY = 'd/x#s.cue~z';
interface Given {
  readonly at?: number;
  /** Minutes from UTC. */
  readonly off?: number;
  readonly form?: AnswerEntry['form'];
  readonly sure?: boolean;
  readonly mark?: 'right' | 'wrong';
}

const answer = ({ at = Date.UTC(2026, 10, 1, 12), off = 0, form = 'cue', sure = true, mark = 'wrong' }: Given, n = 1) =>
  ({
    v: 1,
    id: `w.${n}`,
    at,
    off,
    app: 't',
    k: 'answer',
    deck: 'd/x@0123456789abcdef',
    form,
    about: { thing: 's' },
    variant: '',
    shown: {},
    given: {},
    sure,
    ms: 3000,
    marks: { [KEY]: mark },
    g: 0.01,
    mv: 1,
  }) satisfies AnswerEntry;
const memoryAfter = (entries: readonly AnswerEntry[], critical = true) => {
  const facts = { of: () => ({ critical, decision: false }), today: (key: string) => key };
  const memory = emptyMemory(memoryModel(DEFAULT_WEIGHTS));
  fold(entries, facts, memory);
  return memory.items.get(KEY);
};
const alertAfter = (form: AnswerEntry['form'], sure: boolean, critical = true) => {
  const { alert, verdict } = memoryAfter([answer({ form, sure })], critical) ?? {};
  return [verdict, alert];
};

test('what is critical, sure and wrong is an alert; in a paced run, where nobody says so, it is missed and no more', () => {
  expect(alertAfter('cue', true)).toEqual(['missed', 0]);
  expect(alertAfter('cue', false)).toEqual(['missed', null]);
  expect(alertAfter('cue', true, false)).toEqual(['missed', null]);
  expect(alertAfter('paced', true)).toEqual(['missed', null]);
});

describe('right on two days', () => {
  /** After a miss, at noon of the first of the month: right at these times. */
  const right = (...times: readonly (readonly [at: number, off?: number])[]) => {
    const { alert, rightDays } =
      memoryAfter([answer({}), ...times.map(([at, off = 0], i) => answer({ at, off, mark: 'right' }, i + 2))]) ?? {};
    return [alert, rightDays];
  };
  const [day, hour, minute] = [86_400_000, 3_600_000, 60_000];
  const second = Date.UTC(2026, 10, 2, 12);

  test('are two sittings on two days', () => {
    expect(right([second])).toEqual([1, 1]);
    expect(right([second], [second + hour])).toEqual([1, 1]);
    expect(right([second], [second + day])).toEqual([null, 2]);
  });

  test('not one over four in the morning, when the study day ends', () => {
    const four = Date.UTC(2026, 10, 3, 4);
    expect(right([four - 2 * minute], [four + 2 * minute])).toEqual([1, 1]);
    expect(right([four - 2 * minute], [four + 20 * hour])).toEqual([null, 2]);
  });

  test('not one that a flight west put on the day before', () => {
    const seven = Date.UTC(2026, 10, 3, 7);
    expect(right([seven, 120], [seven + 10 * minute, -240])).toEqual([1, 1]);
    expect(right([seven, 120], [seven + 10 * minute, -240], [seven + 30 * hour, -240])).toEqual([null, 2]);
  });

  test('also where it was missed before on the same day', () => {
    const at = second + day;
    const entries = [answer({}), answer({ at: second, mark: 'right' }, 2), answer({ at, sure: false }, 3)];
    expect(memoryAfter([...entries, answer({ at: at + minute, mark: 'right' }, 4)])).toMatchObject({
      alert: 1,
      rightDays: 2,
    });
  });
});
