import { expect, test } from 'vitest';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import { choicesFor } from '../../../../src/ui/workshop/fields/choices.ts';
import type { Refer } from '../../../../src/ui/workshop/fields/spec.ts';

const DOC: Json = {
  crew: [
    { id: 'PM', label: 'Monitoring' },
    { id: 'FE', label: 'Engineer' },
  ],
  day: [{ id: 'v1', label: 'V1' }],
  conditions: [
    { id: 'cold', label: 'Cold', yes: 'Cold', no: 'Warm' },
    { id: 'flaps', label: 'Flaps', options: { one: '1' } },
  ],
  procedures: [
    {
      id: 'p',
      title: 'Roll',
      done: 'memory',
      steps: [
        { id: 'a', do: 'First' },
        { id: 'b', steps: [{ lanes: [[{ id: 'c', say: 'Second' }], [{ use: 'shared' }]] }] },
        'odd',
      ],
    },
    {
      id: 'q',
      title: 'Climb',
      done: 'flow',
      steps: [
        { id: 'shared', steps: [{ id: 'd', do: 'Third' }] },
        { id: 'e', do: 'Fourth' },
      ],
    },
    { id: 'list', title: 'List', done: 'read-and-do', steps: [{ id: 'f', do: 'Fifth' }] },
  ],
  limits: [
    { id: 'gate', ask: 'Gate height', unit: 'ft', sense: 'exactly' },
    { id: 'colour', ask: 'Colour', options: { red: 'Red', blue: '' } },
    { id: 'table', ask: 'Table', table: {} },
    { ask: 'Without an id' },
  ],
  areas: [{ label: 'Overhead', x: 0 }, { label: '' }, {}],
  paced: [{ procedures: ['q'] }, { procedures: ['q', 'p', 'gone', 4] }],
  scenarios: [
    {
      id: 's',
      title: 'Wind',
      asks: [
        { id: 'n', ask: 'How much' },
        { id: 'c', ask: 'What', choose: { options: { go: 'Go' } } },
      ],
    },
  ],
};

const ids = (refer: Refer, path: string): string =>
  choicesFor(DOC, refer, path)
    .map(([id]) => id)
    .join(' ');

test.each<[Refer, string, string]>([
  ['limit', '/procedures/0/steps/0/limit', 'gate colour table'],
  ['number-limit', '/procedures/0/steps/0/after/atLeast/limit', 'gate'],
  ['day', '/procedures/0/steps/0/cue/day', 'v1'],
  ['yes-no', '/procedures/0/steps/0/cue/event', 'cold'],
  ['scenario-ask', '/procedures/0/steps/0/rule', 's#n s#c'],
  ['block', '/procedures/0/steps/1/use', 'b shared'],
  ['crew', '/procedures/0/steps/0/by', 'PF both either PM FE'],
  // Those of the own procedure, and of the block that it takes.
  ['step', '/procedures/0/steps/0/answers', 'a c d'],
  ['step-or-block', '/procedures/0/steps/0/needs/0', 'a c d b shared'],
  ['step', '/procedures/1/steps/0/answers', 'd e'],
  ['played', '/paced/0/procedures/0', 'p q'],
  ['played-step', '/paced/0/cues/0/step', 'd e'],
  ['played-step', '/paced/1/cues/0/after', 'a c d e'],
  ['area', '/procedures/0/steps/0/where', 'Overhead'],
  ['option', '/limits/1/is', 'red blue'],
  ['option', '/limits/1/cases/0/is', 'red blue'],
  ['option', '/scenarios/0/asks/1/choose/rules/0/then/0', 'go'],
  ['option', '/limits/0/is', ''],
])('%s at %s: %s', (refer, path, wanted) => {
  expect(ids(refer, path)).toBe(wanted);
});

test('are told in words', () => {
  expect(choicesFor(DOC, 'limit', '')[0]).toEqual(['gate', 'Gate height (gate)']);
  expect(choicesFor(DOC, 'scenario-ask', '')[0]).toEqual(['s#n', 'Wind: How much (n)']);
  expect(choicesFor(DOC, 'block', '')[1]).toEqual(['shared', 'Climb: Block shared']);
  expect(choicesFor(DOC, 'option', '/limits/1/is')[1]).toEqual(['blue', 'blue']);
});
