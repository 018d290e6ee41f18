import type { Comparison, Rise } from './types.ts';

const ORDER: readonly Rise[] = ['none', 'patch', 'minor', 'major'];

const greater = (a: Rise, b: Rise): Rise => (ORDER.indexOf(a) >= ORDER.indexOf(b) ? a : b);

/**
 * How much the version must rise (SemVer 2.0.0, with the contract of a deck in place of an interface): major where an
 * answer changed or a thing went, minor where one came, patch for words. What went counts as major: whoever goes on
 * doing it is now wrong, as with another answer. So does what is done but has no memory of its own: when a step
 * holds, how long to wait, the datum of a limit.
 */
export const riseOf = ({ differences }: Comparison): Rise =>
  differences.reduce<Rise>((most, { rise }) => greater(most, rise), 'none');

const parse = (version: string): readonly [number, number, number, string] | null => {
  const found = /^(\d+)\.(\d+)\.(\d+)(-.+)?$/.exec(version);
  return found ? [Number(found[1]), Number(found[2]), Number(found[3]), found[4] ?? ''] : null;
};

/**
 * The next version. Before 1.0.0 the same rule holds: a deck in use has learners, whatever its number. Of a version
 * with a tag behind (`2.0.0-rc.1`) the one without it, where that is high enough (semver.org, 11.3).
 * @returns the version itself where nothing rises or it is no version
 */
export function risen(version: string, rise: Rise): string {
  const parsed = parse(version);
  if (parsed === null || rise === 'none') return version;
  const [major, minor, patch, tag] = parsed;
  const enough =
    rise === 'patch' || (rise === 'minor' && patch === 0) || (rise === 'major' && minor === 0 && patch === 0);
  if (tag !== '' && enough) return `${major}.${minor}.${patch}`;
  if (rise === 'major') return `${major + 1}.0.0`;
  return rise === 'minor' ? `${major}.${minor + 1}.0` : `${major}.${minor}.${patch + 1}`;
}

/** Below 0: `a` is the lower version. Tags by semver.org, 11.4. Texts that are no versions count as lowest. */
export function compareVersions(a: string, b: string): number {
  const [x, y] = [parse(a), parse(b)];
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

export interface Proposal {
  readonly rise: Rise;
  /** The least version that says enough; the base's own where nothing changed. */
  readonly version: string;
  /** What is wrong with the version that the draft has; null where it rises enough. */
  readonly problem: string | null;
}

const WHY: Readonly<Record<Exclude<Rise, 'none'>, string>> = {
  major: 'an answer changed, or something went',
  minor: 'something was added',
  patch: 'words changed',
};

/**
 * The version for the next revision. An author may raise it further, never less: learners are told by it what to expect.
 * @param base version of the revision that the draft began from
 * @param own version that the draft has now
 */
export function proposeVersion(base: string, own: string, comparison: Comparison): Proposal {
  const rise = riseOf(comparison);
  const version = risen(base, rise);
  if (rise === 'none' || compareVersions(own, version) >= 0) return { rise, version, problem: null };
  const less = compareVersions(own, base) <= 0 ? `the version must rise above ${base}` : `${own} says less than that`;
  return { rise, version, problem: `Since ${base} ${WHY[rise]}: ${less}. Set ${version} or higher.` };
}
