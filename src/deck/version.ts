/** Three numbers and a tag such as `-rc.1`, '' where there is none; null where the text is no version (SemVer 2.0.0). */
export const versionOf = (version: string): readonly [number, number, number, string] | null => {
  const found = /^(\d+)\.(\d+)\.(\d+)(-.+)?$/.exec(version);
  return found ? [Number(found[1]), Number(found[2]), Number(found[3]), found[4] ?? ''] : null;
};

/** Below 0: `a` is the lower version. Tags by semver.org, 11.4. Texts that are no versions count as lowest. */
export function compareVersions(a: string, b: string): number {
  const [x, y] = [versionOf(a), versionOf(b)];
  if (x === null || y === null) return Number(x !== null) - Number(y !== null);
  for (const i of [0, 1, 2] as const) if (x[i] !== y[i]) return x[i] - y[i];
  if (x[3] === '' || y[3] === '') return Number(x[3] === '') - Number(y[3] === '');
  return compareTags(x[3].slice(1).split('.'), y[3].slice(1).split('.'));
}

function compareTags(a: readonly string[], b: readonly string[]): number {
  for (let i = 0; i < Math.max(a.length, b.length); i++) {
    const [p, q] = [a[i], b[i]];
    if (p === undefined || q === undefined) return p === undefined ? -1 : 1;
    if (p === q) continue;
    const [n, m] = [p, q].map((x) => (/^\d+$/.test(x) ? Number(x) : Number.NaN)) as [number, number];
    if (!Number.isNaN(n) && !Number.isNaN(m)) return n - m;
    if (Number.isNaN(n) !== Number.isNaN(m)) return Number.isNaN(n) ? 1 : -1;
    return p < q ? -1 : 1;
  }
  return 0;
}
