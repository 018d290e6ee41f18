import { expect, test } from 'vitest';
import { fold } from '../../../src/memory/fold.ts';
import { DEFAULT_WEIGHTS, memoryModel } from '../../../src/memory/fsrs.ts';
import { emptyMemory } from '../../../src/memory/step.ts';
import type { AnswerEntry } from '../../../src/model/entry.ts';

const KEY = 'd/x#s.cue~z';
const alertAfter = (form: AnswerEntry['form'], sure: boolean, critical = true) => {
  const entry: AnswerEntry = {
    v: 1,
    id: 'w.1',
    at: Date.UTC(2026, 10, 1, 12),
    off: 0,
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
    marks: { [KEY]: 'wrong' },
    g: 0.01,
    mv: 1,
  };
  const facts = { of: () => ({ critical, decision: false }), today: (key: string) => key };
  const memory = emptyMemory(memoryModel(DEFAULT_WEIGHTS));
  fold([entry], facts, memory);
  const { alert, verdict } = memory.items.get(KEY) ?? { alert: undefined, verdict: undefined };
  return [verdict, alert];
};

test('what is critical, sure and wrong is an alert; in a paced run, where nobody says so, it is missed and no more', () => {
  expect(alertAfter('cue', true)).toEqual(['missed', 0]);
  expect(alertAfter('cue', false)).toEqual(['missed', null]);
  expect(alertAfter('cue', true, false)).toEqual(['missed', null]);
  expect(alertAfter('paced', true)).toEqual(['missed', null]);
});
