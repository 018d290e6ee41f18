import type { Id, Step } from '../../model/deck.ts';
import { callout, cellWords, plain } from './clean.ts';
import { cueCell, cueOf } from './known.ts';
import type { Fields, Known } from './types.ts';

/** Of which the report speaks by these words. */
export const FIELD_WORDS = {
  by: 'crew',
  do: 'action',
  say: 'callout',
  cue: 'cue',
  limit: 'limit',
  why: 'why',
  slip: 'slip',
  where: 'where',
  source: 'source',
  if: 'condition',
  critical: 'critical',
  answers: 'answers',
} as const;
type Key = keyof typeof FIELD_WORDS;
const KEYS = Object.keys(FIELD_WORDS) as Key[];

/** A field of a step as a cell holds it; '' where it has none. */
export const cellOf = (step: Step, key: Key): string => {
  const value = step[key];
  if (value === undefined) return '';
  if (key === 'cue') return typeof value === 'object' ? plain(cueCell(value as NonNullable<Step['cue']>)) : '';
  if (key === 'critical') return value === true ? 'yes' : '';
  return typeof value === 'string' ? plain(value) : '';
};

const cell = (fields: Fields, key: Key): string | undefined =>
  key === 'critical' ? fields.critical && 'yes' : fields[key] === undefined ? undefined : plain(fields[key] as string);

/** What a table takes away before it reads a cell makes no difference. */
const alike = (key: Key, text: string): string =>
  key === 'do' ? cellWords(text) : key === 'say' ? callout(text) : text;

const inStep = (fields: Fields, key: Key, known: Known): Step[Key] =>
  key === 'cue' ? cueOf(fields.cue as string, known) : (fields[key] as Step[Key]);

/** A step that only the row knows of. */
export const newStep = (id: Id, fields: Fields, known: Known): Step => ({
  id,
  ...Object.fromEntries(
    KEYS.filter((key) => fields[key] !== undefined).map((key) => [key, inStep(fields, key, known)]),
  ),
});

/**
 * A step with what the row says of it. What the row leaves out stays, so an empty cell takes nothing away; only where the
 * step turned from an action into a callout, or back, the words of before go.
 * @returns the same step where the row says nothing else
 */
export const taught = (
  step: Step,
  fields: Fields,
  known: Known,
): { readonly step: Step; readonly changed: readonly string[] } => {
  const keys = KEYS.filter((key) => {
    // A cue that names a limit, a value of the day or an event says more than words of a line.
    if (key === 'cue' && fields.cueInWords && Object.keys(step.cue ?? {}).some((one) => one !== 'text')) return false;
    const now = cell(fields, key);
    return now !== undefined && now !== '' && alike(key, now) !== alike(key, cellOf(step, key));
  });
  if (keys.length === 0) return { step, changed: [] };
  const next = { ...step, ...Object.fromEntries(keys.map((key) => [key, inStep(fields, key, known)])) };
  const turned =
    fields.do === undefined && step.say === undefined
      ? 'do'
      : fields.say === undefined && step.do === undefined
        ? 'say'
        : null;
  if (turned !== null && (fields.do === undefined) !== (fields.say === undefined)) delete next[turned];
  return { step: next, changed: keys.map((key) => FIELD_WORDS[key]) };
};
