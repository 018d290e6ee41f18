import fc from 'fast-check';
import { expect, test } from 'vitest';
import { minimize, type Objective } from '../../../src/lib/bfgs.ts';

/** Rosenbrock (1960): a bent valley; least, 0, at (1, 1). */
const rosenbrock: Objective = (at, gradient) => {
  const [x, y] = at as unknown as [number, number];
  gradient[0] = -2 * (1 - x) - 400 * x * (y - x * x);
  gradient[1] = 200 * (y - x * x);
  return (1 - x) ** 2 + 100 * (y - x * x) ** 2;
};

test('finds the bottom of the Rosenbrock valley from its usual start', () => {
  const found = minimize(rosenbrock, [-1.2, 1], { flat: 1e-8, least: 0 });
  expect(found.why).toBe('flat');
  expect(found.x[0]).toBeCloseTo(1, 7);
  expect(found.x[1]).toBeCloseTo(1, 7);
  // Nocedal & Wright 2006, p. 199: BFGS takes 34 iterations from there to a gradient of 1e-5.
  expect(found.steps).toBeLessThan(60);
});

test('finds the least of any quadratic with curvatures from 0.01 to 100', () => {
  const axis = fc.record({
    curvature: fc.double({ min: 0.01, max: 100, noNaN: true }),
    bottom: fc.double({ min: -5, max: 5, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(axis, { minLength: 1, maxLength: 11 }), (axes) => {
      const found = minimize(
        (x, gradient) => {
          let value = 0;
          for (const [i, { curvature, bottom }] of axes.entries()) {
            const off = (x[i] ?? 0) - bottom;
            gradient[i] = curvature * off;
            value += (curvature * off * off) / 2;
          }
          return value;
        },
        axes.map(() => 0),
        { flat: 1e-7, least: 0, steps: 300 },
      );
      for (const [i, { bottom }] of axes.entries()) expect(found.x[i]).toBeCloseTo(bottom, 4);
    }),
    { numRuns: 50 },
  );
});

test('a kink, a wall, and a start at the bottom', () => {
  const kink = minimize(
    (x, gradient) => {
      const at = x[0] ?? 0;
      gradient[0] = at > 2 ? 1 : -1;
      return Math.abs(at - 2);
    },
    [-7],
  );
  expect(kink.x[0]).toBeCloseTo(2, 4);
  // x - ln x: none at or below 0; least at 1.
  const wall = minimize(
    (x, gradient) => {
      const at = x[0] ?? 0;
      gradient[0] = 1 - 1 / at;
      return at > 0 ? at - Math.log(at) : Number.NaN;
    },
    [0.01],
  );
  expect(wall.x[0]).toBeCloseTo(1, 4);
  expect(minimize(rosenbrock, [1, 1])).toMatchObject({ why: 'flat', steps: 0, evaluations: 1 });
});

test('stops when told to, with the best place so far', () => {
  let asked = 0;
  const found = minimize(rosenbrock, [-1.2, 1], { stopped: () => ++asked > 5 });
  expect(found.why).toBe('stopped');
  expect(found.value).toBeLessThan(24.2);
  expect(found.value).toBe(rosenbrock(found.x, new Float64Array(2)));
});
