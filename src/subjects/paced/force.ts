/** What moves an aeroplane of a paced run, as far as the checker must know it. */
import type { PacedAeroplane } from '../../model/deck.ts';

/** kg/m³, at sea level (ISO 2533). */
export const DENSITY = 1.225;
/** m/s² (ISO 80000-3). */
export const GRAVITY = 9.80665;
/** m/s in a knot (the international nautical mile of 1852 m in an hour). */
export const KNOT = 1852 / 3600;
/** m in a foot (the international foot). */
export const FOOT = 0.3048;

/**
 * The aeroplane as heavy as its speeds have it. At the stall speed the greatest lift coefficient carries the weight,
 * m·g = ½·ρ·v²·S·c_L, and the speeds of a take-off stand in a fixed ratio to it (14 CFR 25.107(b): V2 is not less than 1.13
 * of it), so that m goes with v², and each take-off leaves the ground with one lift coefficient, at one pitch. The thrust
 * is that planned for the mass, as much of it for each kilogram (reduced thrust: common practice, no source).
 * @param drawn values of the day; without a number for the speed mass and thrust are as written
 */
export function loaded(a: PacedAeroplane, drawn: Readonly<Record<string, unknown>>): PacedAeroplane {
  if (a.massAt === undefined) return a;
  const { speed, value } = a.massAt;
  const knots = drawn[speed];
  if (typeof knots !== 'number' || value <= 0) return a;
  const share = (knots / value) ** 2;
  return { ...a, mass: a.mass * share, thrust: a.thrust * share, thrustFall: a.thrustFall * share };
}

/**
 * What is left to accelerate or climb with, N: thrust less drag, and on the ground less rolling friction under the weight
 * that the wing does not carry yet, `F = T − q·S·c_D − μ·(m·g − q·S·c_L)`, `q = ½·ρ·v²` (from memory: the take-off run of
 * any textbook of flight mechanics, such as Anderson, Aircraft Performance and Design, ch. 6.7).
 * @param knots ≥ 0
 * @param engines that give thrust; between whole numbers while thrust comes or goes
 */
export function forceLeft(a: PacedAeroplane, knots: number, engines: number, where: 'ground' | 'air'): number {
  const v = knots * KNOT;
  const pressed = 0.5 * DENSITY * v * v * a.wingArea;
  const thrust = (Math.max(0, a.thrust - a.thrustFall * v) * engines) / a.engines;
  if (where === 'air') return thrust - pressed * a.dragClimbing;
  const load = Math.max(0, a.mass * GRAVITY - pressed * a.liftRolling);
  return thrust - pressed * a.dragRolling - a.friction * load;
}
