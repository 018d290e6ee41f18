/** The take-off of a point mass: roll, rotation, climb. SI units and degrees; still air or a steady wind along the runway. */
import type { PacedAeroplane } from '../model/deck.ts';
import { FOOT, forceLeft, GRAVITY, KNOT } from '../subjects/paced/force.ts';

export interface Motion {
  /** s since the start. */
  readonly t: number;
  /** Speed through the air, m/s. */
  readonly air: number;
  /** Along the ground, m. */
  readonly ground: number;
  /** Above the runway, m. */
  readonly height: number;
  /** ° */
  readonly pitch: number;
  /** Speed through the air at lift-off, m/s, and the ground used until then, m; null while on the wheels. */
  readonly off: { readonly air: number; readonly ground: number } | null;
}

export interface Controls {
  /** Engines that give thrust, 0 … all; between whole numbers while thrust comes. */
  readonly engines: number;
  /** Is the nose being raised? */
  readonly rotating: boolean;
  /** Wind from ahead, m/s; from behind negative. */
  readonly headwind: number;
}

/**
 * Step of the integrator, s. Against half of it the demonstration take-off differs by less than 0.01 kt, 0.1 m and 0.1 ft
 * (tests/golden/take-off-run.test.ts).
 */
export const STEP = 0.02;

export const standing = ({ headwind }: Pick<Controls, 'headwind'>): Motion => ({
  t: 0,
  air: headwind,
  ground: 0,
  height: 0,
  pitch: 0,
  off: null,
});

/** kt; a wind from behind shows as 0, as an airspeed indicator does. */
export const knotsOf = ({ air }: Motion): number => Math.max(0, air / KNOT);
/** ft */
export const feetOf = ({ height }: Motion): number => height / FOOT;
/** kt below which an airspeed indicator says nothing (common practice, no source): a wind on the nose is no speed yet. */
const LEAST_READ = 30;
/** As the read-out has them: whole knots, 0 below `LEAST_READ`, and feet in tens. */
export const shownKnots = (motion: Motion): number => {
  const knots = Math.floor(knotsOf(motion));
  return knots < LEAST_READ ? 0 : knots;
};
export const shownFeet = (motion: Motion): number => Math.floor(feetOf(motion) / 10) * 10;

/** s from the first movement of the nose to lift-off: the angle over its rate. */
export const rotationTime = ({ pitchLiftOff, rotationRate }: PacedAeroplane): number => pitchLiftOff / rotationRate;

/**
 * Angle of the flight path, °: pitch less angle of attack, γ = θ − α (from memory: Anderson, Introduction to Flight, ch. 6). In level
 * and nearly level flight lift is weight, so that the lift coefficient goes with 1/v², and α with it on the straight part
 * of the lift curve (same book, ch. 5): α = α(lift-off) · (v(lift-off) / v)². At lift-off the path is level.
 */
export function pathOf(a: PacedAeroplane, { air, pitch, off }: Motion): number {
  if (off === null) return 0;
  return pitch - a.pitchLiftOff * (off.air / Math.max(1, air)) ** 2;
}

interface Rates {
  readonly air: number;
  readonly ground: number;
  readonly height: number;
  readonly pitch: number;
}

/**
 * On the wheels m·dv/dt = T − D − μ·(W − L), see `forceLeft`. In the air m·dv/dt = T − D − W·sin γ, dh/dt = v·sin γ
 * (from memory: Anderson, Introduction to Flight, ch. 6: equations of motion, thrust along the path).
 */
function rates(a: PacedAeroplane, m: Motion, { engines, rotating, headwind }: Controls): Rates {
  const knots = Math.max(0, m.air) / KNOT;
  if (m.off === null) {
    const force = forceLeft(a, knots, engines, 'ground') / a.mass;
    const over = m.air - headwind;
    // Standing still friction holds; it does not push backwards.
    const air = over <= 0 ? Math.max(0, force) : force;
    return { air, ground: Math.max(0, over), height: 0, pitch: rotating ? a.rotationRate : 0 };
  }
  const path = (pathOf(a, m) * Math.PI) / 180;
  return {
    air: forceLeft(a, knots, engines, 'air') / a.mass - GRAVITY * Math.sin(path),
    ground: m.air * Math.cos(path) - headwind,
    height: m.air * Math.sin(path),
    pitch: m.pitch < a.pitchClimb ? a.rotationRate : 0,
  };
}

const moved = (a: PacedAeroplane, m: Motion, r: Rates, dt: number, { headwind }: Controls): Motion => ({
  t: m.t + dt,
  air: m.off === null ? Math.max(headwind, m.air + r.air * dt) : m.air + r.air * dt,
  ground: m.ground + r.ground * dt,
  height: Math.max(0, m.height + r.height * dt),
  pitch: Math.min(a.pitchClimb, m.pitch + r.pitch * dt),
  off: m.off,
});

/** Heun's method: the mean of the rates at both ends of the step; its error over a run shrinks with the square of it. */
function heun(a: PacedAeroplane, m: Motion, c: Controls, dt: number): Motion {
  const first = rates(a, m, c);
  const second = rates(a, moved(a, m, first, dt, c), c);
  const mean: Rates = {
    air: (first.air + second.air) / 2,
    ground: (first.ground + second.ground) / 2,
    height: (first.height + second.height) / 2,
    pitch: (first.pitch + second.pitch) / 2,
  };
  return moved(a, m, mean, dt, c);
}

/**
 * @param m not changed
 * @param dt s, > 0; lift-off within it is met exactly
 */
export function move(a: PacedAeroplane, m: Motion, c: Controls, dt = STEP): Motion {
  if (m.off !== null || !c.rotating) return heun(a, m, c, dt);
  const left = (a.pitchLiftOff - m.pitch) / a.rotationRate;
  if (left > dt) return heun(a, m, c, dt);
  const at = left <= 0 ? m : heun(a, m, c, left);
  const off: Motion = { ...at, pitch: a.pitchLiftOff, off: { air: at.air, ground: at.ground } };
  return dt - Math.max(0, left) <= 0 ? off : heun(a, off, c, dt - Math.max(0, left));
}
