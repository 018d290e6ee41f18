import { describe, expect, test } from 'vitest';
import { circumstances, freshLines, walkOf } from '../../../src/drill/walk.ts';
import type { Limit, Node, Scenario } from '../../../src/model/deck.ts';
import { flow, resolved, rule } from '../forms/small-decks.ts';
import { resolvedDeck } from './practice.ts';

const NB = '\u00a0';
const limit = (more: object): Limit =>
  ({ id: 'gate', ask: 'Gate height?', unit: 'ft', reference: 'AAL', sense: 'at least', value: 400, ...more }) as Limit;

describe('a procedure', () => {
  const steps = [
    {
      id: 'a',
      by: 'PF',
      do: 'Set {v1} kt',
      cue: { text: 'Passing {v1} kt' },
      why: 'So.',
      slip: 'Late.',
      source: 'inv#2.1',
    },
    { id: 'b', by: 'PM', say: 'Gate', limit: 'gate', critical: true },
    {
      together: true,
      steps: [
        { id: 'c', do: 'Lamp off' },
        { id: 'd', do: 'Horn off' },
      ],
    },
    {
      lanes: [
        [{ id: 'e', do: 'Fan on' }],
        [{ id: 'f', do: 'Vent shut', after: { step: 'a', atLeast: { value: 10, unit: 's' } } }],
      ],
    },
  ] as unknown as Node[];
  const deck = resolved({
    day: [{ id: 'v1', label: 'V1', unit: 'kt', from: 120, to: 140 }],
    limits: [limit({})],
    procedures: [flow(steps, { starts: 'Cleared, V1 {v1} kt', why: 'It saves time.' })],
  });
  const about = { variant: '', group: 'flow', groupKind: 'procedure' } as const;

  test('shows all that is hidden while it is asked, numbers and waits filled in', () => {
    const walk = walkOf(deck, about);
    expect(walk).toMatchObject({ title: 'Flow', scene: ['Cleared'], why: 'It saves time.' });
    const lines = Object.fromEntries(walk?.lines.map((line) => [line.id, line]) ?? []);
    expect(lines.a).toMatchObject({
      by: 'PF',
      text: 'Set V1',
      cue: 'Passing V1',
      why: 'So.',
      slip: 'Late.',
      source: 'Invented manual, 2, 2.1',
      critical: false,
    });
    expect(lines.b).toMatchObject({ text: '“Gate”', value: `at least 400${NB}ft${NB}AAL`, critical: true });
    expect(lines.f?.wait).toBe(`at least 10${NB}s after: Set V1`);
  });

  test('a bound as a cue says its number first: "at most" is no moment', () => {
    const cueOf = (more: object) =>
      walkOf(
        resolved({
          limits: [limit(more)],
          procedures: [
            flow([
              { id: 'a', do: 'Lamp off', cue: { text: 'Steady', limit: 'gate' } },
              { id: 'b', do: 'Fan on' },
            ]),
          ],
        }),
        about,
      )?.lines[0]?.cue;
    expect(cueOf({})).toBe(`Steady, 400${NB}ft${NB}AAL or more`);
    expect(cueOf({ sense: 'at most' })).toBe(`Steady, 400${NB}ft${NB}AAL or less`);
    expect(cueOf({ sense: 'at most', strict: true })).toBe(`Steady, below 400${NB}ft${NB}AAL`);
    expect(cueOf({ sense: 'exactly' })).toBe(`Steady, 400${NB}ft${NB}AAL`);
  });

  test('steps that were not read before are told from those that were; where none was, nothing is', () => {
    const walk = walkOf(deck, about);
    if (walk === null) throw new Error('nothing to read');
    const fresh = (...ids: string[]) =>
      [...freshLines(walk, deck, { read: new Map(ids.map((id) => [`${deck.deck.id}#${id}`, 1])) })].join(' ');
    expect(fresh('a', 'b', 'd', 'e')).toBe('c f');
    expect(fresh()).toBe('');
    expect(fresh('a', 'b', 'c', 'd', 'e', 'f')).toBe('');
  });

  test('says what is done at once, and what beside another', () => {
    const lines = walkOf(deck, about)?.lines ?? [];
    expect(lines.map(({ id }) => id)).toEqual(['a', 'b', 'c', 'd', 'e', 'f']);
    expect(lines.filter(({ together }) => together).map(({ id }) => id)).toEqual(['d']);
    expect(lines.filter(({ beside, together }) => beside && !together).map(({ id }) => id)).toEqual(['f']);
  });

  test('of a list also with which words it is called for, and by whom', () => {
    const sceneOf = (more: object) =>
      walkOf(resolved({ procedures: [flow(2, { done: 'read-and-do', ...more })] }), about)?.scene;
    expect(sceneOf({ starts: 'A lamp', calledBy: 'PF', called: 'Lamp list' })).toEqual([
      'A lamp',
      'Called for by PF: “Lamp list”',
    ]);
    expect(sceneOf({ called: 'Lamp list' })).toEqual(['Called for: “Lamp list”']);
    expect(sceneOf({ calledBy: 'both' })).toEqual(['Called for by Both']);
    expect(sceneOf({})).toEqual([]);
  });

  test('says where on the panel a step is done', () => {
    const steps = [
      { id: 'a', do: 'Lamp off', where: 'Overhead' },
      { id: 'b', do: 'Horn off' },
    ] as const;
    const lines = walkOf(resolved({ procedures: [flow(steps)] }), about)?.lines ?? [];
    expect(lines.map(({ where }) => where)).toEqual(['Overhead', undefined]);
  });

  test('in part: only the steps asked for, and nothing said about one that is not shown', () => {
    const lines = walkOf(deck, { ...about, things: ['d', 'e'] })?.lines ?? [];
    expect(lines.map(({ id, together, beside }) => [id, together, beside])).toEqual([
      ['d', false, false],
      ['e', false, false],
    ]);
  });

  test('in part: which part it is, and nothing of the kind where it is the whole', () => {
    const partOf = (...things: string[]) => walkOf(deck, { ...about, things })?.scene[0];
    expect(partOf('a', 'b')).toBe('Steps 1 to 2 of 6');
    expect(partOf('d', 'e', 'f')).toBe('Steps 4 to 6 of 6');
    expect(partOf('c')).toBe('Step 3 of 6');
    expect(partOf('a', 'f')).toBe('2 of 6 steps');
    expect(partOf('a', 'b', 'c', 'd', 'e', 'f')).toBe('Cleared');
    const limits = resolved({ limits: ['x', 'y', 'z'].map((id) => limit({ id })) });
    const limitsOf = (...things: string[]) =>
      walkOf(limits, { variant: '', group: 'x', groupKind: 'limit', things })?.scene;
    expect(limitsOf('y', 'z')).toEqual(['Limits 2 to 3 of 3']);
    expect(limitsOf('y')).toEqual([]);
    expect(limitsOf('x', 'y', 'z')).toEqual([]);
  });

  test('what two branches hang on is said once', () => {
    const way = { id: 'rolling', label: 'Way', yes: 'Rolling', no: 'Standing' };
    const both = resolved({
      conditions: [way],
      procedures: [
        flow([
          { id: 'a', do: 'Lamp on', if: '!rolling' },
          { id: 'b', do: 'Fan on', if: 'rolling' },
          { id: 'c', do: 'Vent shut' },
        ]),
      ],
    });
    expect(walkOf(both, about)?.scene).toHaveLength(1);
    expect(['Rolling', 'Standing']).toContain(walkOf(both, about)?.scene[0]);
  });

  test('is nothing where the deck does not hold it', () => {
    expect(walkOf(deck, { ...about, group: 'gone' })).toBe(null);
    expect(walkOf(deck, { ...about, things: ['gone'] })).toBe(null);
    expect(walkOf(deck, { variant: '', group: 'gone', groupKind: 'limit', things: ['gone'] })).toBe(null);
    expect(walkOf(deck, { variant: '', group: 'gone', groupKind: 'scenario', things: ['gone'] })).toBe(null);
  });
});

test('of a procedure with branches it says in which circumstances', () => {
  const deck = resolved({
    conditions: [
      { id: 'wet', label: 'Surface', yes: 'The runway is wet', no: 'The runway is dry' },
      { id: 'oat', label: 'Outside temperature', unit: '°C', from: -20, to: 30 },
    ],
    procedures: [
      flow([
        { id: 'a', do: 'Lamp on' },
        { id: 'b', do: 'Wipers on', if: 'wet' },
        { id: 'c', do: 'Heat on', if: 'oat < 5' },
        { id: 'd', do: 'Fan on' },
      ] as unknown as Node[]),
    ],
  });
  const situations = deck.views[0]?.procedures[0]?.situations ?? [];
  const told = situations.map(({ id, steps }) => [
    steps.map(({ step }) => step.id).join(''),
    walkOf(deck, { variant: '', group: 'flow', groupKind: 'procedure', situation: id })?.scene,
  ]);
  const [view] = deck.views;
  const procedure = view?.procedures[0];
  if (view === undefined || procedure === undefined) throw new Error('the deck does not resolve');
  expect(situations.map(({ id }) => circumstances(deck, view, procedure, id))).toEqual(told.map(([, scene]) => scene));
  const OF = {
    b: ['The runway is dry', 'The runway is wet'],
    c: [`Outside temperature is at least 5${NB}°C`, `Outside temperature is below 5${NB}°C`],
  };
  expect(told).toHaveLength(4);
  for (const [steps, scene] of told)
    expect(scene).toEqual([OF.b[String(steps).includes('b') ? 1 : 0], OF.c[String(steps).includes('c') ? 1 : 0]]);
});

test('a limit is read with its cases in all variants flown: in any of them it may be asked', () => {
  const deck = resolved(
    {
      variants: [{ id: 'engine', label: 'Engine', options: { a: 'TK-A', b: 'TK-B' } }],
      limits: [
        limit({
          value: undefined,
          cases: [
            { id: 'a', when: { engine: ['a'] }, value: 400, critical: true },
            { id: 'b', when: { engine: ['b'] }, value: 500 },
          ],
        }),
        limit({ id: 'same', ask: 'Same?', value: 200 }),
      ],
    },
    { engine: ['a', 'b'] },
  );
  const walk = walkOf(deck, { variant: 'engine=a', group: 'gate', groupKind: 'limit', things: ['gate', 'same'] });
  expect(walk?.lines.map(({ text, critical, answers }) => ({ text, critical, answers }))).toEqual([
    {
      text: 'Gate height?',
      critical: true,
      answers: [
        { given: 'TK-A', answer: `at least 400${NB}ft${NB}AAL` },
        { given: 'TK-B', answer: `at least 500${NB}ft${NB}AAL` },
      ],
    },
    { text: 'Same?', critical: false, answers: [{ given: '', answer: `at least 200${NB}ft${NB}AAL` }] },
  ]);
});

test('a scenario is read as rules in words, in the order in which they count', () => {
  const scenario = {
    id: 'stick',
    title: 'Stick',
    situation: 'Wind {windDir}°/{windSpeed} kt, runway {runway}.',
    draw: {
      windDir: { from: 10, to: 360, step: 10, show: 'direction' },
      windSpeed: { from: 2, to: 30, label: 'Wind speed' },
      runway: { oneOf: [70, 250], show: 'runway' },
    },
    let: { cross: 'abs(crosswind(windDir, windSpeed, runway))', tail: 'max(0, -headwind(windDir, windSpeed, runway))' },
    why: 'The wing lifts.',
    asks: [
      { id: 'cross', ask: 'Crosswind?', number: 'cross', unit: 'kt', accept: 1 },
      {
        id: 'what',
        ask: 'Stick?',
        choose: {
          options: { full: 'Full forward', half: 'Half', no: 'No take-off' },
          rules: [
            rule('none', "tail > limit('tail')", ['no'], { critical: true, slip: 'Too late.' }),
            rule('full', 'tail > 0 || cross > 20', ['full'], { why: 'It tilts.' }),
            rule('else', '', ['half']),
          ],
        },
      },
    ],
  } as unknown as Scenario;
  const deck = resolved({
    scenarios: [scenario],
    limits: [limit({ id: 'tail', ask: 'Tailwind?', unit: 'kt', reference: undefined, sense: 'at most', value: 10 })],
  });
  const walk = walkOf(deck, { variant: '', group: 'stick', groupKind: 'scenario', things: ['stick'] });
  expect(walk).toMatchObject({ title: 'Stick', why: 'The wing lifts.' });
  expect(walk?.scene).toEqual([expect.stringMatching(/^For example: Wind \d{3}°\/\d+ kt, runway (07|25)\.$/)]);
  const [cross, what] = walk?.lines ?? [];
  expect(cross?.answers).toEqual([
    { given: '', answer: `wind speed × sine of the angle between wind and runway (within 1${NB}kt)` },
  ]);
  expect(what?.answers).toEqual([
    { given: `If tailwind is above 10${NB}kt, then`, answer: 'No take-off', slip: 'Too late.' },
    {
      given: 'If not, and there is a tailwind or crosswind is above 20, then',
      answer: 'Full forward',
      why: 'It tilts.',
    },
    { given: 'Otherwise', answer: 'Half' },
  ]);
  expect(what?.critical).toBe(true);
  expect(what).not.toHaveProperty('why');
});

test('a scenario that differs among the variants flown is read in each of them', () => {
  const scenario = {
    id: 'wind',
    situation: 'Tailwind {tail} kt.',
    draw: { tail: { from: 0, to: 20 } },
    asks: [
      {
        id: 'go',
        ask: 'Go?',
        choose: {
          options: { yes: 'Go', no: 'Wait' },
          rules: [rule('over', "tail > limit('tail')", ['no']), rule('else', '', ['yes'])],
        },
      },
      { id: 'same', ask: 'Twice the wind?', number: '2 * tail', unit: 'kt' },
    ],
  } as unknown as Scenario;
  const cases = [
    { id: 'a', when: { engine: ['a'] }, value: 10 },
    { id: 'b', when: { engine: ['b'] }, value: 15 },
  ];
  const deck = resolved(
    {
      variants: [{ id: 'engine', label: 'Engine', options: { a: 'TK-A', b: 'TK-B' } }],
      limits: [
        limit({
          id: 'tail',
          ask: 'Tailwind?',
          unit: 'kt',
          reference: undefined,
          sense: 'at most',
          value: undefined,
          cases,
        }),
      ],
      scenarios: [scenario],
    },
    { engine: ['a', 'b'] },
  );
  const walk = walkOf(deck, { variant: 'engine=a', group: 'wind', groupKind: 'scenario', things: ['wind'] });
  expect(walk?.lines.map(({ text, answers }) => [text, answers[0]?.given])).toEqual([
    ['Go? (TK-A)', `If tail is above 10${NB}kt, then`],
    ['Twice the wind?', ''],
    ['Go? (TK-B)', `If tail is above 15${NB}kt, then`],
  ]);
  expect(new Set(walk?.lines.map(({ id }) => id)).size).toBe(3);
});

test.each(['public-rules', 'wind-altimetry', 'merrow-takeoff', 'merrow-abnormal'])(
  'everything in %s can be read: no empty text, no place left open, no formula',
  (name) => {
    const variants = { engine: ['tk11', 'tk14'], operator: ['calder', 'fellwater'] };
    const deck = resolvedDeck(name, variants);
    for (const view of deck.views) {
      const groups = [
        ...view.procedures.flatMap(({ procedure, situations }) =>
          situations.map(({ id }) => ({ group: procedure.id, groupKind: 'procedure' as const, situation: id })),
        ),
        ...view.limits
          .filter(({ cases }) => cases.length > 0)
          .map(({ limit: { id } }) => ({ group: id, groupKind: 'limit' as const, things: [id] })),
        ...view.scenarios.map(({ scenario: { id } }) => ({ group: id, groupKind: 'scenario' as const, things: [id] })),
      ];
      expect(groups.length).toBeGreaterThan(0);
      for (const group of groups) {
        const walk = walkOf(deck, { variant: view.id, ...group });
        if (walk === null) {
          // A situation in which a procedure has no step.
          const found = view.procedures.find(({ procedure }) => procedure.id === group.group);
          expect(found?.situations.some(({ steps }) => steps.length === 0)).toBe(true);
          continue;
        }
        const text = JSON.stringify(walk);
        expect(text).not.toMatch(/\{[a-z][A-Za-z0-9]*\}|undefined|NaN|&&|\|\||limit\(|lookup\(/);
        for (const line of walk.lines) {
          expect(line.text.trim()).not.toBe('');
          for (const { answer } of line.answers) expect(answer.trim()).not.toBe('');
        }
      }
    }
  },
);
