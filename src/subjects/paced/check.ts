import type { DayValue, Id, Paced, PacedAeroplane, PacedCue, PacedFailure } from '../../model/deck.ts';
import { isNumberAsk, isNumberLimit } from '../../model/deck.ts';
import { type Checking, checkSource, checkText, MOST, refer } from '../check.ts';
import { at } from '../finding.ts';
import { asksOrder } from '../procedure/words.ts';
import { forceLeft, loaded } from './force.ts';
import { stepsPlayed } from './steps.ts';

/** What the text of a paced run says by itself: what it names, when its steps come, whether the aeroplane flies. */
export function checkPaced(c: Checking, paced: Paced, path: string): void {
  const { things, names } = c;
  checkText(c, paced.title, at(path, 'title'), MOST.title, new Map());
  checkText(c, paced.starts, at(path, 'starts'), MOST.situation, names);
  checkSource(c, paced, path, undefined);
  paced.procedures.forEach((id, i) => {
    const here = at(path, 'procedures', i);
    if (!refer(c, 'procedure', id, things.procedures.keys(), here)) return;
    const procedure = things.procedures.get(id);
    if (procedure && !asksOrder(procedure)) c.add('paced-read', here, { title: procedure.title });
  });
  checkOnce(c, paced.procedures, (i) => at(path, 'procedures', i));

  const steps = stepsPlayed(things, paced);
  const step = (id: Id, here: string): boolean => refer(c, 'step of these procedures', id, steps.keys(), here);
  paced.cues?.forEach((cue, i) => {
    const here = at(path, 'cues', i);
    step(cue.step, at(here, 'step'));
    if (cue.after !== undefined) {
      step(cue.after, at(here, 'after'));
      if (cue.after === cue.step) c.add('paced-cue', here);
    }
    if (!saysWhen(cue)) c.add('paced-cue', here);
    if (cue.moment === 'failure' && !paced.failure) c.add('paced-moment', at(here, 'moment'));
  });
  for (const key of ['cues', 'tolerances'] as const) {
    const list = paced[key] ?? [];
    checkOnce(
      c,
      list.map((one) => one.step),
      (i) => at(path, key, i, 'step'),
    );
  }
  paced.tolerances?.forEach((one, i) => {
    step(one.step, at(path, 'tolerances', i, 'step'));
  });
  for (const key of ['sets', 'rotates'] as const) {
    const id = paced[key];
    if (id !== undefined) step(id, at(path, key));
  }
  if (paced.rotates === undefined)
    paced.cues?.forEach((cue, i) => {
      const { height, moment } = cue;
      const inTheAir = height !== undefined || moment === 'lift-off' || moment === 'climbing';
      if (inTheAir && saysWhen(cue)) c.add('paced-ground', at(path, 'cues', i));
    });
  if (paced.wind !== undefined) checkWind(c, paced.wind, at(path, 'wind'));
  if (paced.without !== undefined) checkWithout(c, paced, at(path, 'without'));
  if (paced.failure) checkFailure(c, paced.failure, at(path, 'failure'));
  checkFlies(c, paced, at(path, 'aeroplane'));
}

/** One of four: at a speed, at a height, so long after another step, at a moment. */
const saysWhen = ({ speed, height, after, seconds, moment }: PacedCue): boolean =>
  [speed, height, after, moment].filter((one) => one !== undefined).length === 1 &&
  (seconds === undefined) === (after === undefined);

function checkOnce(c: Checking, ids: readonly Id[], path: (i: number) => string): void {
  ids.forEach((id, i) => {
    if (ids.indexOf(id) < i) c.add('paced-twice', path(i), { id });
  });
}

/** A question with choices, over a wind that is drawn. */
function checkWind(c: Checking, wind: string, path: string): void {
  const [id = '', question = ''] = wind.split('#');
  if (!refer(c, 'scenario', id, c.things.scenarios.keys(), path)) return;
  const scenario = c.things.scenarios.get(id);
  const asks = scenario?.asks ?? [];
  if (
    !refer(
      c,
      `question of ${id}`,
      question,
      asks.map((ask) => ask.id),
      path,
    )
  )
    return;
  const ask = asks.find((one) => one.id === question);
  const drawn = ['runway', 'windDir', 'windSpeed'].every((name) => Object.hasOwn(scenario?.draw ?? {}, name));
  if (!drawn || (ask && isNumberAsk(ask))) c.add('paced-wind', path, { id: wind });
}

/** Rules of the wind's question; not all of them. */
function checkWithout(c: Checking, { wind = '', without = [] }: Paced, path: string): void {
  const [id = '', question = ''] = wind.split('#');
  const ask = c.things.scenarios.get(id)?.asks.find((one) => one.id === question);
  const rules = ask === undefined || isNumberAsk(ask) ? [] : ask.choose.rules.map((rule) => rule.id);
  without.forEach((rule, i) => {
    refer(c, `rule of ${wind === '' ? 'the wind' : wind}`, rule, rules, at(path, i));
  });
  if (rules.length > 0 && rules.every((rule) => without.includes(rule))) c.add('paced-without', path);
}

function speedOfDay(c: Checking, name: string, path: string): DayValue | undefined {
  const speeds = (c.deck.day ?? []).filter((one) => one.unit === 'kt');
  const ids = speeds.map((one) => one.id);
  refer(c, 'speed of the day in kt', name, ids, path);
  return speeds.find(({ id }) => id === name);
}

function checkFailure(c: Checking, failure: PacedFailure, path: string): void {
  const events = (c.deck.conditions ?? []).filter((one) => 'yes' in one).map((one) => one.id);
  refer(c, 'yes/no condition', failure.condition, events, at(path, 'condition'));
  speedOfDay(c, failure.speed, at(path, 'speed'));
  if (failure.share > 1) c.add('paced-share', at(path, 'share'), { share: failure.share });
  if (failure.from > failure.to) c.add('range-empty', path, { from: failure.from, to: failure.to });
}

/**
 * kt: the greatest speed at which a step comes on the runway, at all, and whatever the day's speeds are; 0 where none comes
 * at a speed.
 */
function speedsOf(c: Checking, paced: Paced): Readonly<Record<'ground' | 'air' | 'fixed', number>> {
  const own = (paced.cues ?? []).flatMap(({ speed }) => speed ?? []);
  const days: number[] = [];
  const limits: number[] = [];
  for (const { cue } of stepsPlayed(c.things, paced).values()) {
    const day = c.deck.day?.find((one) => one.id === cue?.day && one.unit === 'kt');
    if (day) days.push(day.to);
    const limit = c.things.limits.get(cue?.limit ?? '');
    if (limit && isNumberLimit(limit) && limit.unit === 'kt')
      for (const { value, to } of limit.cases ?? [limit]) limits.push(value ?? to ?? 0);
  }
  // Flaps go up at speeds of limits; what the day gives, V1 and VR, is reached on the runway.
  const fixed = Math.max(0, ...own, ...limits);
  const air = Math.max(fixed, ...days);
  return { air, fixed, ground: days.length > 0 ? Math.max(...days) : air };
}

/** @returns the aeroplane at its heaviest, and at its lightest */
function checkMass(c: Checking, a: PacedAeroplane, path: string): readonly [PacedAeroplane, PacedAeroplane] {
  if (a.massAt === undefined) return [a, a];
  const { speed, value } = a.massAt;
  const here = at(path, 'massAt');
  if (value === 0) c.add('paced-zero', at(here, 'value'));
  const found = speedOfDay(c, speed, at(here, 'speed'));
  return [loaded(a, { [speed]: found?.to }), loaded(a, { [speed]: found?.from })];
}

/** Does it get up to the speeds of its cues, climb, and climb after a failure? */
function checkFlies(c: Checking, paced: Paced, path: string): void {
  const { aeroplane: written, failure } = paced;
  const [a, light] = checkMass(c, written, path);
  for (const key of ['mass', 'thrust', 'engines', 'wingArea', 'rotationRate', 'pitchLiftOff'] as const)
    if (a[key] === 0) c.add('paced-zero', at(path, key));
  if (!Number.isInteger(a.engines)) c.add('paced-engines', at(path, 'engines'), { engines: a.engines });
  if (a.pitchClimb < a.pitchLiftOff)
    c.add('paced-pitch', at(path, 'pitchClimb'), { climb: a.pitchClimb, off: a.pitchLiftOff });
  if (a.mass === 0 || a.engines === 0) return;
  const { ground, air, fixed } = speedsOf(c, paced);
  const never = (what: string, member: string, kt: number): void =>
    c.add('paced-never', at(path, member), { what, kt: Math.round(kt) });
  // On the ground what is left may fall and rise again: drag grows while the wheels are relieved.
  for (let kt = 0; kt <= ground; kt += 5)
    if (forceLeft(a, kt, a.engines, 'ground') <= 0) {
      never('roll', 'thrust', kt);
      return;
    }
  if (forceLeft(a, air, a.engines, 'air') <= 0) never('climb', 'dragClimbing', air);
  else if (forceLeft(light, fixed, a.engines, 'air') <= 0) never('climb', 'dragClimbing', fixed);
  else if (failure && forceLeft(a, ground, a.engines - 1, 'air') <= 0) never('out', 'dragClimbing', ground);
}
