import type { Deck } from '../model/deck.ts';
import { at, type Code, type Finding } from '../subjects/finding.ts';
import { readValue } from './read.ts';

/** A deck of the right shape made of a draft, and which findings of it hold of the draft too. */
export interface Mended {
  readonly deck: Deck;
  /** Is this so whatever comes to the places that are wrong? */
  holds(finding: Pick<Finding, 'code' | 'path'>): boolean;
}

/** Mending shows what else is missing: a new thing has its members one level after another. */
const MOST_ROUNDS = 12;

/**
 * Puts something of the right shape to each place that has the wrong one.
 * @param text JSON
 * @param shape what `readDeck` says of it
 * @returns null where that comes to no end
 */
export function mend(text: string, shape: readonly Finding[]): Mended | null {
  if (shape.some((f) => f.line !== undefined || f.code === 'too-big')) return null;
  const root: { '': unknown } = { '': JSON.parse(text) };
  const times = new Map<string, number>();
  let wrong = shape;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    for (const [i, finding] of wrong.entries()) if (!put(root, finding, `${round}-${i}`, times)) return null;
    const read = readValue(root['']);
    if (read.deck) return { deck: read.deck, holds: holding([...times.keys()]) };
    wrong = read.findings;
  }
  return null;
}

/** @param name unlike any other @param times how often each place was mended */
function put(root: { '': unknown }, finding: Finding, name: string, times: Map<string, number>): boolean {
  const { code, args } = finding;
  const path = code === 'missing-key' ? at(finding.path, String(args.key)) : finding.path;
  const time = (times.get(path) ?? 0) + 1;
  times.set(path, time);
  const keys = path.split('/').map((key) => key.replaceAll('~1', '/').replaceAll('~0', '~'));
  const key = keys.pop() as string;
  let holder: unknown = root;
  for (const one of keys.length === 0 ? [] : keys) holder = (holder as Record<string, unknown> | undefined)?.[one];
  if (typeof holder !== 'object' || holder === null || time > 3) return false;
  // What is still wrong though something of the right kind stands there has a wrong key.
  const gone = code === 'unknown-key' || (time > 1 && code === 'wrong-form');
  if (gone && !Array.isArray(holder)) delete (holder as Record<string, unknown>)[key];
  else (holder as Record<string, unknown>)[key] = standIn(finding, (holder as Record<string, unknown>)[key], name);
  return true;
}

/** Something of the shape that is wanted. */
function standIn({ code, args }: Finding, here: unknown, name: string): unknown {
  if (code === 'not-a-choice') {
    const [first = ''] = String(args.choices).split(', ');
    return /^\d+$/.test(first) ? Number(first) : first;
  }
  if (code === 'wrong-form') return samples(name).find((one) => matches(String(args.form), one)) ?? name;
  if (code === 'too-small') return args.least;
  if (code === 'too-many') return (here as unknown[]).slice(0, Number(args.most));
  if (code === 'too-few') return Array.isArray(here) ? Array(Number(args.least)).fill(null) : `x${name}`;
  if (code === 'missing-key') return null;
  return BLANK[String(args.wanted)]?.(name) ?? null;
}

const BLANK: Readonly<Record<string, (name: string) => unknown>> = {
  string: (name) => `x${name}`,
  number: () => 1,
  boolean: () => false,
  array: () => [],
  object: () => ({}),
  strict_object: () => ({}),
  record: () => ({}),
  strict_tuple: () => [1, 1],
};

/** One of each form that texts of a deck may have to have. */
const samples = (name: string): string[] => [
  `x${name}`,
  `x${name}#x`,
  `x${name}~x`,
  `x${name}/x`,
  '2000-01-01',
  '1.0.0',
  'en',
  'https://x/',
];

function matches(form: string, sample: string): boolean {
  const [, source, flags] = /^\/(.*)\/([a-z]*)$/s.exec(form) ?? [];
  return source !== undefined && new RegExp(source, flags).test(sample);
}

/** That nothing uses something: whatever comes to a place that is wrong may. */
const UNUSED: ReadonlySet<Code> = new Set<Code>(['condition-unused', 'table-unused', 'nothing-asked']);

/** What a finding says of names, kinds and what stands under them: another place may decide it. */
const OF_OTHERS: ReadonlySet<Code> = new Set<Code>([
  'unknown-reference',
  'id-twice',
  'name-twice',
  'formula-name',
  'formula-kind',
  'formula-result',
  'formula-limit',
  'formula-table',
  'place-unknown',
  'given-unfit',
  'limit-asks-day',
  'wait-unit',
  'use-cycle',
  'too-many-steps',
  'read-list-run',
  'source-missing',
  'edition-alone',
  'paced-never',
  'table-unused',
]);

/** Members that no other thing reads. */
const OWN: ReadonlySet<string> = new Set([
  ...['title', 'why', 'slip', 'slips', 'note', 'text', 'do', 'say', 'alsoDo', 'alsoSay', 'ask', 'situation', 'starts'],
  ...['value', 'accept', 'critical', 'strict', 'reference', 'show', 'keeps', 'number', 'require', 'cue', 'until'],
  ...['ifNoAnswer', 'where', 'by', 'calledBy', 'called', 'answers', 'needs', 'after', 'limit', 'rule', 'picture'],
  ...['issued', 'url', 'strangers', 'aeroplane', 'cues', 'tolerance', 'tolerances', 'wind', 'failure'],
  ...['x', 'y', 'width', 'height'],
]);

const THING =
  /^\/(?:(?:procedures|limits|scenarios|paced|areas|sources|variants|crew|day|conditions)\/\d+)(?:\/(?:steps\/\d+|lanes\/\d+\/\d+))*/;

/** @param places pointers that were mended */
function holding(places: readonly string[]): Mended['holds'] {
  const regions = places.map((path) => THING.exec(path)?.[0] ?? path);
  const own = places.every((path, i) => {
    const [, member] = path.slice((regions[i] as string).length).split('/');
    return member !== undefined && OWN.has(member) && !/\/(?:id|given)(?:\/|$)/.test(path);
  });
  const touched = (path: string): boolean =>
    places.some((place, i) => {
      const region = regions[i] as string;
      if (place === path || place.startsWith(`${path}/`)) return true;
      if (path !== region && !path.startsWith(`${region}/`)) return false;
      // Of a procedure, its steps are things of their own.
      return !(isProcedure(region) && path.startsWith(`${region}/steps/`) && !place.startsWith(`${region}/steps`));
    });
  const dates = places.some((path) => !path.slice(1).includes('/'));
  return ({ code, path }) => {
    if (touched(path) || UNUSED.has(code) || (!own && OF_OTHERS.has(code))) return false;
    // Members of the deck itself, most of all its dates, are held against one another.
    return !(dates && path !== '' && !path.slice(1).includes('/'));
  };
}

const isProcedure = (region: string): boolean => /^\/procedures\/\d+$/.test(region);
