import { type PacedStart, type PacedWish, startPaced } from '../../../src/drill/paced.ts';
import { mark } from '../../../src/forms/registry.ts';
import type { Deck, Node, Paced, PacedAeroplane, Procedure } from '../../../src/model/deck.ts';
import type { PacedDetail, PacedGiven } from '../../../src/model/form.ts';
import { act, advance, begin, type Course, givenOfCourse } from '../../../src/paced/course.ts';
import type { Resolved } from '../../../src/subjects/resolved.ts';
import { resolved } from '../forms/small-decks.ts';

/** An invented aeroplane: off the ground in some 30 s. */
export const AEROPLANE: PacedAeroplane = {
  mass: 50_000,
  thrust: 180_000,
  thrustFall: 500,
  engines: 2,
  spoolUp: 3,
  wingArea: 110,
  dragRolling: 0.06,
  liftRolling: 0.4,
  friction: 0.02,
  dragClimbing: 0.09,
  rotationRate: 3,
  pitchLiftOff: 8,
  pitchClimb: 14,
};

export const STEPS: readonly Node[] = [
  { id: 'set', by: 'PF', do: 'Set take-off thrust' },
  { id: 'checked', by: 'PM', say: 'Power set', needs: ['set'], cue: { text: 'both gauges steady' } },
  { id: 'eighty', by: 'PM', say: 'Ninety', cue: { limit: 'cross-check' } },
  { id: 'answer', by: 'PF', say: 'Alive', answers: 'eighty' },
  { id: 'vee', by: 'PM', say: 'V one', cue: { day: 'v1' } },
  { id: 'rotate', by: 'PM', say: 'Up', cue: { day: 'vr' } },
  { id: 'nose', by: 'PF', do: 'Raise the nose', answers: 'rotate' },
  { id: 'climb', by: 'PM', say: 'Climbing', needs: ['nose'], cue: { text: 'altimeter rises' } },
  { id: 'gear', by: 'PF', say: 'Wheels up', answers: 'climb' },
  { id: 'lever', by: 'PM', do: 'Wheel lever up', answers: 'gear' },
  { id: 'wait', by: 'PM', do: 'Look at the brakes', after: { step: 'lever', atLeast: { value: 5, unit: 's' } } },
];

export const DECK: Partial<Deck> = {
  day: [
    { id: 'v1', label: 'V1', unit: 'kt', from: 118, to: 122 },
    { id: 'vr', label: 'VR', unit: 'kt', from: 128, to: 132 },
  ],
  conditions: [{ id: 'out', label: 'Engines', yes: 'One engine has stopped', no: 'Both engines run' }],
  limits: [{ id: 'cross-check', ask: 'Cross-check', unit: 'kt', sense: 'exactly', value: 90, source: 'inv' }],
};

export const procedureOf = (steps: readonly Node[], more: Partial<Procedure> = {}): Procedure => ({
  id: 'take-off',
  title: 'Take-off',
  done: 'memory',
  strangers: ['Brakes off twice', 'Lights to dim', 'Doors to park', 'Pump to high'],
  steps,
  ...more,
});

const pacedOf = (more: Partial<Paced> = {}): Paced => ({
  id: 'in-time',
  title: 'In time',
  starts: 'Lined up. V1 {v1} kt, VR {vr} kt',
  procedures: ['take-off'],
  aeroplane: AEROPLANE,
  cues: [
    { step: 'set', moment: 'start' },
    { step: 'checked', after: 'set', seconds: 4 },
    { step: 'climb', moment: 'climbing' },
  ],
  tolerance: { early: 1, late: 2 },
  sets: 'set',
  rotates: 'nose',
  ...more,
});

export const runDeck = (
  paced: Partial<Paced> = {},
  steps: readonly Node[] = STEPS,
  more: Partial<Deck> = {},
): Resolved => resolved({ ...DECK, procedures: [procedureOf(steps)], paced: [pacedOf(paced)], ...more });

/** Everything was read. */
export const readAll = ({ deck, views }: Resolved) => ({
  items: new Map(),
  read: new Map(
    views.flatMap(({ procedures }) =>
      procedures.flatMap(({ situations }) =>
        situations.flatMap(({ steps }) => steps.map(({ step }) => [`${deck.id}#${step.id}`, 1] as const)),
      ),
    ),
  ),
});

export const startOf = (all: Resolved, wish: Partial<PacedWish> = {}): PacedStart => {
  const id = all.deck.paced?.[0]?.id ?? '';
  const start = startPaced(all, readAll(all), { paced: id, seat: 'PM', stretch: 1, seed: 1, ...wish });
  if (start === null) throw new Error('cannot be drawn');
  return start;
};

/** s after the cue at which a step is done; null: not at all. Before the cue it cannot wait for it: see `played`. */
export type Pilot = (id: string) => number | null;

/**
 * A run as that pilot does it. What is done before its cue is done at the time that a pilot without fault had the cue.
 */
export const played = (
  { plan }: PacedStart,
  pilot: Pilot = () => 0,
  extras: readonly { id: string; at: number }[] = [],
): Course => {
  const perfect = runs(plan, () => 0, {}, []);
  return runs(plan, pilot, perfect.cues, extras);
};

function runs(
  plan: PacedStart['plan'],
  pilot: Pilot,
  known: Course['cues'],
  extras: readonly { id: string; at: number }[],
): Course {
  let c = begin(plan);
  const left = [...extras];
  for (let i = 0; i < 1e5 && c.ended === null; i++) {
    const { t } = c.motion;
    if (c.asked !== null) c = act(plan, c, (c.failed ?? 0) < (plan.v1 ?? 0) ? 'stop' : 'go');
    for (const id of plan.expected) {
      const off = pilot(id);
      const cue = c.cues[id];
      if (off === null || Object.hasOwn(c.done, id) || Object.hasOwn(c.dropped, id)) continue;
      if (off < 0 ? t >= (known[id] ?? Number.NaN) + off - 1e-9 : cue !== undefined && t >= cue + off - 1e-9)
        c = act(plan, c, id);
    }
    for (const one of left.filter(({ at }) => at <= t)) {
      left.splice(left.indexOf(one), 1);
      c = act(plan, c, one.id, `text of ${one.id}`);
    }
    c = advance(plan, c, 1);
  }
  return c;
}

export const markedRun = (all: Resolved, { shown, variant, plan }: PacedStart, given: PacedGiven | null) => {
  const question = { form: 'paced' as const, about: { thing: plan.paced.id }, variant, proves: [] };
  const marked = mark(all, question, shown, given);
  if (marked.detail.form !== 'paced') throw new Error(marked.detail.form);
  return { ...marked, detail: marked.detail as PacedDetail };
};

export const markedAs = (
  all: Resolved,
  start: PacedStart,
  pilot?: Pilot,
  extras?: readonly { id: string; at: number }[],
) => markedRun(all, start, givenOfCourse(start.plan, played(start, pilot, extras)));

/** Own steps and how each was in time: "vee in-time". */
export const timings = ({ steps }: PacedDetail): string[] =>
  steps.filter(({ timing }) => timing !== 'played').map(({ id, timing }) => `${id} ${timing}`);
