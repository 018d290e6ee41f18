import { describe, expect, test } from 'vitest';
import { idsIn } from '../../../../src/draft/blank.ts';
import { knownOf } from '../../../../src/draft/paste/known.ts';
import { type Choices, choicesFor, propose } from '../../../../src/draft/paste/propose.ts';
import { recognise } from '../../../../src/draft/paste/recognise.ts';
import { fateWords, summary } from '../../../../src/draft/paste/report.ts';
import { readRows } from '../../../../src/exchange/rows.ts';
import type { Json } from '../../../../src/lib/canonical-json.ts';
import type { Node, Step } from '../../../../src/model/deck.ts';

const known = knownOf({});

const paste = (text: string, nodes: readonly Node[], more: Partial<Choices> = {}) => {
  const { readings } = recognise(readRows(text), known);
  const choices = { ...choicesFor(readings, nodes), ...more };
  return propose(readings, nodes, idsIn(nodes as unknown as Json), known, choices);
};

const step = (id: string, words: string, more: Partial<Step> = {}): Step => ({ id, do: words, ...more });

/** Ids by list, blocks and lanes in brackets. */
const shape = (nodes: readonly Node[]): string =>
  nodes
    .map((node) => {
      if ('use' in node) return `use ${node.use}`;
      if ('lanes' in node) return `[${node.lanes?.map(shape).join(' | ')}]`;
      if ('steps' in node) return `(${shape(node.steps as Node[])})`;
      return (node as Step).id;
    })
    .join(' ');

const ROLL: readonly Step[] = [
  step('levers', 'Thrust levers to take-off', {
    by: 'PF',
    why: 'It is the first.',
    slip: 'Too soon',
    cue: { day: 'v1' },
  }),
  step('timer', 'Start the timer', { by: 'PM', source: 'som#1' }),
  { id: 'hundred', by: 'PM', say: 'One hundred', critical: true },
  { id: 'checked', by: 'PF', say: 'Checked', answers: 'hundred' },
];

describe('a revised list', () => {
  test('keeps the id and all that the list does not speak of; the same, reworded, moved, new and gone are told', () => {
    const proposal = paste(
      '1. PM: "One hundred"\n2. PF: Thrust levers to take-off setting\n3. PM: Start the timer\n4. PM: Landing lights off',
      ROLL,
    );
    expect(proposal.nodes).toEqual([
      ROLL[2],
      { ...ROLL[0], do: 'Thrust levers to take-off setting' },
      ROLL[1],
      { id: 'landing-lights-off', by: 'PM', do: 'Landing lights off' },
    ]);
    expect(proposal.lines.map(fateWords)).toEqual(['The same · moved', 'Changed: action', 'The same', 'New']);
    expect(proposal.gone).toEqual([{ step: ROLL[3], namedBy: [] }]);
    expect(summary(proposal, true)).toBe(
      '4 steps read: 2 the same, 1 changed, 1 moved, 1 new. 1 step of the procedure no longer in the list.',
    );
  });

  test('the same list changes nothing', () => {
    const text = 'PF: Thrust levers to take-off\nPM: Start the timer\nPM: "One hundred"\nPF: "Checked"';
    expect(paste(text, ROLL)).toMatchObject({ isSame: true, nodes: ROLL });
  });

  test('a step that others name says so when it goes', () => {
    const { gone } = paste('PF: Thrust levers to take-off\nPF: "Checked"', ROLL);
    expect(gone.map(({ step: { id }, namedBy }) => [id, namedBy])).toEqual([
      ['timer', []],
      ['hundred', ['checked']],
    ]);
  });

  test('a step that is kept stays behind the one before it', () => {
    const { nodes } = paste('PF: "Checked"\nPF: Thrust levers to take-off', ROLL, {
      keep: new Set(['timer', 'hundred']),
    });
    expect(shape(nodes)).toBe('checked levers timer hundred');
  });

  test('a row that the author calls a new step gets an id of its own, and the step of before is gone', () => {
    const { nodes, gone } = paste('PM: Start the timer', ROLL.slice(1, 2), { apart: new Set([0]) });
    expect(shape(nodes)).toBe('start-timer');
    expect(gone.map(({ step: { id } }) => id)).toEqual(['timer']);
  });

  test('an action that became a callout is said, no longer done', () => {
    const { nodes } = paste('PM: "Start the timer"', ROLL.slice(1, 2));
    expect(nodes).toEqual([{ id: 'timer', by: 'PM', say: 'Start the timer', source: 'som#1' }]);
  });

  test('a cue that names a value of the day is not overwritten by words of a line; by a column it is', () => {
    expect(paste('PF: At V1: thrust levers to take-off', ROLL.slice(0, 1)).isSame).toBe(true);
    const { nodes } = paste('crew,action,cue\nPF,Thrust levers to take-off,Cleared', ROLL.slice(0, 1));
    expect(nodes).toEqual([{ ...ROLL[0], cue: { text: 'Cleared' } }]);
  });

  test('an empty cell takes nothing away', () => {
    expect(paste('crew,action,callout,why,slip\n,Thrust levers to take-off,,,', ROLL.slice(0, 1)).isSame).toBe(true);
  });

  test('steps of the same words are told apart by crew and place', () => {
    const nodes = [
      step('a', 'Check', { by: 'PF' }),
      step('x', 'Timer'),
      step('b', 'Check', { by: 'PM' }),
      step('y', 'Lights'),
      step('c', 'Check', { by: 'PF' }),
    ];
    const { nodes: next } = paste('PM: Check\nTimer\nPF: Check\nLights\nPF: Check', nodes);
    expect(shape(next)).toBe('b x a y c');
  });

  test('the best pairs as a whole, not one row after the other', () => {
    const nodes = [step('one', 'Set engine one lever to idle'), step('two', 'Set engine two lever to idle')];
    // The first row alone would take the step that the second needs.
    const { nodes: next } = paste('1. Set engine two levers to idle\n2. Set engine two lever to idle', nodes);
    expect(next).toEqual([step('one', 'Set engine two levers to idle'), step('two', 'Set engine two lever to idle')]);
  });
});

describe('blocks and lanes that are there', () => {
  const NODES: readonly Node[] = [
    step('start', 'Release the brakes'),
    {
      lanes: [
        [step('pf1', 'Set thrust', { by: 'PF' }), step('pf2', 'Hold the stick', { by: 'PF' })],
        [step('pm1', 'Start the timer', { by: 'PM' }), step('pm2', 'Monitor engines', { by: 'PM' })],
      ],
    },
    { if: 'fire', steps: [step('bell', 'Cancel the bell')] },
    { use: 'shared-block' },
    step('end', 'Select heading mode'),
  ];
  const LIST = [
    'Release the brakes',
    'PF: Set thrust',
    'PM: Start the timer',
    'PF: Hold the stick',
    'PM: Monitor engines',
    'Cancel the bell',
    'Select heading mode',
  ];
  const numbered = (list: readonly string[]) => list.map((one, i) => `${i + 1}. ${one}`).join('\n');

  test('lanes interleave as they may: nothing moves', () => {
    const proposal = paste(numbered(LIST), NODES);
    expect(proposal.isSame).toBe(true);
    expect(proposal.lines.some(({ moved }) => moved)).toBe(false);
  });

  test('a new step goes to its pilot’s lane, behind the rows before it', () => {
    const list = [...LIST.slice(0, 4), 'PM: Look at the ammeter', ...LIST.slice(4)];
    expect(shape(paste(numbered(list), NODES).nodes)).toBe(
      'start [pf1 pf2 | pm1 look-ammeter pm2] (bell) use shared-block end',
    );
  });

  test('between two things it goes between them; at the end, to the end', () => {
    const list = [...LIST.slice(0, 5), 'Read the checklist aloud', ...LIST.slice(5), 'Stow the trays'];
    expect(shape(paste(numbered(list), NODES).nodes)).toBe(
      'start [pf1 pf2 | pm1 pm2] read-checklist-aloud (bell) use shared-block end stow-trays',
    );
  });

  test('a step that leaves its block moves alone; a block that is empty is gone', () => {
    const list = [LIST[5] as string, ...LIST.slice(0, 5), LIST[6] as string];
    const { nodes, lines } = paste(numbered(list), NODES);
    expect(shape(nodes)).toBe('bell start [pf1 pf2 | pm1 pm2] use shared-block end');
    expect(lines.map(({ moved }) => moved)).toEqual([true, false, false, false, false, false, false]);
  });

  test('the list’s own shape takes their place where the author says so', () => {
    expect(shape(paste(numbered(LIST), NODES, { shape: 'list' }).nodes)).toBe('start pf1 pm1 pf2 pm2 bell end');
  });

  test('what is not yet right in a draft stays where it is', () => {
    const nodes = [
      step('a', 'Release the brakes'),
      { lanes: [[]] },
      'half a step',
      { steps: 3 },
      { do: 'No id' },
    ] as unknown as Node[];
    expect(paste('Release the brakes', nodes)).toMatchObject({ isSame: true, nodes });
  });
});

describe('a table with a column for each pilot', () => {
  const TABLE = 'PF\tPM\nSet thrust\tStart the timer\nHold the stick\t\n\t"One hundred"\n"Checked"\tMonitor engines';

  test('two lanes, each in its own order', () => {
    expect(shape(paste(TABLE, []).nodes)).toBe(
      '[set-thrust hold-stick checked | start-timer one-hundred monitor-engines]',
    );
  });

  test('row by row where the author says so: side by side only what stands in one row', () => {
    expect(shape(paste(TABLE, [], { order: 'rows' }).nodes)).toBe(
      '[set-thrust | start-timer] hold-stick one-hundred [checked | monitor-engines]',
    );
  });

  test('pasted again it changes nothing, either way', () => {
    for (const order of ['columns', 'rows'] as const) {
      const { nodes } = paste(TABLE, [], { order });
      expect(paste(TABLE, nodes, { order })).toMatchObject({ isSame: true });
    }
  });

  test('a row more goes into its lane', () => {
    const { nodes } = paste(TABLE, []);
    const more = TABLE.replace('\t"One hundred"', 'Feet on the pedals\t"One hundred"');
    expect(shape(paste(more, nodes).nodes)).toBe(
      '[set-thrust hold-stick feet-pedals checked | start-timer one-hundred monitor-engines]',
    );
    const last = `${TABLE}\n\tLights off`;
    expect(shape(paste(last, nodes).nodes)).toBe(
      '[set-thrust hold-stick checked | start-timer one-hundred monitor-engines lights-off]',
    );
  });

  test('a plain list becomes lanes and keeps its ids', () => {
    const nodes = [step('a', 'Set thrust', { by: 'PF', why: 'So' }), step('b', 'Start the timer', { by: 'PM' })];
    const proposal = paste('PF\tPM\nSet thrust\tStart the timer', nodes);
    expect(proposal.nodes).toEqual([{ lanes: [[nodes[0]], [nodes[1]]] }]);
  });
});

test('a response answers the callout before it, by another', () => {
  const { nodes } = paste('PM calls "One hundred"\nPM: Start the timer\nPF responds "Checked"', []);
  expect(nodes[2]).toEqual({ id: 'checked', by: 'PF', say: 'Checked', answers: 'one-hundred' });
});

test('ids are unique in the deck', () => {
  const { readings } = recognise(readRows('Gear up\nGear up\nGear up'), known);
  const { nodes } = propose(readings, [], new Set(['gear-up']), known, choicesFor(readings, []));
  expect(shape(nodes)).toBe('gear-up-2 gear-up-3 gear-up-4');
});
