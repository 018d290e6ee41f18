import { describe, expect, test } from 'vitest';
import { compareDecks } from '../../../../src/deck/compare/compare.ts';
import { proposeVersion, risen, riseOf } from '../../../../src/deck/compare/rise.ts';
import type { Rise } from '../../../../src/deck/compare/types.ts';
import { compareVersions } from '../../../../src/deck/version.ts';
import { BASE, type Change, changed } from '../../../fixtures/decks/base.ts';

const since = (change: Change) => compareDecks(BASE, changed(change));
const answer: Change = (d) => {
  d.limits[1].value = 9;
};
const words: Change = (d) => {
  d.title = 'Basis';
};
const more: Change = (d) => {
  d.limits.push({ id: 'new', ask: 'New', unit: 'ft', sense: 'exactly', value: 5, source: 'som' });
};

test('the greatest of all differences counts', () => {
  expect(riseOf(since(() => {}))).toBe('none');
  expect(riseOf(since(words))).toBe('patch');
  expect(riseOf(since(more))).toBe('minor');
  expect(
    riseOf(
      since((d) => {
        words(d);
        answer(d);
        more(d);
      }),
    ),
  ).toBe('major');
});

describe('the next version', () => {
  // semver.org 2.0.0, points 6 to 8: lower numbers start again at 0.
  test.each<[string, Rise, string]>([
    ['1.2.3', 'patch', '1.2.4'],
    ['1.2.3', 'minor', '1.3.0'],
    ['1.2.3', 'major', '2.0.0'],
    ['1.2.3', 'none', '1.2.3'],
    ['0.4.1', 'major', '1.0.0'],
    ['9.9.9', 'patch', '9.9.10'],
    // semver.org 2.0.0, point 9: what has a tag comes before the same without one.
    ['2.0.0-rc.1', 'major', '2.0.0'],
    ['2.0.0-rc.1', 'patch', '2.0.0'],
    ['2.1.0-rc.1', 'major', '3.0.0'],
    ['2.1.3-rc.1', 'minor', '2.2.0'],
    ['of today', 'major', 'of today'],
  ])('of %s with %s is %s', (version, rise, next) => {
    expect(risen(version, rise)).toBe(next);
  });

  test('is always higher', () => {
    for (const version of ['0.0.0', '1.2.3', '1.2.0-a', '1.0.0-a.1', '3.0.0-1'])
      for (const rise of ['patch', 'minor', 'major'] as const)
        expect(compareVersions(risen(version, rise), version)).toBeGreaterThan(0);
  });
});

test('versions stand in the order of semver.org 2.0.0, point 11', () => {
  const rising = [
    'none',
    '1.0.0-alpha',
    '1.0.0-alpha.1',
    '1.0.0-alpha.beta',
    '1.0.0-beta',
    '1.0.0-beta.2',
    '1.0.0-beta.11',
    '1.0.0-rc.1',
    '1.0.0',
    '2.0.0',
    '2.1.0',
    '2.1.1',
    '2.1.10',
    '10.0.0',
  ];
  rising.forEach((a, i) => {
    rising.forEach((b, k) => {
      expect(Math.sign(compareVersions(a, b))).toBe(Math.sign(i - k));
    });
  });
});

describe('at hand-over', () => {
  test('the version that is needed is proposed; more is free, less is said', () => {
    expect(
      proposeVersion(
        '1.0.0',
        '1.0.0',
        since(() => {}),
      ),
    ).toEqual({ rise: 'none', version: '1.0.0', problem: null });
    expect(proposeVersion('1.0.0', '2.0.0', since(answer)).problem).toBeNull();
    expect(proposeVersion('1.0.0', '4.1.0', since(words)).problem).toBeNull();
    expect(proposeVersion('1.0.0', '1.1.0', since(answer))).toEqual({
      rise: 'major',
      version: '2.0.0',
      problem: 'Since 1.0.0 an answer changed, or something went: 1.1.0 says less than that. Set 2.0.0 or higher.',
    });
    expect(proposeVersion('1.0.0', '1.0.0', since(more)).problem).toBe(
      'Since 1.0.0 something was added: the version must rise above 1.0.0. Set 1.1.0 or higher.',
    );
    expect(proposeVersion('1.0.0', 'soon', since(words)).problem).toContain('Set 1.0.1 or higher.');
  });
});
