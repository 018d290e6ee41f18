import { readFileSync } from 'node:fs';
import { isDeepStrictEqual } from 'node:util';
import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { checkText } from '../../src/deck/check.ts';
import { LiveChecker, type LiveRun } from '../../src/deck/live.ts';
import { readDeck } from '../../src/deck/read.ts';
import type { Finding } from '../../src/subjects/finding.ts';
import { BASE } from '../fixtures/decks/base.ts';

const today = '2026-11-25';

type Any = { [key: string]: Any } | Any[] | string | number | boolean | null;
interface Place {
  readonly holder: { [key: string]: Any } & Any[];
  readonly key: string | number;
  readonly value: Any;
}

/** Every place of a value but the whole of it. */
const placesOf = (value: Any, out: Place[] = []): Place[] => {
  if (typeof value !== 'object' || value === null) return out;
  for (const [key, one] of Object.entries(value)) {
    out.push({ holder: value as Place['holder'], key: Array.isArray(value) ? Number(key) : key, value: one });
    placesOf(one, out);
  }
  return out;
};

const put = ({ holder, key }: Place, value: Any): void => {
  (holder as { [key: string]: Any })[key as string] = value;
};

interface Edit {
  readonly kind: 'words' | 'value' | 'drop' | 'double' | 'swap' | 'borrow';
  readonly at: number;
  readonly from: number;
  readonly word: string;
  readonly number: number;
}
const edit = fc.record<Edit>({
  kind: fc.constantFrom(
    'words',
    'words',
    'words',
    'words',
    'value',
    'value',
    'value',
    'drop',
    'double',
    'swap',
    'borrow',
  ),
  at: fc.nat(),
  from: fc.nat(),
  word: fc.constantFrom(
    'x',
    '',
    'new',
    'cross > 3',
    'limit("pause") > 1',
    '{v1}',
    '{nothing}',
    '2020-01-01',
    '<b>x</b>',
  ),
  number: fc.constantFrom(0, 1, -1, 7, 40, 0.5, 1e6),
});

const TEXTS: ReadonlySet<string> = new Set(['title', 'why', 'slip', 'note', 'ask', 'do', 'say', 'situation', 'label']);

/** What an author may do, or a slip of the hand. */
const apply = (deck: Any, { kind, at, from, word, number }: Edit): void => {
  const all = placesOf(deck);
  // Words may be anything: such edits leave a right deck right, so that draws are tried.
  const words = all.filter((one) => typeof one.value === 'string' && TEXTS.has(String(one.key)));
  const places = kind === 'words' && words.length > 0 ? words : all;
  const place = places[at % places.length] as Place;
  const other = places[from % places.length] as Place;
  const { holder, key, value } = place;
  if (kind === 'drop') {
    if (Array.isArray(holder)) (holder as Any[]).splice(Number(key), 1);
    else delete holder[key as string];
  } else if (kind === 'double' && Array.isArray(holder))
    (holder as Any[]).splice(Number(key), 0, structuredClone(value));
  else if (kind === 'swap' && Array.isArray(holder)) {
    const k = from % holder.length;
    [(holder as Any[])[Number(key)], (holder as Any[])[k]] = [(holder as Any[])[k] as Any, value];
  } else if (kind === 'borrow' && typeof value === typeof other.value && typeof value !== 'object')
    put(place, other.value);
  else if (kind === 'words') put(place, `${String(value)} ${number}`);
  else if (typeof value === 'number') put(place, number);
  else if (typeof value === 'boolean') put(place, !value);
  else if (typeof value === 'string') put(place, word);
};

const toTheEnd = ({ findings, rest }: LiveRun): readonly Finding[] => {
  if (!rest) return findings;
  for (;;) {
    const { done, value } = rest.next();
    if (done) return value;
  }
};

const deckOf = (name: string): Any => JSON.parse(readFileSync(`decks/${name}.deck.json`, 'utf8'));

/** Without the scenarios that take long. */
const without = (deck: Any, ...ids: string[]): Any => {
  const d = deck as { scenarios: { id: string }[] };
  return { ...d, scenarios: d.scenarios.filter((s) => !ids.includes(s.id)) } as unknown as Any;
};
/** A step may name a scenario that is left out: the rest must be free of errors, or no draw is ever tried. */
const unruled = (deck: Any): Any => {
  for (const { holder, key } of placesOf(deck)) if (key === 'rule') delete holder.rule;
  return deck;
};

const DECKS: readonly (readonly [string, Any, number])[] = [
  ['the base deck', BASE as unknown as Any, 60],
  ['take-off', unruled(without(deckOf('merrow-takeoff'), 'wind-limits', 'stick-input')), 6],
  ['abnormal', unruled(without(deckOf('merrow-abnormal'), 'stop-or-go')), 12],
  ['public rules', deckOf('public-rules'), 12],
  ['wind', without(deckOf('wind-altimetry'), 'runway-limits', 'gust-limit'), 12],
];

/** Random edits of a small deck may miss what is rare: over all decks some of each must have been looked at. */
const seen = { drawn: 0, beside: 0 };
afterAll(() => {
  expect(seen.drawn).toBeGreaterThan(0);
  expect(seen.beside).toBeGreaterThan(0);
});

describe.each(DECKS)('%s', (_name, start, numRuns) => {
  test('however it is edited, what is found live is what a fresh check finds', () => {
    fc.assert(
      fc.property(fc.array(fc.array(edit, { minLength: 1, maxLength: 2 }), { minLength: 2, maxLength: 6 }), (steps) => {
        const live = new LiveChecker();
        let deck = structuredClone(start);
        const past = [deck];
        live.check(JSON.stringify(deck), today).rest?.next();
        for (const edits of steps) {
          // Edits that the checker refuses are taken back now and then, as an author would.
          deck = structuredClone((edits[0]?.at ?? 0) % 3 === 0 ? (past[0] as Any) : deck);
          for (const one of edits) apply(deck, one);
          past.push(deck);
          const text = JSON.stringify(deck);
          const fresh = checkText(text, { today });
          const run = live.check(text, today);
          // Some drafts are left before their draws are done.
          if ((edits[0]?.from ?? 0) % 4 === 0) {
            run.rest?.next();
            continue;
          }
          const found = toTheEnd(run);
          if (run.rest) seen.drawn += 1;
          if (found.length === fresh.findings.length || fresh.deck) expect(found).toEqual(fresh.findings);
          else {
            // Of a wrong shape the command line says no more.
            for (const one of fresh.findings) expect(found).toContainEqual(one);
            expect(fresh.findings.every((f) => f.severity === 'error')).toBe(true);
          }
        }
      }),
      { numRuns },
    );
  });

  test('what is said beside a wrong shape holds without it', () => {
    fc.assert(
      fc.property(
        fc.array(edit, { maxLength: 3 }),
        fc.nat(),
        fc.constantFrom<Any | undefined>('12,', '', 5, null, [], {}, undefined),
        (edits, at, wrong) => {
          const deck = structuredClone(start);
          for (const one of edits) apply(deck, one);
          if (!readDeck(JSON.stringify(deck)).deck) return;
          const before = new LiveChecker().check(JSON.stringify(deck), today).findings;
          const places = placesOf(deck);
          const place = places[at % places.length] as Place;
          if (wrong === undefined && !Array.isArray(place.holder)) delete place.holder[place.key as string];
          else put(place, wrong ?? null);
          const text = JSON.stringify(deck);
          const shape = readDeck(text);
          if (shape.deck) return;
          const { findings } = new LiveChecker().check(text, today);
          const said = findings.filter((f) => !shape.findings.some((g) => isDeepStrictEqual(f, g)));
          for (const one of said) expect(before).toContainEqual(one);
          if (said.length === 0) return;
          seen.beside += 1;
        },
      ),
      { numRuns: start === (BASE as unknown) ? 8 * numRuns : 5 * numRuns },
    );
  });
});
