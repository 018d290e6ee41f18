import { describe, expect, test } from 'vitest';
import { checkDeck } from '../../../src/deck/check.ts';
import type { PacedAeroplane } from '../../../src/model/deck.ts';
import { forceLeft } from '../../../src/subjects/paced/force.ts';
import { changed, type Loose } from '../../fixtures/decks/base.ts';
import { PAIRS } from '../../fixtures/decks/findings.ts';

const foundIn = (change: (deck: Loose) => void): string[] => {
  const deck = changed((d) => {
    (PAIRS['paced-share'].pass as (deck: Loose) => void)(d);
    change(d);
  });
  return checkDeck(deck, { today: '2026-11-25' }).map(
    ({ code, path, args }) => `${code} ${path}${args.id === undefined ? '' : ` ${args.id}`}`,
  );
};
const run = (change: (run: Loose) => void) => foundIn((d) => change(d.paced[0]));

describe('what a paced run names', () => {
  test('is there', () => {
    expect(run(() => {})).toEqual([]);
  });

  test.each<[string, (run: Loose) => void, string]>([
    ['a procedure', (r) => r.procedures.push('rol'), 'unknown-reference /paced/0/procedures/2 rol'],
    [
      'a step of another procedure',
      (r) => r.cues.push({ step: 'go-thrust', speed: 1 }),
      'unknown-reference /paced/0/cues/1/step go-thrust',
    ],
    [
      'a step that it comes after',
      (r) => Object.assign(r.cues[0], { after: 'anounce' }),
      'unknown-reference /paced/0/cues/0/after anounce',
    ],
    [
      'a step with a tolerance',
      (r) => Object.assign(r.tolerances[0], { step: 'x' }),
      'unknown-reference /paced/0/tolerances/0/step x',
    ],
    ['a scenario', (r) => Object.assign(r, { wind: 'winds#input' }), 'unknown-reference /paced/0/wind winds'],
    ['a question', (r) => Object.assign(r, { wind: 'wind#put' }), 'unknown-reference /paced/0/wind put'],
    [
      'a condition that is no yes/no',
      (r) => Object.assign(r.failure, { condition: 'flaps' }),
      'unknown-reference /paced/0/failure/condition flaps',
    ],
    [
      'a speed of the day',
      (r) => Object.assign(r.failure, { speed: 'v9' }),
      'unknown-reference /paced/0/failure/speed v9',
    ],
    ['a source', (r) => Object.assign(r, { source: 'som2#1' }), 'unknown-reference /paced/0/source som2'],
  ])('%s that is not', (_what, change, said) => {
    expect(run(change)).toEqual([said]);
  });

  test('is named once', () => {
    expect(run((r) => r.procedures.push('roll'))).toEqual(['paced-twice /paced/0/procedures/2 roll']);
    expect(run((r) => r.cues.push({ step: 'half', speed: 1 }))).toEqual(['paced-twice /paced/0/cues/1/step half']);
    expect(foundIn((d) => d.paced.push({ ...d.paced[0], id: 'roll' }))).toEqual(['id-twice /paced/1/id roll']);
  });

  test('without a source is said', () => {
    expect(run((r) => delete r.source)).toEqual(['source-missing /paced/0']);
  });

  test('uses a condition that nothing else uses', () => {
    const unused = (d: Loose): Loose =>
      d.conditions.push({ id: 'fails', label: 'Failure', yes: 'It fails', no: 'It runs' });
    expect(foundIn(unused)).toEqual(['condition-unused /conditions/3']);
    expect(
      foundIn((d) => {
        unused(d);
        d.paced[0].failure.condition = 'fails';
      }),
    ).toEqual([]);
  });
});

describe('when a step comes', () => {
  test.each<[string, Loose]>([
    ['nothing', {}],
    ['a wait without a step', { seconds: 2 }],
    ['a step without a wait', { after: 'announce' }],
    ['a height with a wait', { height: 100, seconds: 2 }],
    ['itself', { after: 'half', seconds: 2 }],
  ])('%s says it not', (_what, cue) => {
    expect(run((r) => Object.assign(r, { cues: [{ step: 'half', ...cue }] }))).toEqual(['paced-cue /paced/0/cues/0']);
  });
});

test('a tolerance of nothing is taken', () => {
  expect(run((r) => Object.assign(r.tolerance, { early: 0, late: 0 }))).toEqual([]);
});

describe('an aeroplane that does not fly', () => {
  const off = (change: Partial<PacedAeroplane>, more: Loose = {}) =>
    run((r) => {
      Object.assign(r.aeroplane, change);
      Object.assign(r, more);
    });
  test('does not roll: friction of half the weight is more than the thrust', () => {
    expect(off({ friction: 0.5 })).toEqual(['paced-never /paced/0/aeroplane/thrust']);
  });
  test('does not get up to a speed of the day: with so steep a fall the thrust is used up at 111 kt', () => {
    expect(off({ thrustFall: 2000 })).toEqual([]);
    expect(off({ thrustFall: 3500 })).toEqual(['paced-never /paced/0/aeroplane/thrust']);
  });
  test('does not climb without one engine: 85 kN against 99 kN of drag at 115 kt', () => {
    expect(off({ dragClimbing: 0.3 })).toEqual([]);
    expect(off({ dragClimbing: 0.42 })).toEqual(['paced-never /paced/0/aeroplane/dragClimbing']);
  });
  test('has one engine, which fails', () => {
    expect(off({ engines: 1 })).toEqual(['paced-never /paced/0/aeroplane/dragClimbing']);
  });
  const at = (speed: string, value: number): Partial<PacedAeroplane> => ({ massAt: { speed, value } });
  test('a mass that goes with a speed: one of the day, above 0; heaviest or lightest it must fly', () => {
    expect(off(at('vr', 120))).toEqual([]);
    expect(off(at('vx', 120))).toEqual(['unknown-reference /paced/0/aeroplane/massAt/speed vx']);
    expect(off(at('vr', 0))).toEqual(['paced-zero /paced/0/aeroplane/massAt/value']);
    // Far heavier than written its thrust is far greater, too; friction grows with both.
    expect(off({ ...at('vr', 60), friction: 0.5 })).toEqual(['paced-never /paced/0/aeroplane/thrust']);
    // Light it has little thrust, and the drag at a speed of a cue is what it was.
    const late = { cues: [{ step: 'half', speed: 200 }] };
    expect(off({}, late)).toEqual([]);
    expect(off(at('vr', 160), late)).toEqual(['paced-never /paced/0/aeroplane/dragClimbing']);
  });
  test.each(['mass', 'thrust', 'engines', 'wingArea', 'rotationRate', 'pitchLiftOff'] as const)('has no %s', (key) => {
    expect(off({ [key]: 0 })).toContain(`paced-zero /paced/0/aeroplane/${key}`);
  });
});

describe('the force that is left', () => {
  const a: PacedAeroplane = {
    mass: 50_000,
    thrust: 200_000,
    thrustFall: 500,
    engines: 2,
    spoolUp: 4,
    wingArea: 110,
    dragRolling: 0.06,
    liftRolling: 0.4,
    friction: 0.02,
    dragClimbing: 0.09,
    rotationRate: 3,
    pitchLiftOff: 8,
    pitchClimb: 15,
  };
  test('standing still is the thrust less the friction under the whole weight', () => {
    expect(forceLeft(a, 0, 2, 'ground')).toBeCloseTo(200_000 - 0.02 * 50_000 * 9.80665, 6);
  });
  // By hand: 100 kt = 51.4444 m/s, q = ½·1.225·51.4444² = 1621.0 N/m², q·S = 178 310 N.
  test('at 100 kt', () => {
    const [thrust, pressed] = [200_000 - 500 * 51.4444, 178_310];
    const load = 50_000 * 9.80665 - 0.4 * pressed;
    expect(forceLeft(a, 100, 2, 'ground')).toBeCloseTo(thrust - 0.06 * pressed - 0.02 * load, -2);
    expect(forceLeft(a, 100, 1, 'air')).toBeCloseTo(thrust / 2 - 0.09 * pressed, -2);
  });
});

describe('where something is on the plan', () => {
  const where = (areas: Loose, words: string) =>
    foundIn((d) => {
      d.areas = areas;
      d.procedures[0].steps[0].where = words;
    });
  const area = { label: 'Overhead', x: 0, y: 0, width: 100, height: 30 };
  test('words where there is no plan', () => {
    expect(where(undefined, 'Anywhere')).toEqual([]);
  });
  test('an area where there is one', () => {
    expect(where([area], 'Overhead')).toEqual([]);
    expect(where([area], 'Overhed')).toEqual(['unknown-reference /procedures/0/steps/0/where Overhed']);
    expect(where([], 'Overhead')).toEqual(['unknown-reference /procedures/0/steps/0/where Overhead']);
  });
  test('two areas of one name are refused', () => {
    expect(where([area, area], 'Overhead')).toEqual(['name-twice /areas/1/label']);
  });
});
