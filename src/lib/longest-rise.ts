/**
 * Mean length of a longest rising subsequence of a random arrangement of n things, 1 for n = 1.
 *
 * The number of arrangements of each shape under the Robinson–Schensted correspondence is the square of the
 * number of standard Young tableaux, the length is the first row (Schensted 1961); tableaux by the hook length
 * formula (Frame, Robinson, Thrall 1954). Exact up to floating point; n ≤ 30 in well under a second.
 */
export function meanLongestRise(n: number): number {
  if (n === 0) return 0;
  let sum = 0;
  const lnFactorial = (k: number): number => {
    let s = 0;
    for (let i = 2; i <= k; i++) s += Math.log(i);
    return s;
  };
  const whole = lnFactorial(n);
  const visit = (left: number, most: number, shape: number[]): void => {
    if (left === 0) {
      let hooks = 0;
      shape.forEach((row, i) => {
        for (let j = 0; j < row; j++) {
          const below = shape.slice(i + 1).filter((r) => r > j).length;
          hooks += Math.log(row - j + below);
        }
      });
      // f² / n!, with f = n! / product of hooks.
      sum += (shape[0] as number) * Math.exp(whole - 2 * hooks);
      return;
    }
    for (let row = Math.min(left, most); row >= 1; row--) visit(left - row, row, [...shape, row]);
  };
  visit(n, n, []);
  return sum;
}
