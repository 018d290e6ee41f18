import type { Json } from '../../lib/canonical-json.ts';
import type {
  Area,
  Paced,
  PacedCue,
  PacedFailure,
  PacedMassAt,
  PacedMoment,
  PacedTolerance,
} from '../../model/deck.ts';
import { at } from '../../subjects/finding.ts';
import { fieldName, fieldWords, type Saying } from './field-words.ts';
import { type Field, plainFields } from './fields.ts';
import type { Put } from './parts.ts';

const MOMENTS: Readonly<Record<PacedMoment, string>> = {
  start: 'at the start',
  'lift-off': 'at lift-off',
  climbing: 'once it climbs',
  failure: 'when the engine fails',
};

/** A paced run, member by member; nobody's memory hangs on it. */
export function pacedParts(s: Saying, paced: Paced, path: string, put: Put): void {
  const {
    procedures,
    aeroplane,
    cues = [],
    tolerance,
    tolerances = [],
    wind,
    without = [],
    sets,
    rotates,
    failure,
    ...plain
  } = paced;
  const fields = plainFields(s, plain, path);
  const add = (key: string, name: string, raw: unknown, words: string, ...under: (string | number)[]): void => {
    const field: Field = { name, raw: raw as Json, words, path: at(path, ...under), items: [] };
    fields.set(key, field);
  };
  const titles = procedures.map((id) => s.things.procedures.get(id)?.title ?? id).join(', then ');
  add('procedures', 'procedures', procedures, titles, 'procedures');
  const { massAt, ...sizes } = aeroplane;
  if (massAt)
    add('aeroplane massAt', 'aeroplane: mass and thrust by speed', massAt, massWords(s, massAt), 'aeroplane', 'massAt');
  for (const [key, value] of Object.entries(sizes))
    add(`aeroplane ${key}`, `aeroplane: ${fieldName(key)}`, value, String(value), 'aeroplane', key);
  cues.forEach((cue, i) => {
    add(`cue ${cue.step}`, `when ${s.step(cue.step)} comes`, cue, cueWords(s, cue), 'cues', i);
  });
  add('tolerance', 'tolerance', tolerance, toleranceWords(tolerance), 'tolerance');
  tolerances.forEach((one, i) => {
    add(`tolerance ${one.step}`, `tolerance of ${s.step(one.step)}`, one, toleranceWords(one), 'tolerances', i);
  });
  if (sets !== undefined) add('sets', 'step that sets the thrust', sets, s.step(sets), 'sets');
  if (rotates !== undefined) add('rotates', 'step that raises the nose', rotates, s.step(rotates), 'rotates');
  if (without.length > 0) add('without', 'winds that are not drawn', without, without.join(', '), 'without');
  if (wind !== undefined) add('wind', 'wind', wind, fieldWords(s, 'rule', wind), 'wind');
  if (failure) add('failure', 'engine failure', failure, failureWords(s, failure), 'failure');
  put({
    key: `paced ${paced.id}`,
    parent: null,
    path,
    label: `Paced run: ${paced.title}`,
    says: titles,
    of: 'things',
    variants: '',
    fields,
  });
}

function cueWords(s: Saying, { speed, height, after, seconds, moment }: PacedCue): string {
  if (moment !== undefined) return MOMENTS[moment];
  if (speed !== undefined) return `at ${speed} kt`;
  if (height !== undefined) return `at ${height} ft`;
  return after === undefined ? '' : `${seconds ?? 0} s after ${s.step(after)}`;
}

const toleranceWords = ({ early, late }: PacedTolerance): string => `${early} s early, ${late} s late`;

const dayLabel = ({ deck }: Saying, id: string): string => deck.day?.find((one) => one.id === id)?.label ?? id;

const massWords = (s: Saying, { speed, value }: PacedMassAt): string => `those of ${dayLabel(s, speed)} ${value} kt`;

function failureWords(s: Saying, { condition, speed, share, from, to }: PacedFailure): string {
  const named = s.deck.conditions?.find(({ id }) => id === condition)?.label ?? condition;
  const about = dayLabel(s, speed);
  return `${named} in ${Math.round(share * 100)} % of the runs, from ${about} ${signed(from)} to ${about} ${signed(to)} kt`;
}

const signed = (x: number): string => (x < 0 ? `− ${-x}` : `+ ${x}`);

/** An area of the plan: what it is called is what it is. */
export function areaPart({ label, x, y, width, height }: Area, path: string, put: Put): void {
  const words = `${width} × ${height} at ${x}, ${y}`;
  const field: Field = { name: 'place on the plan', raw: [x, y, width, height], words, path, items: [] };
  put({
    key: `area ${label}`,
    parent: null,
    path,
    label: `Area of the flight deck: ${label}`,
    says: label,
    of: 'head',
    variants: '',
    fields: new Map([['rectangle', field]]),
  });
}
