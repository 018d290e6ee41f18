import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { checkDeck, checkText } from '../../../src/deck/check.ts';
import { LiveChecker, type LiveRun } from '../../../src/deck/live.ts';
import { TextNumbers } from '../../../src/deck/text-numbers.ts';
import type { Code, Finding } from '../../../src/subjects/finding.ts';
import { BASE, type Change, changed } from '../../fixtures/decks/base.ts';
import { PAIRS } from '../../fixtures/decks/findings.ts';

const today = '2026-11-25';
const textOf = (half: string | Change): string => (typeof half === 'string' ? half : JSON.stringify(changed(half)));

/** To the end. @returns also how often it paused */
const whole = (run: LiveRun): { readonly findings: readonly Finding[]; readonly pauses: number } => {
  if (!run.rest) return { findings: run.findings, pauses: 0 };
  for (let pauses = 0; ; pauses++) {
    const { done, value } = run.rest.next();
    if (done) return { findings: value, pauses };
  }
};

/** Codes that the shape alone gives: with them the command line says nothing else. */
const SHAPE: readonly Code[] = [
  'unknown-key',
  'missing-key',
  'wrong-type',
  'not-a-choice',
  'wrong-form',
  'too-few',
  'too-small',
];

describe('what the command line says, a draft after another', () => {
  const live = new LiveChecker();
  test.each(
    Object.entries(PAIRS).flatMap(([code, { fail, pass }]) => [
      [code, 'fail', textOf(fail)],
      [code, 'pass', textOf(pass)],
    ]),
  )('%s (%s)', (_code, _half, text) => {
    const { deck, findings } = checkText(text, { today });
    const run = whole(live.check(text, today));
    if (deck || !findings.some((f) => SHAPE.includes(f.code))) expect(run.findings).toEqual(findings);
    else expect(run.findings.filter((f) => SHAPE.includes(f.code) || f.line !== undefined)).toEqual(findings);
  });
});

const deckText = (name: string): string => readFileSync(`decks/${name}.deck.json`, 'utf8');

describe('what did not change', () => {
  const withWords = (d: string) => (words: string) => {
    const deck = JSON.parse(d);
    deck.scenarios[0].why = words;
    deck.scenarios[0].situation = `${words} ${deck.scenarios[0].situation}`;
    return JSON.stringify(deck);
  };

  test('words of a scenario draw nothing anew', () => {
    const make = withWords(JSON.stringify(BASE));
    const live = new LiveChecker();
    expect(whole(live.check(make('One.'), today)).findings).toEqual([]);
    expect(live.check(make('Another.'), today)).toEqual({ findings: [], rest: null });
  });

  test('a limit that a rule reads does', () => {
    const live = new LiveChecker();
    const make = (value: number): string =>
      JSON.stringify(
        changed((d) => {
          d.limits.push({
            id: 'most-cross',
            ask: 'Greatest crosswind',
            unit: 'kt',
            sense: 'at most',
            value,
            source: 'som',
          });
          d.scenarios[0].asks[1].choose.rules[0].if = 'cross > limit("most-cross")';
        }),
      );
    const [low, high] = [make(10), make(90)].map((text) => [text, checkText(text, { today }).findings] as const) as [
      readonly [string, readonly Finding[]],
      readonly [string, readonly Finding[]],
    ];
    expect(high[1].map((f) => f.code)).toContain('rule-never');
    expect(low[1].map((f) => f.code)).not.toContain('rule-never');
    for (const [text, findings] of [low, high, low, high])
      expect(whole(live.check(text, today)).findings).toEqual(findings);
  });

  test('draws that were interrupted go on where they were', () => {
    const text = deckText('wind-altimetry');
    const full = whole(new LiveChecker().check(text, today)).pauses;
    const live = new LiveChecker();
    const first = live.check(text, today);
    for (let i = 0; i < Math.floor(full / 2); i++) expect(first.rest?.next().done).toBe(false);
    const deck = JSON.parse(text);
    deck.title = 'Other words';
    const second = whole(live.check(JSON.stringify(deck), today));
    expect(second.pauses).toBeLessThanOrEqual(full - Math.floor(full / 2) + 1);
    expect(second.findings).toEqual(checkDeck(deck, { today }));
  });
});

describe('what is kept of earlier drafts', () => {
  const typed = (i: number): string =>
    JSON.stringify(
      changed((d) => {
        d.limits[0].why = 'x'.repeat(3_000) + i;
        d.limits[0].value = (i % 40) + 1;
        // Now and then a step names nobody, and nothing else than an error is said.
        if (i % 7 === 0) d.procedures[0].steps[0].by = 'nobody';
      }),
    );

  const smallTyped = (i: number): string => {
    const { format, id, version, title, language, nature, sources } = BASE as unknown as Record<string, unknown>;
    const limit = { id: 'a', ask: 'Least of A', unit: 'kt', sense: 'at least', value: (i % 40) + 1, source: 'som' };
    const limits = [{ ...limit, why: 'x'.repeat(500) + i, ...(i % 7 === 0 && { source: 'nowhere' }) }];
    return JSON.stringify({ format, id, version, title, language, nature, sources, limits });
  };

  test('stays below its bound however long somebody types, and what is found is what a fresh check finds', () => {
    const most = 100_000;
    const texts = new TextNumbers(most);
    const live = new LiveChecker(texts);
    let [greatest, all] = [0, 0];
    for (let i = 0; i < 2_000; i++) {
      const text = smallTyped(i);
      all += text.length;
      const run = live.check(text, today);
      greatest = Math.max(greatest, texts.letters);
      if (i % 50 === 0) expect(whole(run).findings).toEqual(checkText(text, { today }).findings);
    }
    expect(all).toBeGreaterThan(10 * most);
    expect(greatest).toBeLessThanOrEqual(most);
    // Not thrown away whole: what was used last is still known.
    expect(greatest).toBeGreaterThan(most / 2);
  });

  test('too little for one draft changes nothing of what is found', () => {
    const live = new LiveChecker(new TextNumbers(2_000));
    for (const i of [0, 1, 7, 1, 0, 8, 8])
      expect(whole(live.check(typed(i), today)).findings).toEqual(checkText(typed(i), { today }).findings);
  });

  test('of a large deck no more than 8 million letters by default', () => {
    const texts = new TextNumbers();
    for (let i = 0; i < 200; i++) texts.of(String(i).padEnd(100_000, 'x'));
    expect(texts.letters).toBe(8_000_000);
  });

  test('the text used longest ago goes first, and its number never comes back', () => {
    const texts = new TextNumbers(6);
    const [a, b] = [texts.of('aa'), texts.of('bb')];
    expect(texts.of('aa')).toBe(a);
    const c = texts.of('ccc');
    expect([texts.of('aa'), texts.of('ccc')]).toEqual([a, c]);
    expect(texts.letters).toBe(5);
    const again = texts.of('bb');
    expect([a, b, c]).not.toContain(again);
    // One that is longer than all that may be kept stands alone.
    texts.of('a long one');
    expect(texts.letters).toBe(10);
    texts.of('d');
    expect(texts.letters).toBe(1);
  });
});

describe('a wrong shape at one place', () => {
  const both = (wrong: (d: never) => void) => {
    const text = JSON.stringify(
      changed((d) => {
        d.procedures[0].steps[0].by = 'nobody';
        wrong(d as never);
      }),
    );
    const { findings, rest } = new LiveChecker().check(text, today);
    expect(rest).toBeNull();
    return findings.map((f) => `${f.code} ${f.path}`);
  };

  test('hides nothing that is wrong elsewhere', () => {
    const found = both(((d: { limits: { value: unknown }[] }) => {
      (d.limits[0] as { value: unknown }).value = '12,';
    }) as never);
    expect(found).toEqual(['wrong-type /limits/0/value', 'unknown-reference /procedures/0/steps/0/by']);
  });

  test('does not make others wrong that name it', () => {
    // The crew that the step names may be the very one whose id is being typed.
    const found = both(((d: { crew: { id: string }[] }) => {
      (d.crew[0] as { id: string }).id = '';
    }) as never);
    expect(found).toEqual(['wrong-form /crew/0/id']);
  });

  test('of a text that is no deck at all nothing else is said', () => {
    for (const text of ['null', '[]', '"x"', '{}', '{', '17'])
      expect(new LiveChecker().check(text, today)).toEqual({
        findings: checkText(text, { today }).findings,
        rest: null,
      });
  });
});
