import { describe, expect, test } from 'vitest';
import type { Deck, Limit, Procedure, Scenario } from '../../../src/model/deck.ts';
import { parseItemKey } from '../../../src/model/item.ts';
import { resolved, rule as ruleOf } from '../forms/small-decks.ts';

/** Every number here is invented. */
const procedure: Procedure = {
  id: 'flow',
  title: 'Flow',
  done: 'flow',
  steps: [
    { id: 'a', do: 'Lamp on', by: 'PF', cue: { text: 'Cleared' } },
    { id: 'b', say: 'One hundred', by: 'PM', cue: { limit: 'gate' } },
    { id: 'c', do: 'Valve shut', by: 'PF' },
  ],
};
const gate: Limit = { id: 'gate', ask: 'Gate height', unit: 'ft', sense: 'at least', value: 300 };
const bank: Limit = { id: 'bank', ask: 'Bank', options: { left: 'Left', right: 'Right' }, is: 'left' };
const scenario: Scenario = {
  id: 'case',
  situation: '{x}',
  draw: { x: { from: 0, to: 400 } },
  let: { y: 'x * 2' },
  asks: [
    { id: 'n', ask: 'How much?', number: 'y + 1', unit: 'ft' },
    {
      id: 'c',
      ask: 'What?',
      choose: {
        options: { go: 'Go', stop: 'Stop' },
        rules: [ruleOf('high', 'y > limit("gate")', ['go']), ruleOf('low', '', ['stop'])],
      },
    },
  ],
};
const base: Partial<Deck> = { procedures: [procedure], limits: [gate, bank], scenarios: [scenario] };

/** thing.facet → stamp */
const stamps = (content: Partial<Deck>): Record<string, string> =>
  Object.fromEntries(
    [...resolved(content).items.keys()].map((key) => {
      const p = parseItemKey(key);
      return [`${p?.thing}.${p?.facet}`, p?.stamp as string];
    }),
  );
const first = stamps(base);
/** What of the base deck has another stamp, or is gone, or is new. */
const changed = (content: Partial<Deck>): string[] => {
  const now = stamps({ ...base, ...content });
  return [...new Set([...Object.keys(first), ...Object.keys(now)])].filter((k) => first[k] !== now[k]).sort();
};
const withStep = (i: number, more: object): Partial<Deck> => ({
  procedures: [{ ...procedure, steps: procedure.steps.map((s, k) => (k === i ? { ...s, ...more } : s)) }],
});

test('every facet that is authored is an item, and no other', () => {
  expect(Object.keys(first).sort()).toEqual(
    ['a.crew', 'a.cue', 'a.place', 'b.crew', 'b.cue', 'b.place', 'b.words', 'bank.value.standard', 'c.crew', 'c.place']
      .concat(['case.c.high', 'case.c.low', 'case.n.number', 'gate.value.standard'])
      .sort(),
  );
});

describe('what is no part of what must be recalled changes no stamp', () => {
  const also = { why: 'x', slip: 'x', source: 'inv#9', critical: true };
  test.each<[string, Partial<Deck>]>([
    ['title of the deck, version, sources', { title: 'Other', version: '9.0.0', sources: [] }],
    [
      'title, start and strangers of a procedure',
      { procedures: [{ ...procedure, title: 'X', starts: 'y', strangers: ['z'], ...also }] },
    ],
    ['reason, slip, source, wordings of a step', withStep(1, { ...also, alsoSay: ['Hundred'], where: 'Overhead' })],
    ['words of do (the place is among its neighbours)', withStep(0, { do: 'Lamp switched on' })],
    ['capitals, spaces and punctuation of a callout', withStep(1, { say: '  ONE — hundred! ' })],
    ['capitals and punctuation of a cue', withStep(0, { cue: { text: 'cleared.' } })],
    [
      'question, reason, band and slips of a limit',
      { limits: [{ ...gate, ...also, ask: 'X', accept: 5, slips: [{ value: 1, note: 'n' }] }, bank] },
    ],
    ['id of a choice, order of choices', { limits: [gate, { ...bank, options: { r: 'Right', l: 'left' }, is: 'l' }] }],
    ['order of things in the file', { limits: [bank, gate] }],
    [
      'texts of a scenario, its band, a name for a step of the computation',
      {
        scenarios: [
          {
            ...scenario,
            ...also,
            title: 'T',
            situation: 'Now {x}',
            let: { z: 'x * 2' },
            asks: [
              { id: 'n', ask: 'X', number: 'z + 1', unit: 'ft', accept: 3, why: 'w' },
              {
                id: 'c',
                ask: 'Y',
                choose: {
                  options: { stop: 'stop', go: 'GO' },
                  rules: [ruleOf('high', ' z>limit( "gate" )', ['go'], { why: 'w' }), ruleOf('low', '', ['stop'])],
                },
              },
            ],
          },
        ],
      },
    ],
  ])('%s', (_, content) => {
    expect(changed(content)).toEqual([]);
  });
});

describe('what must be recalled does', () => {
  test.each<[string, Partial<Deck>, string[]]>([
    [
      'a step inserted: it and its neighbours',
      {
        procedures: [
          {
            ...procedure,
            steps: [procedure.steps[0], { id: 'x', do: 'Pump on' }, ...procedure.steps.slice(1)] as never,
          },
        ],
      },
      ['a.place', 'b.place', 'x.place'],
    ],
    [
      'two steps exchanged: all that have other neighbours',
      { procedures: [{ ...procedure, steps: [procedure.steps[0], procedure.steps[2], procedure.steps[1]] as never }] },
      ['a.place', 'b.place', 'c.place'],
    ],
    [
      'done together: no order',
      { procedures: [{ ...procedure, steps: [{ together: true, steps: procedure.steps }] }] },
      ['a.place', 'b.place', 'c.place'],
    ],
    ['another pilot', withStep(2, { by: 'PM' }), ['c.crew']],
    ['another callout', withStep(1, { say: 'Eighty' }), ['b.words']],
    ['another cue', withStep(0, { cue: { text: 'Lined up' } }), ['a.cue']],
    [
      'the value of a limit: with the cue and the rule that stand on it',
      { limits: [{ ...gate, value: 400 }, bank] },
      ['b.cue', 'case.c.high', 'gate.value.standard'],
    ],
    ['its sense', { limits: [{ ...gate, sense: 'at most' }, bank] }, ['b.cue', 'case.c.high', 'gate.value.standard']],
    ['strict', { limits: [{ ...gate, strict: true }, bank] }, ['b.cue', 'case.c.high', 'gate.value.standard']],
    ['its unit', { limits: [{ ...gate, unit: 'm' }, bank] }, ['b.cue', 'case.c.high', 'gate.value.standard']],
    ['a fact', { limits: [gate, { ...bank, is: 'right' }] }, ['bank.value.standard']],
    [
      'words of the right choice',
      { limits: [gate, { ...bank, options: { left: 'Port', right: 'Right' } }] },
      ['bank.value.standard'],
    ],
    [
      'a value that a computation stands on',
      { scenarios: [{ ...scenario, let: { y: 'x * 3' } }] },
      ['case.c.high', 'case.n.number'],
    ],
  ])('%s', (_, content, keys) => {
    expect(changed(content)).toEqual(keys);
  });
});

describe('circumstances', () => {
  const cases = (flaps: string, given: object): Partial<Deck> => ({
    conditions: [{ id: 'flaps', label: flaps, options: { one: `${flaps} 1`, two: `${flaps} 2` } }],
    limits: [
      {
        ...gate,
        value: undefined,
        cases: [
          { id: 'standard', value: 300 },
          { id: 'two', given, value: 200 },
        ],
      } as unknown as Limit,
      bank,
    ],
  });
  test('the words in which they are put change nothing, which they are does', () => {
    const one = stamps({ ...base, ...cases('Flaps', { flaps: 'two' }) });
    expect(stamps({ ...base, ...cases('Slats', { flaps: 'two' }) })).toEqual(one);
    const other = stamps({ ...base, ...cases('Flaps', { flaps: 'one' }) });
    expect(
      Object.keys(one)
        .filter((k) => one[k] !== other[k])
        .sort(),
    ).toEqual(['b.cue', 'case.c.high', 'gate.value.two']);
  });
});

test('taking an older version back gives the old stamps', () => {
  expect(stamps(structuredClone(base) as Partial<Deck>)).toEqual(first);
});

describe('keeps: an old stamp joined to the item of today', () => {
  const kept = {
    ...gate,
    value: 400,
    keeps: [`value.standard~${first['gate.value.standard']}`, 'value.standard~zzz', 'nonsense'],
  };
  test('same facet; what is still an item of today is not joined', () => {
    const all = resolved({ ...base, limits: [kept, bank] });
    const today = [...all.items.keys()].find((k) => k.includes('#gate.')) as string;
    expect([...all.aliases]).toEqual([
      [`calder/small#gate.value.standard~${first['gate.value.standard']}`, today],
      ['calder/small#gate.value.standard~zzz', today],
    ]);
    const back = resolved({ ...base, limits: [{ ...kept, value: 300 }, bank] });
    expect([...back.aliases.keys()]).toEqual(['calder/small#gate.value.standard~zzz']);
  });
  test('of a step and of an ask, with or without its id', () => {
    const ask = scenario.asks[0];
    const all = resolved({
      ...base,
      ...withStep(1, { keeps: ['words~old1', 'cue~old2'] }),
      scenarios: [
        {
          ...scenario,
          asks: [{ ...ask, keeps: ['number~old3', 'n.number~old4'] } as never, scenario.asks[1] as never],
        },
      ],
    });
    expect([...all.aliases.keys()].map((k) => k.split('#')[1])).toEqual([
      'b.words~old1',
      'b.cue~old2',
      'case.n.number~old3',
      'case.n.number~old4',
    ]);
    for (const to of all.aliases.values()) expect(all.items.has(to)).toBe(true);
  });
});
