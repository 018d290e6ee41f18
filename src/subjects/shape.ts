/** Building blocks of the deck schema: shape alone. What a deck means is held by the checks beside each shape. */
import * as v from 'valibot';
import { SHOWS, UNITS, type When } from '../model/deck.ts';

/**
 * An object with these keys and no others. valibot takes a list for an object; JSON Schema does not.
 * The key nearest to an unknown one is the message of the issue.
 */
export function object<const T extends v.ObjectEntries>(entries: T) {
  return noList(v.strictObject(entries, (issue) => nearest(String(issue.input), Object.keys(entries))));
}

export function record<const K extends v.GenericSchema<string, string>, const V extends v.GenericSchema>(
  key: K,
  value: V,
) {
  return noList(v.record(key, value));
}

function noList<S extends v.GenericSchema>(schema: S): S {
  const run = schema['~run'].bind(schema) as S['~run'];
  return {
    ...schema,
    '~run': (dataset: { value: unknown }, config: never) =>
      run(Array.isArray(dataset.value) ? { value: null } : dataset, config),
  } as S;
}

/** One of several shapes, picked by what is written, so that an error in it is reported at its own place. */
export interface OneOf<T> extends v.LazySchema<v.GenericSchema<T>> {
  readonly branches: readonly v.GenericSchema[];
}
export const oneOf = <T>(
  branches: readonly v.GenericSchema[],
  pick: (input: unknown) => v.GenericSchema,
): OneOf<T> => ({
  ...v.lazy(pick as (input: unknown) => v.GenericSchema<T>),
  branches,
});

/** Is this an object with that key? */
export const has = (input: unknown, key: string): boolean =>
  typeof input === 'object' && input !== null && Object.hasOwn(input, key);

/** The nearest of some words within two edits (one in a short word); '' where none is near. */
export function nearest(word: string, words: readonly string[]): string {
  let best = '';
  let least = word.length < 4 ? 2 : 3;
  for (const other of words) {
    const d = edits(word.slice(0, 40).toLowerCase(), other.slice(0, 40).toLowerCase());
    if (d < least) [best, least] = [other, d];
  }
  return best;
}

/** Levenshtein's distance. */
function edits(a: string, b: string): number {
  let row = [...Array(b.length + 1).keys()];
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++)
      next[j] = Math.min(
        (next[j - 1] as number) + 1,
        (row[j] as number) + 1,
        (row[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1),
      );
    row = next;
  }
  return row[b.length] as number;
}

const form = (pattern: RegExp) => v.pipe(v.string(), v.regex(pattern));

export const Id = form(/^[a-z0-9][a-z0-9-]*$/);
/** Names in formulas, and members of the crew, who may be called PF. */
export const Name = form(/^[A-Za-z0-9][A-Za-z0-9-]*$/);
/** Choices of a condition stand in formulas as words: they may be written like a name. */
export const Word = form(/^[A-Za-z0-9][A-Za-z0-9-]*$/);
export const Words = v.pipe(v.string(), v.minLength(1));
export const Formula = v.pipe(v.string(), v.minLength(1));
export const DateText = form(/^[0-9]{4}-[0-9]{2}-[0-9]{2}$/);
export const SourceRef = form(/^[a-z0-9][a-z0-9-]*(#.+)?$/);
export const RuleRef = form(/^[a-z0-9][a-z0-9-]*#[a-z0-9][a-z0-9-]*$/);
export const Kept = form(/^[a-z0-9][a-zA-Z0-9.-]*~[0-9a-z]+$/);
export const DeckId = form(/^[a-z0-9][a-z0-9-]*\/[a-z0-9][a-z0-9-]*$/);
/** semver.org, version 2.0.0, without build metadata. */
export const Version = form(/^(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)\.(0|[1-9][0-9]*)(-[0-9A-Za-z-]+(\.[0-9A-Za-z-]+)*)?$/);
export const Language = form(/^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$/);
/** What a reader finds behind it must be a page, not a script. */
export const Url = form(/^https?:\/\/[^ ]+$/);
/** A detached JWS in compact form: header, nothing, and the 64 bytes of an Ed25519 signature. */
export const SignatureText = form(/^[A-Za-z0-9_-]{1,2000}\.\.[A-Za-z0-9_-]{86}$/);
export const UnitName = v.picklist(UNITS);
export const ShowName = v.picklist(SHOWS);
/** A number from 0 on. */
export const Size = v.pipe(v.number(), v.minValue(0));

export const maybe = v.exactOptional;

const NotWhen = object({ not: v.lazy((): v.GenericSchema<When> => WhenShape) });
const AxisIds = v.pipe(v.array(Id), v.minLength(1));
const AxisWanted = oneOf<string | string[]>([Id, AxisIds], (x) => (Array.isArray(x) ? AxisIds : Id));
const AxesWhen = record(Id, AxisWanted);
export const WhenShape: OneOf<When> = oneOf<When>([NotWhen, AxesWhen], (x) =>
  has(x, 'not') && typeof (x as { not: unknown }).not === 'object' && !Array.isArray((x as { not: unknown }).not)
    ? NotWhen
    : AxesWhen,
);

const Range = object({ from: maybe(v.number()), to: maybe(v.number()) });
const Wanted = oneOf<string | boolean | v.InferOutput<typeof Range>>([Word, v.boolean(), Range], (x) =>
  typeof x === 'boolean' ? v.boolean() : typeof x === 'object' ? Range : Word,
);
export const GivenShape = record(Name, Wanted);

const BothWays = object({ plus: Size, minus: Size });
export const BandShape = oneOf<number | v.InferOutput<typeof BothWays>>([Size, BothWays], (x) =>
  typeof x === 'object' ? BothWays : Size,
);

/** Recursive parts and those that come often, by their name in the JSON Schema. */
export const COMMON_DEFINITIONS = {
  When: WhenShape,
  NotWhen,
  AxesWhen,
  Given: GivenShape,
  Band: BandShape,
};
