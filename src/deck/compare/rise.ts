import { compareVersions, versionOf } from '../version.ts';
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

/**
 * The next version. Before 1.0.0 the same rule holds: a deck in use has learners, whatever its number. Of a version
 * with a tag behind (`2.0.0-rc.1`) the one without it, where that is high enough (semver.org, 11.3).
 * @returns the version itself where nothing rises or it is no version
 */
export function risen(version: string, rise: Rise): string {
  const parsed = versionOf(version);
  if (parsed === null || rise === 'none') return version;
  const [major, minor, patch, tag] = parsed;
  const enough =
    rise === 'patch' || (rise === 'minor' && patch === 0) || (rise === 'major' && minor === 0 && patch === 0);
  if (tag !== '' && enough) return `${major}.${minor}.${patch}`;
  if (rise === 'major') return `${major + 1}.0.0`;
  return rise === 'minor' ? `${major}.${minor + 1}.0` : `${major}.${minor}.${patch + 1}`;
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
