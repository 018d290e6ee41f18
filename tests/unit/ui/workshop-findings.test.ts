import { signal } from '@preact/signals';
import { describe, expect, test } from 'vitest';
import { checkText } from '../../../src/deck/check.ts';
import { messageOf } from '../../../src/deck/messages.ts';
import { valueAt } from '../../../src/draft/change.ts';
import { findingsOf } from '../../../src/ui/workshop/findings/Provider.tsx';
import { fieldOf, outwards, pageOf } from '../../../src/ui/workshop/findings/places.ts';
import type { LiveFindings } from '../../../src/ui/workshop/model/live.ts';
import { changed } from '../../fixtures/decks/base.ts';
import { PAIRS } from '../../fixtures/decks/findings.ts';

const today = '2026-11-25';

test.each([
  ['', ''],
  ['/title', 'head'],
  ['/reviewBy', 'head'],
  ['/signatures/0', 'hand-over'],
  ['/sources/2/title', 'sources'],
  ['/variants', 'variants'],
  ['/day/0/require/1', 'day'],
  ['/conditions/3', 'conditions'],
  ['/procedures', ''],
  ['/procedures/0', 'procedures/0'],
  ['/procedures/12/steps/3/lanes/0/1/cue/text', 'procedures/12'],
  ['/limits/4/cases/0/value', 'limits/4'],
  ['/scenarios/1/asks/0/choose/rules/2/if', 'scenarios/1'],
])('%s is shown on the page “%s”', (pointer, page) => {
  expect(pageOf(pointer)).toBe(page);
});

test('what lies around a place', () => {
  expect(outwards('/limits/4/a~1b')).toEqual(['/limits/4/a~1b', '/limits/4', '/limits', '']);
});

describe.each(Object.entries(PAIRS))('%s', (_code, { fail }) => {
  test('is about a field of a thing that is there', () => {
    if (typeof fail === 'string') return expect(checkText(fail, { today }).findings.map(fieldOf)).toEqual(['']);
    const deck = changed(fail);
    for (const one of checkText(JSON.stringify(deck), { today }).findings) {
      const field = fieldOf(one);
      expect(field === one.path || outwards(field)[1] === one.path).toBe(true);
      expect(valueAt(deck, one.path)).toBeDefined();
      // A page of a thing is one of a thing that there is.
      const page = pageOf(field);
      if (page.includes('/')) expect(valueAt(deck, `/${page}`)).toBeDefined();
    }
  });
});

test('a missing member is said at the field that it would be in', () => {
  const found = checkText(
    JSON.stringify(
      changed((d) => {
        delete d.limits[1].ask;
        delete d.limits[0].source;
      }),
    ),
    { today },
  ).findings;
  expect(found.map(fieldOf)).toContain('/limits/1/ask');
});

test('fields are told of their own place alone, and anew only when it changes', () => {
  const at = (edit: Parameters<typeof changed>[0]): LiveFindings => ({
    findings: checkText(JSON.stringify(changed(edit)), { today }).findings,
    checking: false,
  });
  const one = at((d) => {
    d.procedures[0].steps[0].by = 'nobody';
  });
  const found = signal(one);
  const findings = findingsOf(found);
  const place = '/procedures/0/steps/0/by';
  const said = findings.at(place);
  expect(said).toEqual([{ severity: 'error', text: messageOf(one.findings[0] as (typeof one.findings)[number]) }]);
  expect(findings.at('/procedures/0/steps/0')).toEqual([]);
  expect(findings.within('/procedures/0')).toBe(true);
  expect(findings.within('/procedures/1')).toBe(false);

  found.value = at((d) => {
    d.procedures[0].steps[0].by = 'nobody';
    d.procedures[1].title = '<b>x</b>';
  });
  expect(findings.at(place)).toBe(said);
  expect(findings.within('/procedures/1')).toBe(true);
  found.value = at(() => {});
  expect(findings.at(place)).toEqual([]);
});
