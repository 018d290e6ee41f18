import { describe, expect, test } from 'vitest';
import { apply, undone, valueAt } from '../../../src/draft/change.ts';
import { mintName, namesIn } from '../../../src/draft/mint-name.ts';
import { idsBeside, rename } from '../../../src/draft/rename.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';

const one = (changed: Json, path: string): Json | undefined => valueAt(changed, path);

describe('another name for something', () => {
  const doc: Json = {
    sources: [{ id: 'som', title: 'Manual' }],
    variants: [{ id: 'engine', label: 'Engine', options: { a: 'A', b: 'B' } }],
    crew: [{ id: 'cabin', label: 'Cabin' }],
    day: [{ id: 'v1', label: 'V1', require: ['v1 <= 150'] }],
    conditions: [
      { id: 'flaps', label: 'Flaps', options: { one: '1', two: '2' } },
      { id: 'cold', label: 'Cold', yes: 'Cold', no: 'Warm' },
    ],
    limits: [
      {
        id: 'max',
        ask: 'Most at {v1}',
        source: 'som#3.2',
        cases: [
          { id: 'one', when: { not: { engine: ['a', 'b'] } }, given: { flaps: 'one', cold: true }, value: 1 },
          { id: 'two', when: { engine: 'b' }, value: 2 },
        ],
      },
      { id: 'colour', ask: 'Colour', options: { red: 'Red' }, is: 'red', slips: [{ is: 'red', note: 'red' }] },
    ],
    procedures: [
      {
        id: 'roll',
        steps: [
          { id: 'max-call', say: '{v1}', by: 'cabin', cue: { day: 'v1', event: 'cold' }, limit: 'max' },
          {
            id: 'max2',
            do: 'max',
            needs: ['max-call'],
            answers: 'max-call',
            after: { step: 'max-call' },
            rule: 'wind#max',
            where: 'Overhead, {v1}',
          },
          { steps: [], if: 'flaps == "one" && "two" != flaps && v1 > limit("max")' },
        ],
      },
    ],
    scenarios: [
      {
        id: 'wind',
        situation: '{max} {v1}',
        draw: { max: { from: 1, to: 2 }, event: { oneOf: { one: '', fire: 'Fire' } } },
        let: { most: 'max + limit("max")' },
        require: ['event != "one"', 'lookup("max", max(max, 1)) > 0', 'this is no formula max ('],
        asks: [
          {
            id: 'max',
            ask: 'How much',
            choose: {
              options: { go: 'Go', stop: 'Stop' },
              // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
              rules: [{ id: 'r1', if: 'max > 1', then: ['go'] }],
            },
          },
        ],
      },
    ],
    areas: [{ label: 'Overhead, {v1}' }, { label: 'max2' }],
    paced: [
      {
        id: 'run',
        procedures: ['roll', 'max'],
        cues: [{ step: 'max2', after: 'max-call', seconds: 2 }],
        tolerances: [{ step: 'max2' }],
        wind: 'wind#max',
        failure: { condition: 'cold', speed: 'v1' },
      },
    ],
  };
  const called = (path: string, to: string): Json => apply(doc, rename(doc, path, to));

  test('a limit: in steps and in calls of formulas, not where others are called so', () => {
    const now = called('/limits/0/id', 'most-of-all');
    expect(one(now, '/procedures/0/steps/0/limit')).toBe('most-of-all');
    expect(one(now, '/procedures/0/steps/2/if')).toBe('flaps == "one" && "two" != flaps && v1 > limit("most-of-all")');
    expect(one(now, '/scenarios/0/let/most')).toBe('max + limit("most-of-all")');
    expect(one(now, '/scenarios/0/require/1')).toBe('lookup("most-of-all", max(max, 1)) > 0');
    expect(one(now, '/procedures/0/steps/1')).toEqual(one(doc, '/procedures/0/steps/1'));
    expect(one(now, '/scenarios/0/situation')).toBe('{max} {v1}');
  });
  test('what a paced run names: procedures, steps, the question of the wind, condition and speed of a failure', () => {
    expect(one(called('/procedures/0/id', 'run-up'), '/paced/0/procedures')).toEqual(['run-up', 'max']);
    const step = called('/procedures/0/steps/1/id', 'second');
    expect(one(step, '/paced/0/cues/0')).toEqual({ step: 'second', after: 'max-call', seconds: 2 });
    expect(one(step, '/paced/0/tolerances/0/step')).toBe('second');
    expect(one(step, '/areas/1/label')).toBe('max2');
    expect(one(called('/procedures/0/steps/0/id', 'call'), '/paced/0/cues/0/after')).toBe('call');
    expect(one(called('/scenarios/0/asks/0/id', 'most'), '/paced/0/wind')).toBe('wind#most');
    expect(one(called('/scenarios/0/id', 'breeze'), '/paced/0/wind')).toBe('breeze#max');
    expect(one(called('/conditions/1/id', 'frost'), '/paced/0/failure/condition')).toBe('frost');
    expect(one(called('/day/0/id', 'decide'), '/paced/0/failure/speed')).toBe('decide');
  });
  test('an area of the plan: where steps are, and nothing else that is called so', () => {
    const now = called('/areas/0/label', 'Lights');
    expect(one(now, '/procedures/0/steps/1/where')).toBe('Lights');
    expect(one(now, '/areas')).toEqual([{ label: 'Lights' }, { label: 'max2' }]);
    expect(one(called('/areas/1/label', 'Other'), '/procedures')).toEqual(one(doc, '/procedures'));
    expect(idsBeside(doc, '/areas/0/label')).toEqual(['Overhead, {v1}', 'max2']);
    expect(idsBeside(doc, '/paced/0/id')).toContain('max-call');
    // Places of texts are filled in there as well.
    expect(one(called('/day/0/id', 'decide'), '/procedures/0/steps/1/where')).toBe('Overhead, {decide}');
  });
  test('a drawn value: in its scenario alone, not the function of the same name', () => {
    const now = called('/scenarios/0/draw/max', 'gust');
    expect(one(now, '/scenarios/0/draw')).toEqual({
      gust: { from: 1, to: 2 },
      event: { oneOf: { one: '', fire: 'Fire' } },
    });
    expect(one(now, '/scenarios/0/situation')).toBe('{gust} {v1}');
    expect(one(now, '/scenarios/0/require')).toEqual([
      'event != "one"',
      'lookup("max", max(gust, 1)) > 0',
      'this is no formula max (',
    ]);
    expect(one(now, '/limits')).toEqual(one(doc, '/limits'));
    expect(one(now, '/procedures')).toEqual(one(doc, '/procedures'));
  });
  test('an event: where its value is compared, not the choice of another name', () => {
    const now = called('/scenarios/0/draw/event/oneOf/one', 'none');
    expect(one(now, '/scenarios/0/require/0')).toBe('event != "none"');
    expect(one(now, '/procedures/0/steps/2/if')).toBe(one(doc, '/procedures/0/steps/2/if'));
  });
  test('a choice of a condition: in formulas and cases', () => {
    const now = called('/conditions/0/options/one', 'up');
    expect(one(now, '/procedures/0/steps/2/if')).toBe('flaps == "up" && "two" != flaps && v1 > limit("max")');
    expect(one(now, '/limits/0/cases/0/given')).toEqual({ flaps: 'up', cold: true });
    expect(one(now, '/scenarios/0/require/0')).toBe('event != "one"');
  });
  test('a condition and a value of the day: in formulas, cases, cues and braces', () => {
    const cold = called('/conditions/1/id', 'frozen');
    expect(one(cold, '/limits/0/cases/0/given')).toEqual({ flaps: 'one', frozen: true });
    expect(one(cold, '/procedures/0/steps/0/cue')).toEqual({ day: 'v1', event: 'frozen' });
    const day = called('/day/0/id', 'vOne');
    expect(one(day, '/day/0/require/0')).toBe('vOne <= 150');
    expect(one(day, '/procedures/0/steps/0/say')).toBe('{vOne}');
    expect(one(day, '/procedures/0/steps/0/cue/day')).toBe('vOne');
    expect(one(day, '/scenarios/0/situation')).toBe('{max} {vOne}');
  });
  test('a variant axis and its options, also within "all but"', () => {
    expect(one(called('/variants/0/id', 'motor'), '/limits/0/cases/0/when')).toEqual({ not: { motor: ['a', 'b'] } });
    const now = called('/variants/0/options/b', 'c');
    expect(one(now, '/limits/0/cases/0/when')).toEqual({ not: { engine: ['a', 'c'] } });
    expect(one(now, '/limits/0/cases/1/when')).toEqual({ engine: 'c' });
  });
  test('a step, a member of the crew, a source, a scenario, a question, an answer', () => {
    const step = called('/procedures/0/steps/0/id', 'call');
    expect(one(step, '/procedures/0/steps/1')).toMatchObject({
      needs: ['call'],
      answers: 'call',
      after: { step: 'call' },
    });
    expect(one(called('/crew/0/id', 'CC'), '/procedures/0/steps/0/by')).toBe('CC');
    expect(one(called('/sources/0/id', 'fcom'), '/limits/0/source')).toBe('fcom#3.2');
    expect(one(called('/scenarios/0/id', 'gale'), '/procedures/0/steps/1/rule')).toBe('gale#max');
    expect(one(called('/scenarios/0/asks/0/id', 'much'), '/procedures/0/steps/1/rule')).toBe('wind#much');
    expect(one(called('/scenarios/0/asks/0/choose/options/go', 'on'), '/scenarios/0/asks/0/choose')).toEqual({
      options: { on: 'Go', stop: 'Stop' },
      // biome-ignore lint/suspicious/noThenProperty: a rule of a deck says "then"
      rules: [{ id: 'r1', if: 'max > 1', then: ['on'] }],
    });
    const red = called('/limits/1/options/red', 'scarlet');
    expect(one(red, '/limits/1')).toMatchObject({
      options: { scarlet: 'Red' },
      is: 'scarlet',
      slips: [{ is: 'scarlet', note: 'red' }],
    });
  });
  test('is one step that can be taken back; the same name changes nothing', () => {
    const changes = rename(doc, '/day/0/id', 'vOne');
    expect(apply(apply(doc, changes), undone(changes))).toEqual(doc);
    expect(rename(doc, '/day/0/id', 'v1')).toEqual([]);
  });
  test('of two things that are called the same one gets another name, and references stay', () => {
    const twins: Json = {
      limits: [{ id: 'a' }, { id: 'a' }],
      procedures: [{ id: 'p', steps: [{ id: 's', limit: 'a' }] }],
    };
    const now = apply(twins, rename(twins, '/limits/1/id', 'b'));
    expect(now).toEqual({
      limits: [{ id: 'a' }, { id: 'b' }],
      procedures: [{ id: 'p', steps: [{ id: 's', limit: 'a' }] }],
    });
  });
  test('an id that was not there', () => {
    const bare: Json = { procedures: [{ id: 'p', steps: [{ steps: [] }] }] };
    expect(apply(bare, rename(bare, '/procedures/0/steps/0/id', 'b'))).toEqual({
      procedures: [{ id: 'p', steps: [{ steps: [], id: 'b' }] }],
    });
  });
});

describe('names for formulas', () => {
  test('are minted from words', () => {
    expect(mintName('Transition altitude', new Set())).toBe('transitionAltitude');
    expect(mintName('V1', new Set(['v1']))).toBe('v12');
    expect(mintName('7 lights', new Set())).toBe('lights');
    expect(mintName('Высота', new Set(['value']))).toBe('value2');
  });
  test('are known by what may use them: of scenarios the own one', () => {
    const doc: Json = {
      day: [{ id: 'v1' }],
      conditions: [{ id: 'cold' }],
      scenarios: [{ draw: { a: {} } }, { let: { b: '1' } }],
    };
    expect([...namesIn(doc)]).toEqual(['v1', 'cold', 'a', 'b']);
    expect([...namesIn(doc, '/scenarios/1/let')]).toEqual(['v1', 'cold', 'b']);
  });
});
