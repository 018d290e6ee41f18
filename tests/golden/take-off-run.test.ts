/**
 * The take-off of a paced run against closed forms and a textbook's approximation.
 * Constant force: kinematics of any physics textbook, v = a·t, s = v² / (2a).
 * Force falling with v²: dv/dt = A − B·v², so that s = ln(A / (A − B·v²)) / (2B), t = artanh(v·√(B/A)) / √(A·B)
 * (integrated by hand; from memory the same A and B in Marchman, Aerodynamics and Aircraft Performance, ch. 7).
 * Mean force: s = m·v² / (2·F(0.7·v)), the force at seven tenths of the lift-off speed taken for the mean
 * (from memory: Anderson, Introduction to Flight, ch. 6, Takeoff Performance, after Shevell).
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { at } from '../../scripts/lib/paths.mjs';
import type { Deck, PacedAeroplane } from '../../src/model/deck.ts';
import { feetOf, knotsOf, type Motion, move, pathOf, rotationTime, STEP, standing } from '../../src/paced/motion.ts';
import { DENSITY, FOOT, forceLeft, GRAVITY, KNOT, loaded } from '../../src/subjects/paced/force.ts';

const merrow = (JSON.parse(readFileSync(at('decks', 'merrow-takeoff.deck.json'), 'utf8')) as Deck).paced?.[0]
  ?.aeroplane as PacedAeroplane;
/** Without air and friction: a constant force. */
const plain: PacedAeroplane = {
  ...merrow,
  mass: 50_000,
  thrust: 100_000,
  thrustFall: 0,
  dragRolling: 0,
  liftRolling: 0,
  friction: 0,
};
const still = { engines: 2, rotating: false, headwind: 0 };

/** Rolls until that airspeed, m/s; time and distance where it is passed, between two steps by their share. */
const rollTo = (
  a: PacedAeroplane,
  v: number,
  controls = still,
  dt = STEP,
): { readonly t: number; readonly s: number } => {
  let m = standing(controls);
  for (let i = 0; i < 1e6; i++) {
    const next = move(a, m, controls, dt);
    if (next.air >= v) {
      const share = (v - m.air) / (next.air - m.air);
      return { t: m.t + share * dt, s: m.ground + share * (next.ground - m.ground) };
    }
    m = next;
  }
  throw new Error('never so fast');
};
const flown = (a: PacedAeroplane, seconds: number, dt: number): Motion => {
  let m = standing(still);
  while (m.t < seconds - dt / 2) m = move(a, m, { ...still, rotating: m.air >= 70 }, dt);
  return m;
};

describe('the roll', () => {
  test.each([20, 50, 70])('a constant force to %d m/s: time v/a, distance v²/2a', (v) => {
    const { t, s } = rollTo(plain, v);
    expect(t).toBeCloseTo(v / 2, 6);
    // Between two steps the distance is taken as a straight line: a·dt²/8 at most.
    expect(Math.abs(s - v ** 2 / 4)).toBeLessThan(1e-3);
  });

  test('a headwind is speed that need not be gained: (v − w)/a, (v − w)²/2a', () => {
    const { t, s } = rollTo(plain, 70, { ...still, headwind: 10 });
    expect(t).toBeCloseTo(30, 6);
    expect(Math.abs(s - 60 ** 2 / 4)).toBeLessThan(1e-3);
    const behind = rollTo(plain, 70, { ...still, headwind: -5 });
    expect(behind.t).toBeCloseTo(37.5, 6);
  });

  test('forces that grow with v²: the logarithm and the artanh', () => {
    const a: PacedAeroplane = { ...merrow, thrustFall: 0 };
    const A = (a.thrust - a.friction * a.mass * GRAVITY) / a.mass;
    const B = (0.5 * DENSITY * a.wingArea * (a.dragRolling - a.friction * a.liftRolling)) / a.mass;
    const v = 70;
    const { t, s } = rollTo(a, v);
    expect(Math.abs(s - Math.log(A / (A - B * v * v)) / (2 * B))).toBeLessThan(0.005);
    expect(Math.abs(t - Math.atanh(v * Math.sqrt(B / A)) / Math.sqrt(A * B))).toBeLessThan(1e-4);
  });

  test("the textbook's mean force at 0.7 of the speed is met within 3 %", () => {
    const v = 140 * KNOT;
    const { s } = rollTo(merrow, v);
    const textbook = (merrow.mass * v * v) / (2 * forceLeft(merrow, 0.7 * 140, 2, 'ground'));
    expect(Math.abs(s / textbook - 1)).toBeLessThan(0.03);
  });

  test('on the brakes, without thrust, it stands', () => {
    let m = standing(still);
    for (let i = 0; i < 500; i++) m = move(merrow, m, { ...still, engines: 0 });
    expect(m).toMatchObject({ air: 0, ground: 0, height: 0 });
    expect(m.t).toBeCloseTo(10, 9);
  });
});

describe('a mass that goes with V2', () => {
  /** Weight over dynamic pressure and area at V2: the lift coefficient that carries it. */
  const lift = (a: PacedAeroplane, v2: number) => (a.mass * GRAVITY) / (0.5 * DENSITY * (v2 * KNOT) ** 2 * a.wingArea);

  test('is carried by one lift coefficient at any V2, m·g = ½·ρ·v²·S·c_L, and is as written at its own', () => {
    expect(loaded(merrow, { v2: 143 })).toEqual(merrow);
    for (const v2 of [126, 135, 152, 160]) expect(lift(loaded(merrow, { v2 }), v2)).toBeCloseTo(lift(merrow, 143), 12);
    expect(loaded(merrow, { v2: 160 }).mass / merrow.mass).toBeCloseTo(1.2519, 4);
  });

  test('with the thrust planned for it the run grows with the square of V2, and the time with V2', () => {
    const [one, other] = [126, 160].map((v2) => rollTo({ ...loaded(plain, { v2 }) }, v2 * KNOT));
    expect((other?.t ?? 0) / (one?.t ?? 1)).toBeCloseTo(160 / 126, 6);
    expect((other?.s ?? 0) / (one?.s ?? 1)).toBeCloseTo((160 / 126) ** 2, 4);
  });

  test('without a mass by speed, or on a day without that speed, nothing changes', () => {
    const { massAt: _, ...fixed } = merrow;
    expect(loaded(fixed, { v2: 160 })).toBe(fixed);
    expect(loaded(merrow, { v1: 120 })).toBe(merrow);
  });
});

describe('rotation and climb', () => {
  test('the nose takes the pitch at lift-off over the rate: 8.2° at 2.4°/s are 3.417 s', () => {
    expect(rotationTime(merrow)).toBeCloseTo(8.2 / 2.4, 12);
    let m: Motion = { ...standing(still), air: 70 };
    while (m.off === null) m = move(merrow, m, { ...still, rotating: true });
    expect(m.t).toBeGreaterThanOrEqual(8.2 / 2.4);
    expect(m.t - STEP).toBeLessThan(8.2 / 2.4);
  });

  test('at lift-off the path is level; the pitch of the climb is never passed', () => {
    const off = { ...standing(still), air: 75, pitch: merrow.pitchLiftOff, off: { air: 75, ground: 1200 } };
    expect(pathOf(merrow, off)).toBe(0);
    let m: Motion = off;
    for (let i = 0; i < 2000; i++) {
      m = move(merrow, m, { ...still, rotating: true });
      expect(m.pitch).toBeLessThanOrEqual(merrow.pitchClimb);
    }
    expect(m.pitch).toBe(merrow.pitchClimb);
  });

  test('where it no longer gains speed it climbs at sin γ = (T − D)/W, as any textbook has it', () => {
    let m = flown(merrow, 400, STEP);
    for (let i = 0; i < 20_000; i++) m = move(merrow, m, { ...still, rotating: true });
    const before = m;
    m = move(merrow, m, { ...still, rotating: true });
    const rate = (m.height - before.height) / STEP;
    const excess = forceLeft(merrow, m.air / KNOT, 2, 'air') / (merrow.mass * GRAVITY);
    expect(Math.abs(m.air - before.air)).toBeLessThan(1e-6);
    expect(rate / m.air).toBeCloseTo(excess, 6);
  });

  test('with half the step the same to 0.01 kt, 0.1 m and 0.1 ft', () => {
    const [whole, half] = [flown(merrow, 70, STEP), flown(merrow, 70, STEP / 2)];
    // The nose begins to rise at the first step beyond 70 m/s: up to a step apart, which is no error of the integrator.
    expect(feetOf(whole)).toBeGreaterThan(500);
    const rolled = [STEP, STEP / 2].map((dt) => {
      let m = standing(still);
      while (m.t < 30 - dt / 2) m = move(merrow, m, still, dt);
      while (m.t < 60 - dt / 2) m = move(merrow, m, { ...still, rotating: true }, dt);
      return m;
    }) as [Motion, Motion];
    expect(Math.abs(knotsOf(rolled[0]) - knotsOf(rolled[1]))).toBeLessThan(0.01);
    expect(Math.abs(rolled[0].ground - rolled[1].ground)).toBeLessThan(0.1);
    expect(Math.abs(feetOf(rolled[0]) - feetOf(rolled[1]))).toBeLessThan(0.1);
    expect(Math.abs(knotsOf(whole) - knotsOf(half))).toBeLessThan(0.1);
  });
});

test('units: a knot is 1852 m an hour, a foot 0.3048 m (International Hydrographic Conference 1929; yard and pound agreement 1959)', () => {
  expect(knotsOf({ ...standing(still), air: 1852 / 3600 })).toBeCloseTo(1, 12);
  expect(knotsOf({ ...standing(still), air: -5 })).toBe(0);
  expect(feetOf({ ...standing(still), height: 304.8 })).toBeCloseTo(1000, 9);
  expect(100 * KNOT).toBeCloseTo(51.4444, 4);
  expect(FOOT).toBe(0.3048);
});
