/**
 * Precedence of two versions by their three numbers (SemVer 2.0.0, 11.2); pre-release and build parts are not looked at.
 * @returns below 0 where a is lower than b, above 0 where it is higher
 */
export const compareVersions = (a: string, b: string): number => {
  const parts = (text: string) => text.split(/[.+-]/, 3).map(Number);
  const [x, y] = [parts(a), parts(b)];
  for (let i = 0; i < 3; i++) if ((x[i] ?? 0) !== (y[i] ?? 0)) return (x[i] ?? 0) - (y[i] ?? 0);
  return 0;
};
