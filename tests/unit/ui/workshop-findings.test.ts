import { signal } from '@preact/signals';
import { describe, expect, test } from 'vitest';
import { checkText } from '../../../src/deck/check.ts';
import { blankDeck, blankLimit } from '../../../src/draft/blank.ts';
import { apply, insert, put, valueAt } from '../../../src/draft/change.ts';
import type { Json } from '../../../src/lib/canonical-json.ts';
import { calledAt } from '../../../src/ui/workshop/findings/labels.ts';
import { findingsOf } from '../../../src/ui/workshop/findings/Provider.tsx';
import { fieldOf, outwards, pageOf } from '../../../src/ui/workshop/findings/places.ts';
import { createQuiet } from '../../../src/ui/workshop/findings/quiet.ts';
import { formWords, listWords } from '../../../src/ui/workshop/findings/words.ts';
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
  const findings = findingsOf(found, { value: signal(changed(() => {})) });
  const place = '/procedures/0/steps/0/by';
  const said = findings.at(place);
  expect(said).toEqual([{ severity: 'error', text: formWords(one.findings[0] as (typeof one.findings)[number]) }]);
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

const foundIn = (doc: Json) => checkText(JSON.stringify(doc), { today }).findings;

test('in a form and in the lists nothing is said in the words of a file', () => {
  for (const { fail } of Object.values(PAIRS)) {
    if (typeof fail === 'string') continue;
    const doc = changed(fail) as unknown as Json;
    for (const one of foundIn(doc)) {
      const words = listWords(one, doc);
      expect(words).toMatch(/^\S.*[.?]$/s);
      expect(words).not.toMatch(
        /“(require|let|if|from|nearV1|source|edition|value|is|cases|given|when|needs|answers|after|do|say|done|cue|why|until|unit|limit|steps|lanes|strict|show)”|quotation mark|\[ \]|\{ \}|\bid\b/,
      );
    }
  }
});

test('what is empty is named by its field; what is chosen says so', () => {
  const doc = changed((d) => {
    d.title = '';
    d.limits[0].ask = '';
    d.limits.push({ id: 'fact', ask: 'Flaps?', source: 'som', options: { a: 'A', b: 'B' }, is: '' });
    d.limits.push({ id: 'cased', ask: 'Height?', source: 'som', unit: 'ft', sense: 'at least' });
    Object.assign(d.limits.at(-1), {
      cases: [
        { id: 'case-1', value: 1 },
        { id: 'case-2', value: '' },
      ],
    });
  }) as unknown as Json;
  const said = foundIn(doc).map((one) => listWords(one, doc));
  expect(said).toContain('Title: must not stay empty.');
  expect(said).toContain('Question: must not stay empty.');
  expect(said).toContain('Right answer: Choose the right answer.');
  expect(said).toContain('Case 2, Value: A number is needed here.');
  expect(calledAt(doc, '/limits/6/table/rows/1/0').trail).toEqual(['Row 2']);
  expect(calledAt(doc, '/scenarios/0/draw/runway/oneOf/1').trail).toEqual(['Value 1', 'Numbers 2']);
  expect(calledAt(doc, '/scenarios/0/asks/1/choose/rules/0/if').trail).toEqual(['Question 2', 'Rule 1', 'If']);
});

test('a circle of steps and cases that overlap are told by words and numbers', () => {
  const { 'order-cycle': cycle, 'case-overlap': overlap } = PAIRS;
  for (const [pair, names] of [
    [cycle, /circle: “[^”]*[A-Z ][^”]*”, then “/],
    [overlap, /Case 1 and Case 2 can hold at once/],
  ] as const) {
    const doc = changed(pair.fail as Parameters<typeof changed>[0]) as unknown as Json;
    expect(
      foundIn(doc)
        .map((one) => formWords(one, doc))
        .join('\n'),
    ).toMatch(names);
  }
});

test('an empty box of a thing just made is told once it was left, or on coming back, or when it was asked for', () => {
  const value = signal(changed(() => {}) as unknown as Json);
  const quiet = createQuiet({ value });
  const place = `/limits/${(valueAt(value.value, '/limits') as readonly Json[]).length}`;
  const page = place.slice(1);
  const shown = () =>
    foundIn(value.value)
      .filter((one) => !quiet.is(one))
      .map(fieldOf);
  value.value = apply(value.value, [insert('/limits', Number(place.split('/')[2]), blankLimit(value.value))]);
  // The first page counts all.
  expect(shown()).toContain(`${place}/ask`);
  quiet.visit(page);
  expect(shown()).toEqual([]);
  quiet.left(`${place}/ask`);
  expect(shown()).toEqual([`${place}/ask`]);
  // What is wrong, not empty, is told at once.
  value.value = apply(value.value, [put(value.value, `${place}/value`, '12x')]);
  expect(shown()).toContain(`${place}/value`);
  value.value = apply(value.value, [
    put(value.value, `${place}/ask`, 'Height?'),
    put(value.value, `${place}/unit`, ''),
  ]);
  expect(shown()).not.toContain(`${place}/unit`);
  quiet.wake(page);
  expect(shown()).toContain(`${place}/unit`);
});

test('of what was there before everything is told; of a deck begun now nothing until it was come to', () => {
  const before = signal(
    changed((d) => {
      d.title = '';
    }) as unknown as Json,
  );
  const old = createQuiet({ value: before });
  old.visit('head');
  expect(foundIn(before.value).some((one) => fieldOf(one) === '/title' && !old.is(one))).toBe(true);
  const value = signal(blankDeck(today));
  const quiet = createQuiet({ value });
  const titled = () => foundIn(value.value).some((one) => fieldOf(one) === '/title' && !quiet.is(one));
  quiet.visit('head');
  expect(titled()).toBe(false);
  quiet.visit('sources');
  expect(titled()).toBe(true);
  quiet.visit('head');
  expect(titled()).toBe(true);
});
