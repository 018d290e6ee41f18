import { describe, expect, test } from 'vitest';
import { draw, mark } from '../../../src/forms/registry.ts';
import type { ItemFacts } from '../../../src/memory/types.ts';
import { verdictOf } from '../../../src/memory/verdict.ts';
import type { Marked, Offer, RunShown } from '../../../src/model/form.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { drawnRun, flow, marksOf, offerFor, resolved, runDetail, whole, word } from './small-decks.ts';

const six = resolved({ procedures: [flow(6)] });
const ids = (order: readonly number[]): string[] => order.map((i) => `s${i}`);
const put = (all: Resolved, offer: Offer, order: readonly string[], blame?: (key: string) => number): Marked =>
  mark(all, offer, drawnRun(all, offer), { order }, blame);
const states = (marked: Marked): string[] => runDetail(marked).chips.map((c) => `${c.id} ${c.state}`);

describe('marks of a run', () => {
  test('a faultless run: every place right, proved as well as it is hard to guess', () => {
    const marked = put(six, whole(), ids([0, 1, 2, 3, 4, 5]));
    expect(Object.values(marked.marks)).toEqual(Array(6).fill('right'));
    expect(marked.flawed).toBe(false);
    expect(marked.g).toBeCloseTo(1 / 720, 12);
    expect(runDetail(marked)).toMatchObject({ violated: 0, pairs: 15, score: 1, moves: 0 });
  });

  test('a faulty run: its g is the share of steps that a guess leaves right', () => {
    const marked = put(six, whole(), ids([0, 1, 3, 2, 4, 5]));
    expect(marked.flawed).toBe(true);
    // Mean longest rising subsequence of 6 things: 2261/720, counted over all arrangements in run-parts.test.ts.
    expect(marked.g).toBeCloseTo(2261 / 720 / 6, 9);
    expect(marksOf(marked)).toMatchObject({ 's2.place': 'wrong', 's3.place': 'moved', 's0.place': 'right' });
  });

  test('ties: the step with the lower recall chance is blamed', () => {
    const blame = (low: string) => (key: string) => (key.includes(`#${low}.`) ? 0.2 : 0.9);
    for (const [low, other] of [
      ['s2', 's3'],
      ['s3', 's2'],
    ] as const) {
      const marked = put(six, whole(), ids([0, 1, 3, 2, 4, 5]), blame(low));
      expect(marksOf(marked)[`${low}.place`]).toBe('wrong');
      expect(marksOf(marked)[`${other}.place`]).toBe('moved');
    }
  });

  test('a block moved whole: its first step is wrong, the rest moved', () => {
    const marked = put(six, whole(), ids([0, 4, 5, 1, 2, 3]));
    expect(marksOf(marked)).toEqual({
      's0.place': 'right',
      's1.place': 'right',
      's2.place': 'right',
      's3.place': 'right',
      's4.place': 'wrong',
      's5.place': 'moved',
    });
  });

  test('from back to front: nothing stood right, however well any step is known; a run cut in two is no such one', () => {
    const knows = (key: string) => (key.includes('#s3.') ? 0.99 : 0.2);
    for (const n of [2, 3, 6]) {
      const all = resolved({ procedures: [flow(n)] });
      const marked = put(all, whole(), ids([...Array(n).keys()].reverse()), knows);
      expect(Object.values(marked.marks)).toEqual(Array(n).fill('wrong'));
      expect(states(marked).filter((one) => !one.endsWith('misplaced'))).toEqual([]);
    }
    const cut = put(six, whole(), ids([3, 4, 5, 0, 1, 2]), knows);
    expect(Object.values(cut.marks).sort()).toEqual([...Array(5).fill('moved'), 'wrong']);
  });

  test('left out: wrong, and said so', () => {
    const marked = put(six, whole(), ids([0, 1, 2, 4, 5]));
    expect(marksOf(marked)['s3.place']).toBe('wrong');
    expect(states(marked)).toContain('s3 omitted');
    expect(marked.flawed).toBe(true);
  });

  test("Don't know: everything was told, nothing is right", () => {
    const marked = mark(six, whole(), drawnRun(six, whole()), null);
    expect(new Set(Object.values(marked.marks))).toEqual(new Set(['told']));
  });

  test('nothing placed: everything is wrong', () => {
    expect(new Set(Object.values(put(six, whole(), []).marks))).toEqual(new Set(['wrong']));
  });

  test('repeats and ids that are not on the screen are passed over', () => {
    const marked = put(six, whole(), ['s0', 's0', 'x', 's1', 's2', 's3', 's4', 's5', 's1']);
    expect(marked.flawed).toBe(false);
  });

  test('feedback gives direct neighbours, never a place number', () => {
    const chip = runDetail(put(six, whole(), ids([1, 2, 3, 0, 4, 5]))).chips.find((c) => c.id === 's0');
    expect(chip).toMatchObject({ state: 'misplaced', given: 4, after: [], before: [word(1)] });
  });

  test('a question that the deck no longer holds has no marks', () => {
    const offer = { ...whole(), about: { thing: 'gone' } };
    expect(draw(six, offer, 1)).toBeNull();
    expect(mark(six, offer, drawnRun(six, whole()), { order: ids([0]) }).marks).toEqual({});
  });

  test('what was shown must belong to the form asked', () => {
    const shown = { form: 'limit', ask: '', scene: [], drawn: {}, fields: [], choices: [] } as const;
    expect(() => mark(six, whole(), shown, null)).toThrow(TypeError);
  });
});

describe('what a run proves', () => {
  const verdict = (marked: Marked, key: string): string =>
    verdictOf({
      mark: marked.marks[key] ?? 'wrong',
      sure: true,
      spared: false,
      flawed: marked.flawed,
      helped: false,
      eased: false,
      g: marked.g,
      quick: () => false,
      gap: 1,
      memory: undefined,
      facts: { critical: false, decision: false } as ItemFacts,
    }).verdict;

  test('a faultless sure run is sound, however likely a single step is to fall right', () => {
    for (const n of [3, 5, 6, 12]) {
      const all = resolved({ procedures: [flow(n)] });
      const marked = put(all, whole(), ids([...Array(n).keys()]));
      for (const key of Object.keys(marked.marks)) expect(verdict(marked, key)).toBe('sound');
    }
  });

  test('of two steps a guess is right half the time: not sound', () => {
    const two = resolved({ procedures: [flow(2)] });
    const marked = put(two, whole(), ids([0, 1]));
    expect(Object.keys(marked.marks).map((key) => verdict(marked, key))).toEqual(['unsure', 'unsure']);
  });

  test('in a faulty run what is right or only moved is unsure, what is wrong is missed', () => {
    const marked = put(six, whole(), ids([0, 1, 3, 2, 4, 5]));
    const verdicts = Object.keys(marked.marks).map((key) => verdict(marked, key));
    expect(verdicts).toEqual(['unsure', 'unsure', 'missed', 'unsure', 'unsure', 'unsure']);
  });
});

describe('strangers', () => {
  const all = resolved({
    procedures: [flow(3, { strangers: ['Tea', { text: 'Coffee', note: 'Not before the climb.' }] })],
  });
  const offer = offerFor(all, 'run', (o) => o.needs === 'read');

  test('they are on the screen, belong to no item, and one that is taken flaws the run', () => {
    const shown = drawnRun(all, offer);
    expect(shown.chips.map((c) => c.text).sort()).toEqual(['Coffee', 'Tea', word(0), word(1), word(2)].sort());
    const good = put(all, offer, ids([0, 1, 2]));
    expect(good.flawed).toBe(false);
    // 3 of 5 chips in a row: 60 ways, one of them right.
    expect(good.g).toBeCloseTo(1 / 60, 12);
    expect(runDetail(good).chips.filter((c) => c.state === 'left-out')).toHaveLength(2);
    const coffee = shown.chips.find((c) => c.text === 'Coffee')?.id as string;
    const bad = put(all, offer, ['s0', coffee, 's1', 's2']);
    expect(bad.flawed).toBe(true);
    expect(Object.values(bad.marks)).toEqual(['right', 'right', 'right']);
    expect(runDetail(bad).chips.find((c) => c.id === coffee)).toMatchObject({
      state: 'stranger',
      given: 2,
      note: 'Not before the climb.',
    });
  });

  test('a step of the procedure before or after is a stranger, what reads like a real step is not', () => {
    const two = resolved({
      procedures: [
        flow(3),
        flow(
          [
            { id: 'n0', do: 'Other lever' },
            { id: 'n1', do: word(1).toUpperCase() },
          ],
          { id: 'next', title: 'Next' },
        ),
      ],
    });
    const chips = drawnRun(
      two,
      offerFor(two, 'run', (o) => o.about.thing === 'flow'),
    ).chips.map((c) => c.text);
    expect(chips).toContain('Other lever');
    expect(chips).not.toContain(word(1).toUpperCase());
  });
});

describe('partial orders', () => {
  const lanes = resolved({
    procedures: [
      flow([
        { id: 'first', do: 'First' },
        {
          lanes: [
            [
              { id: 'a1', do: 'Left one' },
              { id: 'a2', do: 'Left two' },
            ],
            [{ id: 'b1', do: 'Right one' }],
          ],
        },
        {
          together: true,
          steps: [
            { id: 't1', do: 'Both hands' },
            { id: 't2', do: 'Both feet' },
          ],
        },
      ]),
    ],
  });

  test.each([
    [['first', 'a1', 'a2', 'b1', 't1', 't2'], false],
    [['first', 'b1', 'a1', 'a2', 't2', 't1'], false],
    [['first', 'a1', 'b1', 'a2', 't2', 't1'], false],
    [['first', 'a2', 'b1', 'a1', 't2', 't1'], true],
    [['first', 'a1', 'a2', 't1', 'b1', 't2'], true],
  ])('lanes interleave, what is done together has no order: %j flawed %s', (order, flawed) => {
    expect(put(lanes, whole(), order).flawed).toBe(flawed);
  });

  test('a step that needs one of a lane written further down comes behind it, in the deck as resolved too', () => {
    const waits = resolved({
      procedures: [
        flow([
          {
            lanes: [
              [
                { id: 'a1', do: 'Left one' },
                { id: 'a2', do: 'Left two', needs: ['b1'] },
              ],
              [{ id: 'b1', do: 'Right one' }],
            ],
          },
        ]),
      ],
    });
    const steps = waits.views[0]?.procedures[0]?.situations[0]?.steps.map((s) => s.step.id);
    expect(steps).toEqual(['a1', 'b1', 'a2']);
    expect(put(waits, whole(), steps as string[]).flawed).toBe(false);
    expect(put(waits, whole(), ['a1', 'a2', 'b1']).flawed).toBe(true);
  });

  test('the verdict says which were done together, and the chance of a faultless guess counts every right order', () => {
    const marked = put(lanes, whole(), ['first', 'a1', 'a2', 'b1', 't1', 't2']);
    expect(
      runDetail(marked)
        .chips.filter((c) => c.together)
        .map((c) => c.id),
    ).toEqual(['t1', 't2']);
    // 3 interleavings x 2 orders of what is done together, of 720.
    expect(marked.g).toBeCloseTo(6 / 720, 12);
  });

  test('steps that read the same are taken in order, whichever of them was tapped', () => {
    const twins = resolved({
      procedures: [
        flow([
          { id: 'c1', say: 'Checked' },
          { id: 'mid', do: 'Set the flaps' },
          { id: 'c2', say: 'Checked' },
        ]),
      ],
    });
    expect(put(twins, whole(), ['c2', 'mid', 'c1']).flawed).toBe(false);
    expect(put(twins, whole(), ['c2', 'c1', 'mid']).flawed).toBe(true);
  });
});

describe('what may be seen before the verdict', () => {
  const all = resolved({
    day: [{ id: 'v1', label: 'V1', unit: 'kt', from: 123, to: 123 }],
    limits: [{ id: 'gate', ask: 'Gate?', unit: 'ft', sense: 'exactly', value: 777 }],
    procedures: [
      flow(
        [
          { id: 'a', by: 'PF', do: 'Gear lever up', cue: { text: 'Secret cue' }, why: 'Secret why' },
          { id: 'b', by: 'PM', say: 'Passing {v1}', cue: { limit: 'gate' }, limit: 'gate', slip: 'Secret slip' },
          { id: 'c', do: 'Lights off', after: { step: 'b', atLeast: { value: 17, unit: 's' } }, source: 'inv#4' },
        ],
        { starts: 'Airborne', strangers: ['Flaps zero'] },
      ),
    ],
  });
  const shown: RunShown = drawnRun(all, whole());

  test('the words of do and say alone: no cue, crew, number, wait, reason, slip or source', () => {
    const text = JSON.stringify(shown);
    for (const hidden of ['Secret', '777', '17', 'PF', 'PM', 'Invented']) expect(text).not.toContain(hidden);
    expect(shown.chips.map((c) => c.text)).toContain('“Passing 123”');
    expect(shown.scene).toEqual(['Airborne', 'V1 123\u00a0kt']);
  });

  test('a value of the day that the beginning says is not said again', () => {
    const said = (starts: string) =>
      drawnRun(
        resolved({
          day: [
            { id: 'v1', label: 'V1', unit: 'kt', from: 123, to: 123 },
            { id: 'vr', label: 'VR', unit: 'kt', from: 130, to: 130 },
          ],
          procedures: [
            flow(
              [
                { id: 'a', do: 'Gear up' },
                { id: 'b', say: 'Passing {v1}, {vr}' },
              ],
              { starts },
            ),
          ],
        }),
        whole(),
      ).scene;
    expect(said('Rolling, V1 {v1} kt')).toEqual(['Rolling, V1 123 kt', 'VR 130\u00a0kt']);
    expect(said('V1 {v1} kt, VR {vr} kt')).toEqual(['V1 123 kt, VR 130 kt']);
    // Without its label it is not said plainly enough.
    expect(said('Below {v1}')).toEqual(['Below 123', 'V1 123\u00a0kt, VR 130\u00a0kt']);
  });

  test.each([
    ['at {v1}', '123\u00a0kt'],
    ['At V1', 'V1'],
    ['AT 400 ft', '400 ft'],
    ['at least {v1}', 'at least 123\u00a0kt'],
    ['attitude steady', 'attitude steady'],
    ['at', 'at'],
    ['Passing V1 {v1} kt', 'Passing V1 123 kt'],
    ['Passing {v1} knots', 'Passing 123 knots'],
    ['Passing {v1}, {nobody}', 'Passing 123\u00a0kt, {nobody}'],
  ])('a cue “%s” stands behind “At:” as “%s”', (text, cue) => {
    const one = resolved({
      day: [{ id: 'v1', label: 'V1', unit: 'kt', from: 123, to: 123 }],
      procedures: [
        flow([
          { id: 'a', do: 'Gear up', cue: { text } },
          { id: 'b', do: 'Flaps up' },
        ]),
      ],
    });
    const { chips } = runDetail(put(one, whole(), ['a', 'b']));
    expect(chips[0]?.cue).toBe(cue);
  });

  test('with the verdict all of it', () => {
    const chips = runDetail(mark(all, whole(), shown, { order: ['a', 'b', 'c'] })).chips;
    expect(chips[0]).toMatchObject({ by: 'PF', cue: 'Secret cue', why: 'Secret why' });
    expect(chips[1]).toMatchObject({ by: 'PM', cue: '777\u00a0ft', value: '777\u00a0ft', slip: 'Secret slip' });
    expect(chips[2]).toMatchObject({
      wait: 'at least 17\u00a0s after: “Passing 123”',
      source: 'Invented manual, 2, 4',
    });
  });
});

test('branches: a step is marked in the situation that was drawn', () => {
  const all = resolved({
    conditions: [{ id: 'fire', label: 'Fire', yes: 'Fire warning', no: 'No fire' }],
    procedures: [
      flow([
        { id: 'a', do: 'Thrust idle' },
        { id: 'b', do: 'Fire handle pull', if: 'fire' },
        { id: 'c', do: 'Report', if: '!fire' },
        { id: 'd', do: 'Park' },
      ]),
    ],
  });
  const situations = all.views[0]?.procedures[0]?.situations ?? [];
  expect(situations.map((s) => s.steps.map((x) => x.step.id).join(''))).toEqual(['acd', 'abd']);
  for (const s of situations) {
    const shown = drawnRun(all, whole('flow', s.id));
    const fire = shown.drawn.fire === true;
    expect(shown.scene).toEqual([fire ? 'Fire warning' : 'No fire']);
    const order = fire ? ['a', 'b', 'd'] : ['a', 'c', 'd'];
    expect(
      shown.chips
        .map((c) => c.id)
        .filter((id) => !id.startsWith('stranger'))
        .sort(),
    ).toEqual(order);
    expect(put(all, whole('flow', s.id), order).flawed).toBe(false);
  }
});
