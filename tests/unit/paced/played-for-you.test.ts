/** What the program plays, what is offered beside it, and how it is told afterwards. */
import { expect, test } from 'vitest';
import { foldText } from '../../../src/lib/fold-text.ts';
import { isTwin } from '../../../src/lib/twin.ts';
import type { PacedFinding } from '../../../src/model/form.ts';
import { choose, givenOfCourse } from '../../../src/paced/course.ts';
import { verdictSign, verdictWords, whenWords } from '../../../src/ui/forms/paced/lane.ts';
import { calder } from './calder.ts';
import { markedRun, played, runDeck, STEPS, startOf } from './runs.ts';

test('VR right behind V1: “Rotate” just before VR is right, though the captain takes his hand away after it', () => {
  const start = Array.from({ length: 60 }, (_, seed) => startOf(calder, { seed, paced: 'take-off-in-time' })).find(
    ({ shown: { drawn } }) => Number(drawn.vr) - Number(drawn.v1) <= 4,
  );
  if (start === undefined) throw new Error('no such day');
  const given = givenOfCourse(
    start.plan,
    played(start, (id) => (id === 'ro-rotate' ? -0.1 : 0)),
  );
  const rotated = given.acts.find(({ id }) => id === 'ro-rotate')?.at ?? 0;
  expect(given.played['ro-captain']).toBeGreaterThan(rotated);
  const { detail, flawed } = markedRun(calder, start, given);
  const rotate = detail.steps.find(({ id }) => id === 'ro-rotate') as PacedFinding;
  expect([rotate.timing, rotate.inOrder, verdictSign(rotate)]).toEqual(['in-time', true, '✓']);
  expect(flawed).toBe(false);
  // As it was played: the hand behind the call.
  const ids = detail.steps.map(({ id }) => id);
  expect(ids.indexOf('ro-captain')).toBeGreaterThan(ids.indexOf('ro-rotate'));
});

test('what was done stands in the order of time; what was not done, at its cue', () => {
  const all = runDeck();
  const start = startOf(all);
  const given = givenOfCourse(
    start.plan,
    played(start, (id) => (id === 'climb' ? 1.5 : id === 'vee' ? null : 0)),
  );
  const { detail } = markedRun(all, start, given);
  const ids = detail.steps.map(({ id }) => id);
  expect(ids.indexOf('gear')).toBe(ids.indexOf('climb') + 1);
  expect(ids.indexOf('vee')).toBeLessThan(ids.indexOf('rotate'));
  expect(detail.steps.find(({ id }) => id === 'vee')?.timing).toBe('missing');
});

test('out of the order of one’s own steps is a fault, and no tick stands beside it', () => {
  const all = runDeck({ tolerance: { early: 3, late: 4 } });
  const start = startOf(all);
  // VR comes some two seconds behind V1.
  const { detail } = markedRun(
    all,
    start,
    givenOfCourse(
      start.plan,
      played(start, (id) => (id === 'vee' ? 3.9 : 0)),
    ),
  );
  const rotate = detail.steps.find(({ id }) => id === 'rotate') as PacedFinding;
  expect([rotate.timing, rotate.inOrder, rotate.behind]).toEqual(['in-time', false, ['“V one”']]);
  expect([verdictSign(rotate), verdictWords(rotate, false)]).toEqual(['✗', 'out of order']);
});

test('done at its cue, though what it follows was done only later: what was late is told there alone', () => {
  const start = startOf(calder, { seat: 'PF', seed: 1, paced: 'take-off-in-time' });
  const late = { 'st-announce': 6.5 } as Readonly<Record<string, number>>;
  const { detail } = markedRun(
    calder,
    start,
    givenOfCourse(
      start.plan,
      played(start, (id) => late[id] ?? 0),
    ),
  );
  const found = (id: string) => detail.steps.find((one) => one.id === id) as PacedFinding;
  expect(found('st-announce').timing).toBe('late');
  expect(found('st-brakes').doneAt).toBeLessThan(found('st-announce').doneAt ?? 0);
  expect([found('st-brakes').timing, verdictWords(found('st-brakes'), false)]).toEqual(['in-time', 'in time']);
});

test('a hand still on the tiller a second behind its cue is off by the speed that the deck asks for', () => {
  for (let seed = 0; seed < 20; seed++) {
    const start = startOf(calder, { seat: 'PF', seed, paced: 'take-off-in-time' });
    const { detail } = markedRun(
      calder,
      start,
      givenOfCourse(
        start.plan,
        played(start, (id) => (id === 'ro-tiller' ? 0.95 : 0)),
      ),
    );
    const tiller = detail.steps.find(({ id }) => id === 'ro-tiller') as PacedFinding;
    expect([tiller.timing, tiller.figure?.value]).toEqual(['in-time', 35]);
    expect(tiller.read).toBeLessThanOrEqual(35);
  }
});

const step = (more: Partial<PacedFinding>): PacedFinding => ({
  id: 'x',
  text: 'X',
  state: 'right',
  after: [],
  before: [],
  timing: 'in-time',
  cueAt: 20,
  doneAt: 20.1,
  window: [1, 2],
  inOrder: true,
  behind: [],
  called: true,
  ...more,
});
const kt = (value: number, sense: 'at' | 'by' = 'at') => ({ figure: { value, unit: 'kt' as const, sense } });

test.each<readonly [Partial<PacedFinding>, timed: string, untimed: string]>([
  [{}, '0.1 s after its cue', ''],
  [{ doneAt: 17.7, timing: 'early' }, '2.3 s before its cue', ''],
  [{ doneAt: 20 }, 'at its cue', ''],
  // Nothing but the step before tells its moment.
  [{ doneAt: 18.1 }, 'as soon as it was its turn', ''],
  [{ ...kt(85), read: 85 }, 'at 85 kt, 0.1 s after its cue', 'at 85 kt'],
  [
    { ...kt(60), read: 46, doneAt: 15.4, timing: 'early' },
    'its cue is 60 kt; you did it at 46 kt, 4.6 s before',
    'its cue is 60 kt; you did it at 46 kt',
  ],
  [
    { ...kt(55, 'by'), read: 0, doneAt: 2, timing: 'early' },
    'called at 0 kt, long before its moment: 55 kt is the latest',
    'called at 0 kt, long before its moment: 55 kt is the latest',
  ],
  [{ ...kt(55, 'by'), read: 31, doneAt: 14.9 }, 'called at 31 kt, by 55 kt asked', 'called at 31 kt, by 55 kt asked'],
  [
    { ...kt(35, 'by'), read: 37, called: false },
    'done at 37 kt, by 35 kt asked: so little later is let pass',
    'done at 37 kt, by 35 kt asked: so little later is let pass',
  ],
  // A run of old, that kept no speeds.
  [kt(85), '0.1 s after its cue', ''],
])('%j is told as “%s”, untimed as “%s”', (more, timed, untimed) => {
  const said = (is: boolean) => whenWords(step(more), is).replaceAll('\u00a0', ' ');
  expect([said(false), said(true)]).toEqual([timed, untimed]);
});

test('“by 55 kt” holds up to 55 kt, and the speed of the procedure is told, not that of the run', () => {
  const start = startOf(calder, { paced: 'take-off-in-time' });
  const { detail } = markedRun(
    calder,
    start,
    givenOfCourse(
      start.plan,
      played(start, (id) => (id === 'st-thrust' ? -2.5 : 0)),
    ),
  );
  const thrust = detail.steps.find(({ id }) => id === 'st-thrust') as PacedFinding;
  expect(thrust).toMatchObject({ timing: 'in-time', figure: { value: 55, unit: 'kt', sense: 'by' }, called: true });
  expect(thrust.read).toBeGreaterThan(20);
  expect(thrust.read).toBeLessThan(45);
  const slow = givenOfCourse(start.plan, played(start));
  const at = (slow.cues['st-thrust'] ?? 0) + 5;
  const with55 = (knots: number) =>
    markedRun(calder, start, {
      ...slow,
      acts: slow.acts.map((one) => (one.id === 'st-thrust' ? { ...one, at, knots } : one)),
    }).detail.steps.find(({ id }) => id === 'st-thrust')?.timing;
  expect([with55(55), with55(56)]).toEqual(['in-time', 'late']);
});

test('stick, tiller and ease are each marked by their own cue, and printed in the order of their speeds', () => {
  const start = startOf(calder, { seat: 'PF', paced: 'take-off-in-time' });
  const roll = start.plan.steps.flatMap(({ id, figure }) => (id.startsWith('ro-') && figure ? figure.value : []));
  expect(roll).toEqual([...roll].sort((a, b) => a - b));
  expect(roll.slice(0, 3)).toEqual([35, 60, 85]);
  const { detail } = markedRun(
    calder,
    start,
    givenOfCourse(
      start.plan,
      played(start, (id) => (id === 'ro-ease' ? -4.6 : 0)),
    ),
  );
  const timing = (of: string) => detail.steps.find(({ id }) => id === of)?.timing;
  expect([timing('ro-ease'), timing('ro-tiller'), timing('ro-stick')]).toEqual(['early', 'in-time', 'in-time']);
});

test('no wind is drawn in which the stick stays neutral: there would be nothing to ease', () => {
  for (let seed = 0; seed < 40; seed++)
    for (const paced of ['take-off-in-time', 'engine-may-fail']) {
      const { shown, plan } = startOf(calder, { seat: 'PF', paced, seed });
      expect(plan.steps.some(({ id }) => id === 'ro-ease')).toBe(true);
      // Up to 7 kt without a tailwind (limit stick-light-wind).
      const isLight = Number(shown.wind?.drawn.windSpeed) <= 7 && shown.headwind >= 0;
      expect(isLight, `${paced} ${seed}`).toBe(false);
    }
});

test('“How?” that is not known is told, and costs the step nothing', () => {
  const start = startOf(calder, { seat: 'PF', paced: 'take-off-in-time', stretch: 0 });
  const course = played(start);
  const { detail, marks, flawed } = markedRun(
    calder,
    start,
    givenOfCourse(start.plan, choose(start.plan, course, 'ro-stick', null)),
  );
  expect(detail.rule?.given).toBe('');
  expect(flawed).toBe(true);
  const wrong = Object.entries(marks).filter(([, mark]) => mark !== 'right');
  expect(wrong).toHaveLength(1);
  expect(wrong[0]).toEqual([expect.stringContaining('stick-input'), 'told']);
});

test('buttons that differ by a letter are twins; those that differ by a number or by a short word are not', () => {
  const twins = (a: string, b: string) => isTwin(foldText(a), foldText(b));
  expect(twins('Hand away from the thrust levers', 'Hands away from the thrust lever')).toBe(true);
  expect(twins('Flap lever to zero', 'Flap level to zero')).toBe(true);
  for (const [a, b] of [
    ['Flaps 1', 'Flaps 0'],
    ['Landing lights ON', 'Landing lights OFF'],
    ['“V one”', '“V two”'],
    ['Gear lever up', 'Gear lever'],
    ['Check both N1 at the value', 'Check both EPR at the value'],
  ] as const)
    expect(twins(a, b), `${a} / ${b}`).toBe(false);
  // Own, of the other pilot, and what does not belong: the twins of another are not offered.
  const deck = runDeck({}, [...STEPS, { id: 'hand', by: 'PF', do: 'Look at the brake' }]);
  expect(startOf(deck).others.map(({ text }) => text)).not.toContain('Look at the brake');
  for (const seat of ['PF', 'PM'])
    expect(
      startOf(calder, { seat, paced: 'take-off-in-time' }).others.filter(({ text }) => /away from/.test(text)),
    ).toHaveLength(1);
});
